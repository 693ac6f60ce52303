import { makeRandom, normal } from '../../sample-routes/random'
import { rideAndRecord, someHalts } from '../../sample-routes/ridden'
import { packAt, usableEnergy } from '../../src/model/battery/pack'
import { tallyOf } from '../../src/model/forecast/tally'
import { evidenceOf, evidenceRemembered } from '../../src/model/learn/evidence'
import { foretell } from '../../src/model/learn/foretell'
import { indexOf, posteriorOf, type Posterior } from '../../src/model/learn/posterior'
import {
  formDeviation,
  healthFactor,
  planKnowing,
  unknowns,
  valueAt,
  type Key,
  type Known,
} from '../../src/model/learn/unknowns'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { readRecording } from '../../src/model/recording/read'
import type { Route } from '../../src/model/route/route'
import { asGpx } from '../recordings'

/** How a truth lies in what is believed, in deviations from its middle. */
export type Scores = Partial<Record<Key | 'time' | 'energy', number>>

/** One simulated ride, learnt from without and with the charge read at both ends. */
export interface Learnt {
  seed: number
  /** of halts over half a minute: as they were, found, and found where they were */
  halts: { truth: number; found: number; right: number }
  without: Scores
  with: Scores
  /** relative errors with readings: of the rider's power, of that of the day with its form, which one ride can't tell apart, and of assist */
  powerError: number
  dayPowerError: number
  assistError: number
  /** deviation that is left of that before, without readings */
  left: Partial<Record<Key, number>>
}

const start = Date.UTC(2026, 5, 13, 5) / 1000
const told = unknowns.filter(({ paths }) => paths.length > 0)

/** Known figures drawn from what is believed before a ride. */
function drawn(seed: number, purpose: string): Known {
  const random = makeRandom(seed, purpose)
  return Object.fromEntries(unknowns.map(({ key }) => [key, normal(random)])) as unknown as Known
}

/** The default plan with so many packs that no ride empties them, in what is stated and in truth. */
export function statedPlan(): Plan {
  const plan = defaultPlan()
  const [pack] = plan.battery.packs
  return {
    ...plan,
    battery: { ...plan.battery, packs: [1, 2, 3, 4, 5].map((k) => ({ ...pack!, id: `pack-${k}`, mass: 1.2 })) },
  }
}

/** The same with as many packs as that ride takes, as riders carry: none is brought for nothing, and a tenth is left at least. */
function packedFor(route: Route, truth: Known): Plan {
  const plan = statedPlan()
  const { packs } = plan.battery
  const each = usableEnergy(packAt(packs[0]!, 18)) * Math.min(1, healthFactor(truth))
  const { drained } = tallyOf(route, planKnowing(plan, truth))
  const count = Math.min(packs.length, Math.ceil(drained / (0.9 * each)))
  return { ...plan, battery: { ...plan.battery, packs: packs.slice(0, count) } }
}

/**
 * A ride with a truth drawn from the priors, recorded as a receiver of 3 m and a drifting barometer would, and the charge as a display would tell it.
 *
 * @param even without what a rider brings beside it: a pace that is uneven by 3 to 8 %, and halts of a few seconds
 */
