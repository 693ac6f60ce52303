import { crossingsFor } from './crossings'
import { onRide, onTrack, type Travelled } from '../route/travelled'
import type { Route } from '../route/route'
import { setFields } from './edit'
import { mapped, merged } from './lists'
import type { Plan, PlanCrossing, PlanStretch } from './schema'

/** A route, and what of its track is not ridden. */
interface Ridden {
  route: Route
  travelled: readonly Travelled[]
}

const same = 1 // m

/**
 * A plan when other parts of the same track are ridden: stops, controls and places of the weather stay at the same place of the road, and
 * what lies in a part that is not ridden any more stands where that begins; each crossing keeps its timetable and source. A stretch
 * keeps both ends; one that lies wholly in what is not ridden any more has no road left, and goes.
 *
 * @param plan for the route before
 */
export function keepPlaces(plan: Plan, before: Ridden, after: Ridden): Plan {
  const moved = (distance: number, end?: 'behind') => {
    const there = onRide(after.travelled, onTrack(before.travelled, distance, end))
    return Math.abs(there - distance) < 1e-6 ? distance : there
  }
  const place = <T extends { distance: number }>(at: T): T => merged(at, { distance: moved(at.distance) } as Partial<T>)
  const bothEnds = (stretch: PlanStretch) =>
    merged(stretch, { start: moved(stretch.start, 'behind'), end: moved(stretch.end) })
  const stretches = mapped(plan.stretches, bothEnds)
  const isLeft = ({ start, end }: PlanStretch) => end - start > same
  const { table } = plan.weather
  return merged(setFields(plan, 'weather', { table: mapped(table, place) }), {
    stops: mapped(plan.stops, place),
    readings: mapped(plan.readings, place),
    controls: mapped(plan.controls, place),
    stretches: stretches.every(isLeft) ? stretches : stretches.filter(isLeft),
    crossings: crossingsKept(plan, before, after),
  })
}

function crossingsKept(plan: Plan, before: Ridden, after: Ridden): PlanCrossing[] {
  const old = before.travelled.filter(({ place }) => place === 'between')
  const assumed = crossingsFor(after.route, { ...plan, crossings: [] })
  const stated = after.travelled
    .filter(({ place }) => place === 'between')
    .map((now) => {
      const was = old.findIndex((one) => Math.abs(one.from - now.from) < same && Math.abs(one.to - now.to) < same)
      return plan.crossings[was]
    })
  const last = stated.findLastIndex((crossing) => crossing !== undefined)
  return stated.slice(0, last + 1).map((crossing, i) => crossing ?? assumed[i]!)
}
