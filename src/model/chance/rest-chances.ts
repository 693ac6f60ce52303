import type { Deadline } from './deadlines'
import { observationsOf, type AskedWay, type RestRidden, type RideOn, type WayReading } from './on-the-way'
import { effectiveSize, evenWeights, proposalFor, weightsOf } from './particles'
import type { Band, Estimate } from './spread'

/** How the rest of a day goes by one way to ride on. */
export interface RestChances extends RideOn {
  /** That the charge lasts above the reserve, and that the motor helps to the finish. */
  reserve: Estimate
  motor: Estimate
  /** Finish, s since the start, and share of charge left there. */
  time: Band
  left: Band
  /** At each place beyond the last reading, by ridden distance, m. */
  places: { distance: number; clock: Band; charge: Band }[]
  deadlines: (Deadline & { chance: Estimate })[]
}

/** What readings on the way tell of the rest of the day. */
export interface Rest {
  ways: RestChances[]
  /** Days that count as much as equally likely ones, of all that were ridden, by what the readings make likely; where they are too few, others count too. */
  effective: number
  days: number
  /** How far the readings lie from what was believed before them, in standard deviations: the farthest of all clocks, and of all charges; positive where later, or more. */
  late: number
  spare: number
}

/** Standard deviations from which a reading is odd, and days that are too few to tell. Choices. */
const [oddFrom, tooFew] = [3.5, 10]

/** Whether the readings are hardly likely by all that is believed of the day. */
export const isOdd = ({ late, spare, effective }: Rest): boolean =>
  Math.max(Math.abs(late), Math.abs(spare)) > oddFrom || effective < tooFew

/** Enough days where this share of them counts; else they are drawn anew, so often at most. Choices. */
const enough = 0.25
const mostDraws = 3
/** Of the days so large a share counts at the least, however odd the readings are. A choice. */
const least = 0.06
/** Days that tell where to draw from. */
const scouts = 256

/**
 * The rest of a day from readings on the way: days drawn by what is believed show how what was read hangs on each figure; by that law others are drawn,
 * each weighed by how likely it makes what was read, and drawn anew where too few count.
 *
 * @param asked with its sampling for the days that count; its proposal is not used
 * @param deadlines of the day as planned; those beyond the last reading are answered, but for the goal for riding, since no reading tells for how long
 * the rider stood
 * @param ride rides all days that are asked for, in any parts; undefined where that is given up
 */
export async function restOf(
  asked: AskedWay,
  deadlines: readonly Deadline[],
  ride: (asked: AskedWay) => Promise<readonly RestRidden[] | undefined>,
): Promise<Rest | undefined> {
  const read = observationsOf(asked.readings)
  const last = asked.readings.at(-1)!.distance
  const ahead = deadlines.filter(({ kind, distance }) => kind !== 'ridingGoal' && distance > last)
  const places = [...asked.places, ...ahead.map(({ distance }) => distance)]
  const { sampling } = asked
  const first = await ride({
    ...asked,
    sampling: { ...sampling, days: scouts },
    proposal: undefined,
    ways: [],
    places: [],
  })
  if (first === undefined) return undefined
  const [late, spare] = surprises(together(first), asked.readings, read)
  let { points, foretold } = together(first)
  for (let draw = 1; ; draw++) {
    const next = { ...asked, places, proposal: proposalFor(points, foretold, read) }
    const drawn = await ride({ ...next, ways: [] })
    if (drawn === undefined) return undefined
    const all = together(drawn)
    const weights = evenWeights(all.logWeight, least * sampling.days)
    const effective = effectiveSize(weightsOf(all.logWeight))
    if (effective < enough * sampling.days && draw < mostDraws) {
      ;({ points, foretold } = all)
      continue
    }
    const whole = await ride(next)
    if (whole === undefined) return undefined
    const ridden = together(whole)
    const ways = asked.ways.map((way, w) => chancesOf(way, ridden, w, weights, sampling.replicates, ahead))
    return { ways, effective, days: sampling.days, late, spare }
  }
}

/** How far what was read lies from what is foretold by days as believed, clock and charge. */
function surprises(
  { foretold }: RestRidden,
  readings: readonly WayReading[],
  read: ReturnType<typeof observationsOf>,
): [number, number] {
  const off = read.map(({ value, variance }, k) => {
    const mean = foretold.reduce((sum, one) => sum + one[k]!, 0) / foretold.length
    const spread = foretold.reduce((sum, one) => sum + (one[k]! - mean) ** 2, 0) / foretold.length
    return (value - mean) / Math.sqrt(spread + variance)
  })
  const farthest = (from: number) =>
    readings.reduce((most, _, r) => (Math.abs(off[2 * r + from]!) > Math.abs(most) ? off[2 * r + from]! : most), 0)
  return [farthest(0), farthest(1)]
}

