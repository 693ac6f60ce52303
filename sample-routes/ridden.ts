import { defaultStop } from '../src/model/plan/defaults'
import type { Plan } from '../src/model/plan/schema'
import type { Outcome } from '../src/model/forecast/outcome'
import { simulate } from '../src/model/forecast/simulate'
import type { Part } from '../src/model/route/parts'
import type { Route } from '../src/model/route/route'
import { between, makeRandom, normal, type Random, smoothNoise } from './random'

/** How a ride is recorded, and what its day brings beside the plan. */
export interface Riding {
  seed: number
  /** s between points, from and to */
  every: readonly [number, number]
  /** position error that stays for a while, standing or not: standard deviation, m, and how long, s; and one from point to point, m */
  receiver: { deviation: number; stays: number; jitter: number }
  /** of the barometer: standard deviation and spacing of its knots, m and s; from point to point, m */
  barometer: { deviation: number; spacing: number; jitter: number }
  /** how unevenly the rider goes on: share of the pace, and over what way, m */
  pace: { deviation: number; spacing: number }
  /** halts: ridden distance, m, and how long, s */
  halts: readonly { distance: number; time: number }[]
  /** whether the receiver runs on aboard */
  aboard: boolean
}

/** A recording with the truth behind it. */
export interface Ridden {
  /** one, or one for each ridden part */
  parts: Part[]
  outcome: Outcome
  /** as they were, waiting to sail included: ridden distance, m, arriving, Unix time, and how long, s */
  halts: { distance: number; arrive: number; time: number }[]
}

/** before a ship sails, and after it has landed, s */
const boarding = 900
const landing = 240
const radius = 6_371_000
const degree = Math.PI / 180

/**
 * A ride by the forecast, with an uneven pace and halts, as a receiver would have recorded it.
 *
 * @param route the road as it is
 * @param plan of the ride as it is; its stops are replaced by the halts
 * @param start Unix time, s
 */
export function rideAndRecord(route: Route, plan: Plan, riding: Riding, start: number): Ridden {
  const stops = riding.halts.map(({ distance, time }, i) => ({
    ...defaultStop(`halt-${i + 1}`, '', distance, null),
    duration: time,
  }))
  const outcome = simulate(route, { ...plan, stops, rider: { ...plan.rider, smallHalts: 0 } })
  const { arrive, depart } = clockOf(outcome, riding)
  const random = makeRandom(riding.seed, 'sampling')
  const blur = blurred(riding, depart.at(-1)!)
  const parts: Part[] = []
  let columns = noColumns()
  const { latitude, longitude, elevation } = route.stations
  const ends = new Set(route.sections.map(({ last }) => last))
  let i = 0
  for (let now = 0; ; now += Math.round(between(random, riding.every[0], riding.every[1]))) {
    const last = arrive.length - 1
    const t = Math.min(now, arrive[last]!)
    while (i < last && arrive[i + 1]! <= t) i++
    const aboard = ends.has(i) && i < last && t > depart[i]!
    if (aboard && !riding.aboard) {
      if (columns.time.length > 0) parts.push(partOf(columns))
      columns = noColumns()
      continue
    }
    const next = Math.min(i + 1, last)
    const sets = depart[i]! + (ends.has(i) ? boarding : 0)
    const lands = arrive[next]! - (ends.has(i) ? landing : 0)
    const share = t <= sets || next === i ? 0 : Math.min(1, (t - sets) / (lands - sets))
    const along = (column: Float64Array) => column[i]! + share * (column[next]! - column[i]!)
    const error = blur(t)
    columns.latitude.push(along(latitude) + error.north / radius / degree)
    columns.longitude.push(along(longitude) + error.east / radius / degree / Math.cos(latitude[i]! * degree))
    columns.elevation.push(along(elevation) + error.up)
    columns.time.push(start + t)
    if (t < now || t === arrive[last]!) break
  }
  parts.push(partOf(columns))
  const halts = outcome.halts.flatMap(({ kind, station, distance, arrive: from, depart: to }) => {
    const at = start + arrive[station]!
    if (kind !== 'crossing') return [{ distance, arrive: at, time: to - from }]
    if (!riding.aboard) return []
    return [
      { distance, arrive: at, time: boarding },
      { distance, arrive: start + arrive[station + 1]! - landing, time: landing },
    ]
  })
  return { parts, outcome, halts }
}

/** Arriving at each station and leaving it, s since the start, at the uneven pace. */
function clockOf({ columns, halts, route }: Outcome, { seed, pace }: Riding) {
  const { ridingTime } = columns
  const uneven = smoothNoise(makeRandom(seed, 'pace'), pace.deviation, pace.spacing, route.length)
  const arrive = new Float64Array(ridingTime.length)
  const depart = new Float64Array(ridingTime.length)
  const stands = new Map<number, number>()
  for (const { station, arrive, depart } of halts) stands.set(station, (stands.get(station) ?? 0) + depart - arrive)
  const crosses = new Set(halts.filter(({ kind }) => kind === 'crossing').map(({ station }) => station))
  for (let i = 0; i < arrive.length; i++) {
    if (i > 0) {
      const step = (ridingTime[i]! - ridingTime[i - 1]!) * Math.exp(uneven(route.stations.distance[i]!))
      arrive[i] = depart[i - 1]! + step + (crosses.has(i - 1) ? stands.get(i - 1)! : 0)
    }
    depart[i] = arrive[i]! + (crosses.has(i) ? 0 : (stands.get(i) ?? 0))
  }
  return { arrive, depart }
}

/** Errors of a receiver and a barometer at a time, m, asked for in order. */
function blurred({ seed, receiver, barometer }: Riding, end: number) {
  const stays = (purpose: string) => {
    const random = makeRandom(seed, purpose)
    let at = 0
    let value = receiver.deviation * normal(random)
    return (t: number) => {
      const keeps = Math.exp(-(t - at) / receiver.stays)
      at = t
      value = keeps * value + Math.sqrt(1 - keeps * keeps) * receiver.deviation * normal(random)
      return value + receiver.jitter * normal(random)
    }
  }
  const [north, east] = [stays('north'), stays('east')]
  const drift = smoothNoise(makeRandom(seed, 'barometer'), barometer.deviation, barometer.spacing, end)
  const white: Random = makeRandom(seed, 'height')
  return (t: number) => ({ north: north(t), east: east(t), up: drift(t) + barometer.jitter * normal(white) })
}

const noColumns = () => ({
  latitude: [] as number[],
  longitude: [] as number[],
  elevation: [] as number[],
  time: [] as number[],
})

const partOf = ({ latitude, longitude, elevation, time }: ReturnType<typeof noColumns>): Part => ({
  latitude: Float64Array.from(latitude),
  longitude: Float64Array.from(longitude),
  elevation: Float64Array.from(elevation),
  time: Float64Array.from(time),
})

/** Halts by chance: some a hundred kilometres, of lengths that differ by their logarithm, none closer than 500 m to another or to either end. */
export function someHalts(
  random: Random,
  length: number,
  perHundredKm: number,
  [shortest, longest]: readonly [number, number],
): { distance: number; time: number }[] {
  const count = Math.round((perHundredKm * length) / 100_000)
  const places = Array.from({ length: count }, () => between(random, 500, length - 500)).sort((a, b) => a - b)
  return places
    .filter((place, i) => i === 0 || place - places[i - 1]! > 500)
    .map((distance) => ({ distance, time: Math.round(shortest * (longest / shortest) ** random()) }))
}
