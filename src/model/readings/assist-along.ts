import { row, rowLength, writeAssist } from '../forecast/steps'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'

/** The assist of a plan along a route: motor power for each watt of the rider, one entry a station, for the step from it to the next. */
export function assistAlong(route: Route, plan: Plan): Float64Array {
  const { distance } = route.stations
  const steps = new Float64Array(rowLength * distance.length)
  writeAssist(steps, route, plan)
  return distance.map((_, i) => steps[rowLength * i + row.assist]!)
}
