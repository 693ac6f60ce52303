import type { Plan } from '../plan/schema'
import { packLimits, walking } from '../ride/motion'
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
  const { zone, started, weather, conditions } = prepared
  const last = route.stations.distance.length - 1
  const columns = emptyColumns(last + 1)
  const halts: Halt[] = []
  const ride = new Ride(prepared)
  const leftAtStart = ride.batteries.left()
  rideOn(prepared, ride, { station: last, leaving: true }, intoColumns(columns, halts))
  const { batteries, books, motorEnergy, electronics } = ride
  books.kinetic = 0.5 * conditions.step.inertialMass * ride.speed * ride.speed
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

/** A sink that writes columns and halts. */
export const intoColumns = (columns: OutcomeColumns, halts: Halt[]): Sink => new ColumnsSink(columns, halts)

class ColumnsSink implements Sink {
  constructor(
    private readonly columns: OutcomeColumns,
    readonly halts: Halt[],
  ) {}

  arrive(station: number, { time, ridingTime, speed, books, batteries }: Ride): void {
    const { columns } = this
    columns.time[station] = time
    columns.ridingTime[station] = ridingTime
    columns.speed[station] = speed
    columns.riderWork[station] = books.riderWork
    columns.motorWork[station] = books.motorWork
    columns.drained[station] = batteries.drained()
    columns.left[station] = batteries.left()
  }

  leave(station: number, { batteries }: Ride): void {
    this.columns.pack[station] = batteries.active
  }

  rode(station: number, state: number): void {
    this.columns.state[station] = state
  }
}

function lengthWith(route: Route, state: Uint8Array, bit: number): number {
  const { distance } = route.stations
  let sum = 0
  for (let i = 0; i + 1 < distance.length; i++) if ((state[i]! & bit) !== 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
