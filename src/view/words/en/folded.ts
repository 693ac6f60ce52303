import type { Surroundings } from '../../../model/plan/parameters'
import type { Plan } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { controlsIn } from './controls'
import { crossingsIn } from './crossings'
import { factsIn } from './facts'
import { fieldsIn } from './fields'
import { hourlyIn } from './hourly'
import { packsIn } from './packs'
import { riderTestIn } from './riderTest'
import { choice } from './shownFields'

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

    fields: {
      ...fieldsIn(format),
      /** Of what is not in the catalogue, for its bounds are those of the route or the day. */
      controlPlace: {
        label: 'Place',
        meaning: 'Ridden distance from the start.',
        source: 'The rules of the event.',
      },
      controlDay: {
        label: 'Days after the start',
        meaning: 'Nights between the day of the start and this time.',
        source: 'The rules of the event.',
      },
      weatherPlace: {
        ...choice,
        label: 'Place',
        meaning: 'Ridden distance from the start. Between two places the weather goes over evenly.',
      },
    },

    surroundings: {
      'open water': 'Open water',
      'open grassland': 'Open grassland',
      'farmland with low crops': 'Farmland with low crops',
      'farmland with hedges': 'Farmland with hedges',
    } satisfies Record<Surroundings, string>,

    /** Of the bike's mass as it is asked for. @param packs mass of its packs, kg */
    massOnScale: (packs: number) => ({
      label: 'Bike with its packs',
      meaning: `What a scale says with the packs in and the bags off, racks and lights on; ${measure(packs, 'mass')} of it are the packs. A pack more or less changes it.`,
      source: 'A scale.',
    }),

    bike: (total: number, withoutRider: number) =>
      `In all ${measure(total, 'mass')}, of which ${measure(withoutRider, 'mass')} bike, packs and luggage.`,

    assist: {
      law: 'Local law decides.',
      motor: 'Motor',
      motors: { crank: 'At the crank, by the chain', hub: 'In a hub' } satisfies Record<
        Plan['assist']['place'],
        string
      >,
      /** @param fed names of what of the kit draws from the packs */
      oneLamp: (fed: readonly string[]) =>
        `Of the bike’s own lamps. ${fed.length === 0 ? 'A lamp, charger or gloves that you bring are told what they draw under “What comes along”.' : `From the packs draw besides: ${fed.join(', ')}, under “What comes along”.`}`,
      lit: 'Lamps burn',
      lights: { always: 'All the way', dark: 'In twilight and dark' } satisfies Record<
        Plan['assist']['lightsOn'],
        string
      >,
    },

    weather: {
      windFrom: (point: string) => `That is ${point}.`,
      land: 'Beside the road',
    },
  }
}