export async function recorded(seed: number, route: Route, even = false) {
  const truth = drawn(seed, 'truth')
  const stated = packedFor(route, truth)
  const random = makeRandom(seed, 'ride')
  const every = [1 + Math.floor(30 * random() ** 2), 1 + Math.floor(30 * random() ** 2)].sort((a, b) => a - b)
  const halts = someHalts(makeRandom(seed, 'halts'), route.length, 8, [45, 2400])
  const lights = even ? [] : someHalts(makeRandom(seed, 'lights'), route.length, 6, [4, 15])
  const uneven = { deviation: 0.03 + 0.05 * random(), spacing: 600 + 900 * random() }
  const ridden = rideAndRecord(
    route,
    planKnowing(stated, truth),
    {
      seed,
      every: every as [number, number],
      receiver: { deviation: 3, stays: 60, jitter: 0.3 },
      barometer: { deviation: 3, spacing: 1800, jitter: 0.2 },
      pace: even ? { ...uneven, deviation: 0 } : uneven,
      halts: [...halts, ...lights],
      aboard: seed % 2 === 0,
    },
    start,
  )
  const reading = await readRecording(new TextEncoder().encode(asGpx('A ride', ...ridden.parts)), 'ride.gpx')
  if (!reading.ok) throw new Error(reading.fault.code)
  const { recording } = reading

  const usable = stated.battery.packs.reduce((sum, pack) => sum + usableEnergy(packAt(pack, 18)), 0)
  const left = 1 - ridden.outcome.electric.drained / (usable * healthFactor(truth))
  // A display tells the percentage of the pack in use; those before it are used up, those behind it full.
  const { length: count } = stated.battery.packs
  const display = (value: number) => {
    const full = Math.floor(value * count)
    return (full + Math.round(100 * (value * count - full) + 1.5 * normal(random)) / 100) / count
  }
  const readings = [{ distance: recording.route.length, left: display(left) }]
  return { truth, stated, halts: ridden.halts, recording, readings }
}

/** Learns from such a ride, even or not, with another route foretold. */
export async function learnt(seed: number, route: Route, other: Route, even = false): Promise<Learnt> {
  const { truth, stated, halts, recording, readings } = await recorded(seed, route, even)
  const without = posteriorOf([evidenceOf(recording, stated, { readings: [] })])
  const withBoth = posteriorOf([evidenceOf(recording, stated, { start: 1, readings })])

  // Another day on another route: with a form, a wind and packs as they are then.
  const then = { ...truth, ...pick(drawn(seed, 'another day'), ['form', 'windEast', 'windNorth']) }
  const asked = evidenceRemembered(other, stated, 1, { readings: [] })
  const day = tallyOf(other, planKnowing(asked.plan, then))
  const scores = (posterior: Posterior): Scores => {
    const foretold = foretell(posterior, asked, undefined, 0, other.stations.distance.length - 1)
    const score = (value: number, middle: number, deviation: number) => Math.log(value / middle) / deviation
    return {
      ...Object.fromEntries(told.map(({ key }) => [key, scoreOf(posterior, key, truth)])),
      time: score(day.ridingTime, foretold.riding.middle, foretold.ridingDeviation),
      energy: score(day.drained, foretold.energy.middle, foretold.energyDeviation),
    }
  }
  const error = (key: Key, path: string) =>
    valueAt(stated, path, withBoth.z[indexOf(key)]!) / valueAt(stated, path, truth[key]) - 1
  const long = halts.filter(({ time }) => time > 30)
  const right = long.filter(({ arrive }) => recording.halts.some((halt) => Math.abs(halt.arrive - arrive) < 60))
  return {
    seed,
    halts: { truth: long.length, found: recording.halts.length, right: right.length },
    without: scores(without),
    with: scores(withBoth),
    powerError: error('power', 'rider.power'),
    dayPowerError:
      (1 + error('power', 'rider.power')) * Math.exp(formDeviation * (withBoth.z[indexOf('form')]! - truth.form)) - 1,
    assistError: error('assist', 'assist.ratio'),
    left: Object.fromEntries(told.map(({ key }) => [key, Math.sqrt(without.covariance[indexOf(key)]![indexOf(key)]!)])),
  }
}

const pick = (known: Known, keys: readonly Key[]): Partial<Known> =>
  Object.fromEntries(keys.map((key) => [key, known[key]]))

const scoreOf = ({ z, covariance }: Posterior, key: Key, truth: Known): number => {
  const i = indexOf(key)
  return (truth[key] - z[i]!) / Math.sqrt(covariance[i]![i]!)
}

/** Of scores, how many lie in the spans that hold 80 and 95 %, as shares. */
export function coverage(scores: readonly number[]): { in80: number; in95: number } {
  const share = (most: number) => scores.filter((score) => Math.abs(score) <= most).length / scores.length
  return { in80: share(1.2816), in95: share(1.96) }
}