/** Days one after the other as one. @param parts in any order, that follow each other without a gap */
function together(parts: readonly RestRidden[]): RestRidden {
  const inOrder = [...parts].sort((a, b) => a.first - b.first)
  const numbers = (of: (part: RestRidden) => ArrayLike<number>) =>
    Float64Array.from(inOrder.flatMap((part) => Array.from(of(part))))
  const flags = (of: (part: RestRidden) => Uint8Array) => Uint8Array.from(inOrder.flatMap((part) => [...of(part)]))
  return {
    first: 0,
    points: inOrder.flatMap(({ points }) => points),
    foretold: inOrder.flatMap(({ foretold }) => foretold),
    logWeight: numbers(({ logWeight }) => logWeight),
    places: inOrder[0]!.places,
    ways: inOrder[0]!.ways.map((_, w) => ({
      time: numbers(({ ways }) => ways[w]!.time),
      left: numbers(({ ways }) => ways[w]!.left),
      reserve: flags(({ ways }) => ways[w]!.reserve),
      motor: flags(({ ways }) => ways[w]!.motor),
      arrive: numbers(({ ways }) => ways[w]!.arrive),
      charge: numbers(({ ways }) => ways[w]!.charge),
    })),
  }
}

function chancesOf(
  way: RideOn,
  { ways, places }: RestRidden,
  w: number,
  weights: Float64Array,
  replicates: number,
  deadlines: readonly Deadline[],
): RestChances {
  const { time, left, reserve, motor, arrive, charge } = ways[w]!
  const count = places.length
  const at = (column: Float64Array, place: number) => time.map((_, day) => column[day * count + place]!)
  return {
    ...way,
    reserve: weighted(weights, replicates, (day) => reserve[day]!),
    motor: weighted(weights, replicates, (day) => motor[day]!),
    time: weightedBand(time, weights),
    left: weightedBand(left, weights),
    places: Array.from(places, (distance, place) => ({
      distance,
      clock: weightedBand(at(arrive, place), weights),
      charge: weightedBand(at(charge, place), weights),
    })),
    deadlines: deadlines.map((deadline) => {
      const off = places.map((place) => Math.abs(place - deadline.distance))
      const place = off.indexOf(Math.min(...off))
      return {
        ...deadline,
        chance: weighted(weights, replicates, (day) => (arrive[day * count + place]! <= deadline.latest ? 1 : 0)),
      }
    }),
  }
}

/**
 * A weighted mean over days with its standard error, from how far each replicate's own mean lies from it.
 *
 * @param replicates each of as many days, one behind the other
 * @see the error of a ratio, Cochran 1977, Sampling Techniques, chapter 6; from memory
 */
export function weighted(weights: Float64Array, replicates: number, of: (day: number) => number): Estimate {
  const each = weights.length / replicates
  const sums = Array.from({ length: replicates }, (_, r) => {
    let [whole, part] = [0, 0]
    for (let day = r * each; day < (r + 1) * each; day++) {
      whole += weights[day]!
      part += weights[day]! * of(day)
    }
    return { whole, part }
  })
  const all = sums.reduce((sum, { whole }) => sum + whole, 0)
  const value = sums.reduce((sum, { part }) => sum + part, 0) / all
  const squares = sums.reduce((sum, { whole, part }) => sum + (part - value * whole) ** 2, 0)
  return { value, error: (Math.sqrt(squares / (replicates - 1) / replicates) * replicates) / all }
}

/** The values that a tenth, half and nine tenths of the weight lie below. @param weights that sum to 1 */
export function weightedBand(values: Float64Array, weights: Float64Array): Band {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!)
  const below = (share: number): number => {
    let sum = 0
    for (const day of order) {
      sum += weights[day]!
      if (sum >= share) return values[day]!
    }
    return values[order.at(-1)!]!
  }
  return { low: below(0.1), middle: below(0.5), high: below(0.9) }
}

/** What the rider is told: whether it is enough, and the assist to ride on with. */
export interface Advice {
  verdict: 'enough' | 'likely' | 'doubtful' | 'not'
  /** The greatest factor on the plan's assist with which the charge lasts with the wanted chance; undefined where none does. */
  assist: number | undefined
}

/** The chance that is wanted. A choice. */
export const wanted = 0.9

/** @param ways without a power of their own, in order of their assist, that of the plan among them */
export function adviceOf(ways: readonly RestChances[]): Advice {
  const planned = ways.find(({ assist }) => assist === 1)!.reserve.value
  const verdict = planned >= wanted ? 'enough' : planned >= 0.6 ? 'likely' : planned >= 0.25 ? 'doubtful' : 'not'
  const k = ways.findLastIndex(({ reserve }) => reserve.value >= wanted)
  const [good, next] = [ways[k], ways[k + 1]]
  if (good === undefined) return { verdict, assist: undefined }
  if (next === undefined) return { verdict, assist: good.assist }
  const share = (good.reserve.value - wanted) / (good.reserve.value - next.reserve.value)
  return { verdict, assist: good.assist + share * (next.assist - good.assist) }
}
