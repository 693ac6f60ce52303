import type { Plan } from '../plan/schema'
import { emptyBooks, enter, type Books } from '../ride/books'
import type { StepConditions } from '../ride/forces'
import { coasting, couldRide, packLimits, unpowered, walking, type Motion } from '../ride/motion'
import type { Route } from '../route/route'
import { rideOn, type Sink } from './forecast'
import type { Halt, Outcome, OutcomeColumns } from './outcome'
import { prepare } from './prepare'
import { Ride } from './ride'

/**
 * The whole forecast: the ride with its batteries, halts and crossings. Pure: the same route and plan give the same bits.
 *
 * @param route at least two stations
 * @param plan valid
 * @returns an Outcome that refers to both
 */
export function simulate(route: Route, plan: Plan): Outcome {
  const prepared = prepare(route, plan)
  const { zone, started, weather } = prepared
  const last = route.stations.distance.length - 1
  const columns = emptyColumns(last + 1)
  const halts: Halt[] = []
  const books = emptyBooks()
  const ride = new Ride(prepared)
  const leftAtStart = ride.batteries.left()
  rideOn(prepared, ride, { station: last, leaving: true }, intoColumns(columns, halts, books))
  const { batteries, motorEnergy, electronics } = ride
  return {
    route,
    plan,
    zone,
    started,
    weather,
    columns,
    limits: prepared.limits,
    halts,
    usable: batteries.usable,
    leftAtStart,
    reserve: plan.battery.reserve * batteries.usable,
    books,
    electric: {
      drained: batteries.drained(),
      packLoss: batteries.packLoss(),
      motorLoss: motorEnergy - books.motorWork,
      electronics,
      motorWork: books.motorWork,
    },
    reserveAt: ride.reserveAt ?? undefined,
    emptyAt: ride.emptyAt ?? undefined,
    length: route.length,
    walked: lengthWith(route, columns.state, walking),
    packLimited: lengthWith(route, columns.state, packLimits),
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

/** A sink that writes columns, halts and the energy account. */
export const intoColumns = (columns: OutcomeColumns, halts: Halt[], books: Books): Sink =>
  new ColumnsSink(columns, halts, books)

class ColumnsSink implements Sink {
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
  }

  leave(station: number, { batteries, speed }: Ride): void {
    this.columns.pack[station] = batteries.active
    if (speed === 0) {
      this.books.braking += this.books.kinetic
      this.books.kinetic = 0
    }
  }

  rode(station: number, step: StepConditions, motion: Motion): void {
    this.columns.state[station] = stateOf(step, motion)
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
  for (let i = 0; i + 1 < distance.length; i++) if ((state[i]! & bit) !== 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
