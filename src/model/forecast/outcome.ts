import type { Refusal } from '../battery/refusal'
import type { TransferRun } from '../battery/transfer-run'
import type { Sailing } from '../world/sailings'
import type { WeatherAlong } from '../world/weather-along'
import type { Plan } from '../plan/schema'
import type { Books } from '../ride/books'
import type { Route } from '../route/route'

/** Columns of an Outcome, one entry per station. */
export interface OutcomeColumns {
  /** Seconds since the start on arrival at the station, halts before it included. */
  time: Float64Array
  /** Seconds in motion up to the station. */
  ridingTime: Float64Array
  /** On arrival, m/s. */
  speed: Float64Array
  /** Work up to the station, J. */
  riderWork: Float64Array
  motorWork: Float64Array
  /** Bits walking, braking, coasting, packLimits, unpowered, of the step from this station to the next. */
  state: Uint8Array
  /** Energy taken from inside the packs up to the station, J; what charge they lose, their own losses included. */
  drained: Float64Array
  /** Usable energy in all packs on arrival, J: above the charge at which the motor stops. */
  left: Float64Array
  /** Index of the pack in use from the station on. */
  pack: Uint8Array
}

/** What was put into one pack during a halt. */
export interface PackCharge {
  pack: number
  run: TransferRun
}

/** Indices of two packs of the plan: the one in use before and the one in use after; one pack twice where no other had charge left. */
export interface Swap {
  off: number
  on: number
}

/** A time at which the rider stands still. */
export interface Halt {
  kind: 'stop' | 'swap' | 'crossing' | 'control'
  station: number
  /** Ridden distance, m. */
  distance: number
  /** Seconds since the start. */
  arrive: number
  depart: number
  /** Usable energy in all packs, J. */
  leftBefore: number
  leftAfter: number
  /** Charge of each pack on arrival, 0 to 1. */
  packsBefore: number[]
  /** Charge of the carried pack that is the source here, on arrival and on leaving, 0 to 1. */
  carried?: { before: number; after: number }
  /** Id of the stop or control of the plan, or index of the route's crossing. */
  stop?: string
  control?: string
  gap?: number
  sailing?: Sailing
  charges: PackCharge[]
  /** The swap planned here, or that of a spent pack. */
  swap?: Swap
  /** Why the charge source was refused. */
  refusal?: Refusal
}

/** Where the packs' energy went, J. */
export interface ElectricBooks {
  drained: number
  /** Heat in the packs' resistance. */
  packLoss: number
  motorLoss: number
  electronics: number
  motorWork: number
}

/** What the route and the plan give. */
export interface Outcome {
  route: Route
  plan: Plan
  /** Time zone of the day's clock, tz database, and the start in it, Unix time, s. */
  zone: string
  started: number
  weather: WeatherAlong
  columns: OutcomeColumns
  /** Fastest speed at each station by bends, halts, braking before them and the rider, squared, m²/s²; linear between. */
  limits: Float64Array
  halts: Halt[]
  /** Usable energy of all packs when full, at their present health and temperature, J. */
  usable: number
  /** Usable energy at the start, J. */
  leftAtStart: number
  /** The reserve, J. */
  reserve: number
  books: Books
  electric: ElectricBooks
  /** Ridden distance at which the charge falls below the reserve, and at which the motor stops for good, m; undefined if it does not. */
  reserveAt: number | undefined
  emptyAt: number | undefined
  /** Ridden length, m; on foot; and where the pack gave the motor less than it asked for. */
  length: number
  walked: number
  packLimited: number
}

/** Usable energy at the finish, J, after whatever halt stands there. */
export const leftAtFinish = (outcome: Outcome): number => leftAfter(outcome, outcome.columns.left.length - 1)

/** Usable energy when leaving a station, J. */
export function leftAfter(outcome: Outcome, station: number): number {
  return haltsBetween(outcome, station - 1, station).at(-1)?.leftAfter ?? outcome.columns.left[station]!
}

/** Seconds since the start when leaving a station. */
export function departure(outcome: Outcome, station: number): number {
  return haltsBetween(outcome, station - 1, station).at(-1)?.depart ?? outcome.columns.time[station]!
}

/** Halts beyond a station as far as another, that one included, in order. */
export function haltsBetween({ halts }: Outcome, first: number, last: number): Halt[] {
  return halts.slice(haltsUpTo(halts, first), haltsUpTo(halts, last))
}

/** How many halts there are up to a station, by bisection: they lie in the order of the route. */
function haltsUpTo(halts: readonly Halt[], station: number): number {
  let [low, high] = [0, halts.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (halts[middle]!.station <= station) low = middle + 1
    else high = middle
  }
  return low
}
