import type { Plan } from '../plan/schema'
import { close } from '../ride/books'
import { packLimits, walking } from '../ride/motion'
import type { Route } from '../route/route'
import { ColumnsSink, emptyColumns } from './columns-sink'
import { forecast } from './forecast'
import type { Outcome } from './outcome'
import { prepare, type Prepared } from './prepare'
import { startState } from './start'
import type { RideState } from './state'

/**
 * The whole forecast: the ride with its batteries, halts and crossings. Pure: the same route and plan give the same bits.
 *
 * @param route at least two stations
 * @param plan valid
 * @returns an Outcome that refers to both
 */
export function simulate(route: Route, plan: Plan): Outcome {
  const prepared = prepare(route, plan)
  const last = route.stations.distance.length - 1
  const sink = new ColumnsSink(emptyColumns(last + 1))
  const end = forecast(prepared, startState(prepared), { station: last, leaving: true }, sink)
  return outcomeOf(prepared, sink, end)
}

/**
 * The Outcome of a ride that has ended.
 *
 * @param sink all of the ride is written in it
 * @param end the ride at the finish, with what happens there done
 */
export function outcomeOf(prepared: Prepared, { columns, halts, books, seen }: ColumnsSink, end: RideState): Outcome {
  const { route, plan, zone, started, weather, usable } = prepared
  close(books, prepared.conditions.step, end)
  return {
    route,
    plan,
    zone,
    started,
    weather,
    columns,
    limits: prepared.limits,
    halts,
    usable,
    leftAtStart: columns.left[0]!,
    reserve: plan.battery.reserve * usable,
    books,
    electric: {
      drained: end.packs.reduce((sum, { drained }) => sum + drained, 0),
      packLoss: end.packs.reduce((sum, { loss }) => sum + loss, 0),
      motorLoss: end.motorEnergy - books.motorWork,
      electronics: end.electronics,
      motorWork: books.motorWork,
    },
    reserveAt: end.reserveAt ?? undefined,
    emptyAt: end.emptyAt ?? undefined,
    length: route.length,
    walked: lengthWith(route, columns.state, seen & walking),
    packLimited: lengthWith(route, columns.state, seen & packLimits),
  }
}

function lengthWith(route: Route, state: Uint8Array, bit: number): number {
  const { distance } = route.stations
  let sum = 0
  if (bit === 0) return sum
  for (let i = 0; i + 1 < distance.length; i++) if ((state[i]! & bit) !== 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
