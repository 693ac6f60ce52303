import type { Plan } from '../plan/schema'
import { close, emptyBooks, enter, stand, type Books } from '../ride/books'
import type { StepConditions } from '../ride/forces'
import { coasting, couldRide, packLimits, unpowered, walking, type Motion } from '../ride/motion'
import type { Route } from '../route/route'
import { forecast, type Sink } from './forecast'
import type { Halt, Outcome, OutcomeColumns } from './outcome'
import { prepare } from './prepare'
import type { Ride } from './ride'
import { startState } from './start'

/**
 * The whole forecast: the ride with its batteries, halts and crossings. Pure: the same route and plan give the same bits.
 *
 * @param route at least two stations
 * @param plan valid
 * @param spare columns of an outcome of the same route that nobody reads any more; they are written anew, which is quicker than new ones
 * @returns an Outcome that refers to both
 */
export function simulate(route: Route, plan: Plan, spare?: OutcomeColumns): Outcome {
  const prepared = prepare(route, plan)
  const { zone, started, weather, usable } = prepared
  const last = route.stations.distance.length - 1
  const columns = spare === undefined ? emptyColumns(last + 1) : { ...spare }
  const halts: Halt[] = []
  const books = emptyBooks()
  const sink = new ColumnsSink(columns, halts, books)
  const end = forecast(prepared, startState(prepared), { station: last, leaving: true }, sink)
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
    walked: lengthWith(route, columns.state, sink.seen & walking),
    packLimited: lengthWith(route, columns.state, sink.seen & packLimits),
  }
}

/** Columns of nought. @param stations how many */
export function emptyColumns(stations: number): OutcomeColumns {
  const column = () => new Float64Array(stations)
  return {
    time: column(),
    ridingTime: column(),
    speed: column(),
    riderWork: column(),
    motorWork: column(),
    state: new Uint8Array(stations),
    drained: column(),
    left: column(),
    pack: new Uint8Array(stations),
  }
}

/** Writes columns, halts and the energy account. */
export class ColumnsSink implements Sink {
  /** State bits of any step. */
  seen = 0

  constructor(
    private readonly columns: OutcomeColumns,
    readonly halts: Halt[],
    private readonly books: Books,
  ) {}

  arrive(station: number, { time, ridingTime, speed, riderWork, motorWork, batteries }: Ride): void {
    const { columns } = this
    columns.time[station] = time
    columns.ridingTime[station] = ridingTime
    columns.speed[station] = speed
    columns.riderWork[station] = riderWork
    columns.motorWork[station] = motorWork
    columns.drained[station] = batteries.drained()
    columns.left[station] = batteries.left()
    columns.pack[station] = batteries.active
  }

  leave(station: number, { batteries, speed }: Ride): void {
    this.columns.pack[station] = batteries.active
    if (speed === 0) stand(this.books)
  }

  rode(station: number, step: StepConditions, motion: Motion): void {
    const state = stateOf(step, motion)
    this.columns.state[station] = state
    this.seen |= state
    enter(this.books, step, motion)
  }
}

/** State bits of a step as it was ridden; on foot they say whether it was for want of what the packs give. */
export function stateOf(step: StepConditions, { state, riderWork, motorWork }: Motion): number {
  const limited = step.packPower < step.peakPower && step.packPower < step.assistRatio * step.riderPower
  if ((state & walking) !== 0)
    return limited && couldRide(step) ? state | (step.packPower > 0 ? packLimits : unpowered) : state
  if (riderWork === 0) return state | coasting
  return motorWork > 0 && limited ? state | packLimits : state
}

function lengthWith(route: Route, state: Uint8Array, bit: number): number {
  const { distance } = route.stations
  let sum = 0
  if (bit === 0) return sum
  for (let i = 0; i + 1 < distance.length; i++) if ((state[i]! & bit) !== 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
