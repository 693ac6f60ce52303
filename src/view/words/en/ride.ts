import type { LightsAdvice } from '../../../model/readings/light'
import type { FootCause } from '../../../model/readings/on-foot'
import type { FootEdge } from '../../../model/studies/near-walking'
import type { LaterCause, StrongerLater } from '../../../model/studies/stronger'
import type { Reach } from '../../../model/readings/reach'
import type { Terrain } from '../../../model/readings/terrain'
import type { CoverGap } from '../../../model/world/cover-gap'
import type { PlaceName } from '../../../model/place-name'
import { fromShown, toShown, unitOf, type Format } from '../../format'
import { worded } from '../worded'

/** Of the ride as it is forecast. */
export const rideIn = (format: Format) => {
  const { distance, duration, energy, measure, percent, shortDistance } = format
  const footCauses: Record<FootCause, string> = {
    tooSteep: 'too steep to ride with this drive',
    noCharge: 'the motor could climb it, but no charge is left',
    weakPack: 'the motor could climb it, but the pack gives it too little',
  }
  /** `300 m on foot: too steep to ride with this drive`. @param length walked, m */
  const onFoot = (cause: FootCause, length: number) => `${shortDistance(length)} on foot: ${footCauses[cause]}`

  const place = worded<PlaceName>({
    given: ({ name }) => name,
    start: () => 'Start',
    finish: () => 'Finish',
    crossing: ({ number }) => `Crossing ${number}`,
    onlyCrossing: () => 'Crossing',
    crossingFrom: ({ name }) => `Crossing from ${name}`,
    afterCrossing: ({ number }) => `After crossing ${number}`,
    packSpent: () => 'Pack spent',
    at: ({ distance }) => format.place(distance),
  })

  const kilograms = (mass: number) => measure(mass, 'mass', 0)
  const massUnit = unitOf('mass', format.units)
  /** Whether so little mass is none in whole units. */
  const isNone = (mass: number) => Math.round(toShown(mass, massUnit)) === 0
  /** `about 8 kg`, `less than 1 kg`. */
  const about = (mass: number) =>
    isNone(mass) ? `less than ${kilograms(fromShown(1, massUnit))}` : `about ${kilograms(mass)}`
  const atTheEdge = (mass: number) => (isNone(mass) ? ' The plan stands right at the edge there.' : '')
  const laterCause = worded<LaterCause>({
    charging: ({ time }) => `${duration(time)} more at the charger`,
    onFoot: ({ length }) => `${shortDistance(length)} more on foot`,
    motorOff: ({ length }) => `the packs are spent sooner, and ${distance(length)} more go without the motor`,
    swaps: ({ count }) => (count === 1 ? 'one more swap of packs' : `${count} more swaps of packs`),
    weather: () => 'you meet other weather',
  })

  return {
    onFoot,

    /** What a place of the ride is called. */
    place,

    /** `42.1 km, to km 124.5`, or `to the finish, 118 Wh (12 %) to spare, about 24 km more`. */
    reach: ({ until, length, spare, spareLength }: Reach, usable: number): string => {
      if (until !== undefined)
        return length > 0 ? `${distance(length)}, to ${format.place(until)}` : 'none: already below the reserve'
      const more = spareLength === undefined ? '' : `, about ${distance(spareLength, 0)} more`
      return `to the finish, ${energy(spare)} (${percent(spare / usable)}) to spare${more}`
    },

    terrain: { climb: 'climb', descent: 'descent', rolling: 'rolling' } satisfies Record<Terrain, string>,

    /** What a weather table leaves out. */
    coverGap: ({ code, place }: CoverGap) => {
      const table = `The weather table${place === undefined ? '' : ` for ${place}`}`
      return code === 'beginsLate'
        ? `${table} begins after the start: its first row stands in before.`
        : `${table} ends before the finish: its last row stands in after.`
    },

    /** Where a little mass decides whether one rides or walks. */
    nearWalking: {
      heavier: ({ mass, distance, cause, tried, length }: FootEdge) =>
        `With ${about(mass)} more you would walk at ${format.place(distance)}: ${footCauses[cause]}.${atTheEdge(mass)}${length > 0 ? ` With ${kilograms(tried)} more it is ${shortDistance(length)} more on foot.` : ''}`,
      lighter: ({ mass, distance, tried, length }: FootEdge) =>
        `With ${about(mass)} less you would ride at ${format.place(distance)}.${atTheEdge(mass)}${length > 0 ? ` With ${kilograms(tried)} less it is ${shortDistance(length)} less on foot.` : ''}`,
    },
    /** That more power makes the day longer, and why. */
    strongerLater: ({ more, time, causes }: StrongerLater) =>
      `With ${percent(more)} more power of your own the day would be ${duration(time)} longer${causes.length > 0 ? `: ${causes.map(laterCause).join('; ')}` : ''}.`,

    lights: {
      dark: 'Part of the ride is in twilight or dark: carry lights front and rear, charged.',
      late: 'By plan it is daylight all the way, but a late hour ends in the dark: carry lights.',
      day: 'By plan it is daylight all the way; small lights still help in tunnels, rain and fog, and the law may ask for them.',
    } satisfies Record<LightsAdvice, string>,
  }
}
