import type { Plan } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { controlsIn } from './controls'
import { crossingsIn } from './crossings'
import { factsIn } from './facts'
import { hourlyIn } from './hourly'
import { packsIn } from './packs'
import { riderTestIn } from './riderTest'

/** Of the groups of the sheet that are folded at first. */
export const foldedIn = (format: Format) => {
  const { measure } = format
  return {
    controls: controlsIn(),
    crossings: crossingsIn(format),
    facts: factsIn(format),
    hourly: hourlyIn(format),
    packs: packsIn(format),
    riderTest: riderTestIn(format),
    bike: (total: number, withoutRider: number) =>
      `In all ${measure(total, 'mass')}, of which ${measure(withoutRider, 'mass')} bike, packs and luggage.`,

    assist: {
      law: 'Local law decides.',
      motor: 'Motor',
      motors: { crank: 'At the crank, by the chain', hub: 'In a hub' } satisfies Record<
        Plan['assist']['place'],
        string
      >,
      lit: 'Lit',
      lights: { always: 'All the way', dark: 'In twilight and dark' } satisfies Record<
        Plan['assist']['lightsOn'],
        string
      >,
    },

    weather: {
      windFrom: (point: string) => `That is ${point}.`,
      land: 'Land',
    },
  }
}
