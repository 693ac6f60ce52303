import type { Outcome } from '../forecast/outcome'
import type { PlaceName } from '../place-name'
import type { PlanStretch } from '../plan/schema'
import { inOrder } from '../plan/stretches'

/** A stretch of the plan as one says it: from where to where. */
export interface StretchOnWay {
  stretch: PlanStretch
  from: PlaceName
  to: PlaceName
}

/** An end as near as this to a named place is at it, m. A choice. */
const atPlace = 250

/**
 * The stretches that say something of their own, in order of the ride; their ends by the stop, control, crossing or waypoint that lies there, else
 * by their distance. What lies beyond the finish is left out.
 */
export function stretchesOnWay(outcome: Outcome): StretchOnWay[] {
  const { plan, length } = outcome
  const places = namedPlaces(outcome)
  const nameOf = (distance: number): PlaceName => {
    const [nearest] = places
      .map(({ name, distance: at }) => ({ name, apart: Math.abs(at - distance) }))
      .filter(({ apart }) => apart <= atPlace)
      .sort((a, b) => a.apart - b.apart)
    return nearest?.name ?? { code: 'at', distance }
  }
  return inOrder(plan.stretches)
    .filter((stretch) => saysSomething(stretch) && stretch.start < length)
    .map((stretch) => {
      const [start, end] = [stretch.start, Math.min(stretch.end, length)]
      const [from, to] = [nameOf(start), nameOf(end)]
      // A short one may lie all at one place.
      return from === to
        ? { stretch, from: { code: 'at', distance: start }, to: { code: 'at', distance: end } }
        : { stretch, from, to }
    })
}

const saysSomething = ({ surface, shelter, speedLimit, assistRatio }: PlanStretch) =>
  [surface, shelter, speedLimit, assistRatio].some((own) => own !== null)

/** Of equally near places the first counts: start and finish, then what the plan names, what the file does, and crossings. */
function namedPlaces({ plan, route, length }: Outcome): { name: PlaceName; distance: number }[] {
  const given = [...plan.stops, ...plan.controls, ...route.waypoints]
  return [
    { name: { code: 'start' }, distance: 0 },
    { name: { code: 'finish' }, distance: length },
    ...given.flatMap(({ name, distance }) =>
      distance === undefined || name.trim() === '' ? [] : [{ name: { code: 'given', name } as const, distance }],
    ),
    ...route.crossings.map(({ distance }, i) => ({ name: { code: 'crossing', number: i + 1 } as const, distance })),
  ]
}
