import { emptyBooks, enter, stand, type Books } from '../ride/books'
import type { StepConditions } from '../ride/forces'
import { coasting, couldRide, packLimits, unpowered, walking, type Motion } from '../ride/motion'
import type { Sink } from './forecast'
import type { Halt, OutcomeColumns } from './outcome'
import type { Ride } from './ride'

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

const columnNames = Object.keys(emptyColumns(0)) as (keyof OutcomeColumns)[]

/** Halts noted, energy account, and state bits of any step. */
export interface Account {
  halts: number
  books: Books
  seen: number
}

/** Writes columns, halts and the energy account. */
export class ColumnsSink implements Sink {
  halts: Halt[] = []
  books = emptyBooks()
  /** State bits of any step. */
  seen = 0

  constructor(readonly columns: OutcomeColumns) {}

  /** How far the account is, to be gone on from; columns apart. */
  mark(): Account {
    return { halts: this.halts.length, books: { ...this.books }, seen: this.seen }
  }

  /**
   * Takes over what another has written up to a station.
   *
   * @param account of the other, on arrival at the station
   */
  takeOver(other: ColumnsSink, station: number, { halts, books, seen }: Account): void {
    for (const name of columnNames) this.columns[name].set(other.columns[name].subarray(0, station))
    this.halts = other.halts.slice(0, halts)
    this.books = { ...books }
    this.seen = seen
  }

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
