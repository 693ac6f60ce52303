import { describe, expect, it } from 'vitest'
import { makeRandom, normal } from '../../sample-routes/random'
import { rideAndRecord } from '../../sample-routes/ridden'
import { chargeAtOpenCircuit, chemistries, openCircuitVoltage } from '../../src/model/battery/chemistry'
import { energyBetween, packAt, usableEnergy } from '../../src/model/battery/pack'
import { evidenceOf, type Evidence } from '../../src/model/learn/evidence'
import { foretell } from '../../src/model/learn/foretell'
import { posteriorOf } from '../../src/model/learn/posterior'
import { defaultPlan } from '../../src/model/plan/defaults'
import { setFields } from '../../src/model/plan/edit'
import type { Plan } from '../../src/model/plan/schema'
import { readRecording } from '../../src/model/recording/read'
import { asGpx } from '../recordings'
import { courseRoute, pieces } from '../routes'

/*
 * Short trips to and fro with one bike and one pack, whose voltage at rest is read before and after each on a meter of 0.1 V: what is left follows by the
 * table of the cell's open-circuit voltage. Invented; what real trips of this kind showed stands in `static/docs/accuracy.html`.
 */

/** Lengths, m, with gradients, where the way leads, degrees from north, and wind, m/s from the west. */
type Trip = readonly [parts: [number, number][], toward: number, wind: number]

const hilly: Trip[] = [
  [
    [
      [1500, 0],
      [2600, 0.05],
      [900, 0],
    ],
    0,
    2,
  ],
  [
    [
      [900, 0],
      [2600, -0.05],
      [1500, 0],
    ],
    180,
    2,
  ],
  [
    [
      [4000, 0.004],
      [1100, 0.07],
    ],
    90,
    5,
  ],
  [
    [
      [1100, -0.07],
      [4000, -0.004],
    ],
    270,
    5,
  ],
  [[[6200, 0]], 270, 6],
  [[[6200, 0]], 90, 6],
  [
    [
      [2000, 0.06],
      [2800, 0.01],
    ],
    0,
    1,
  ],
  [
    [
      [2800, -0.01],
      [2000, -0.06],
    ],
    180,
    1,
  ],
]
const alike: Trip[] = hilly.map((_, k) => [[[5000 + 100 * (k % 3), 0]], 0, 0])

const stated = defaultPlan()
const pack = { ...stated.battery.packs[0]!, mass: 3 }
const onePack: Plan = { ...stated, battery: { ...stated.battery, packs: [pack] } }
const cells = packAt(pack, stated.battery.temperatureCelsius)
const usable = usableEnergy(cells)
/** Stronger than stated, with less help. */
const ridden = setFields(setFields(onePack, 'rider', { power: 1.3 * stated.rider.power }), 'assist', {
  ratio: 0.6 * stated.assist.ratio,
  climbRatio: 0.6 * stated.assist.climbRatio,
})

interface Taken {
  evidence: Evidence
  /** By the readings, J. */
  energy: number
  length: number
}

/** @param noise of what each trip seems to have taken beside the meter's steps, standard deviation, J */
async function taken(trips: readonly Trip[], noise: number): Promise<Taken[]> {
  const random = makeRandom(5, 'readings')
  const cell = chemistries[pack.chemistry]
  const meter = (charge: number) => {
    const volts = Math.round(10 * pack.series * openCircuitVoltage(cell, charge)) / 10
    return chargeAtOpenCircuit(cell, volts / pack.series)
  }
  let charge = 0.95
  const all: Taken[] = []
  for (const [k, [parts, toward, wind]] of trips.entries()) {
    const course = pieces(...parts)
    const heading = (toward * Math.PI) / 180
    const route = courseRoute({ ...course, heading: () => heading })
    const there = (plan: Plan) => setFields(plan, 'weather', { windSpeed: wind, windFromDegrees: 270 })
    const riding = {
      ...{ seed: k + 1, every: [1, 1] as const, halts: [], aboard: false, pace: { deviation: 0.03, spacing: 800 } },
      receiver: { deviation: 3, stays: 60, jitter: 0.3 },
      barometer: { deviation: 1, spacing: 1800, jitter: 0.2 },
    }
    const { parts: recorded, outcome } = rideAndRecord(route, there(ridden), riding, Date.UTC(2026, 5, 1 + k, 6) / 1000)
    // The charge that this energy leaves: halved in on.
    let [low, high] = [pack.floor, charge]
    while (high - low > 1e-9) {
      const half = (low + high) / 2
      if (energyBetween(cells, half, charge) > outcome.electric.drained) low = half
      else high = half
    }
    const energy = energyBetween(cells, meter(low), meter(charge)) + noise * normal(random)
    charge = low < 0.4 ? 0.95 : low
    const reading = await readRecording(new TextEncoder().encode(asGpx('A trip', ...recorded)), 'trip.gpx')
    if (!reading.ok) throw new Error(reading.fault.code)
    const { recording } = reading
    const { length } = recording.route
    const readings = [{ distance: length, left: 0.9 - energy / usable }]
    all.push({ evidence: evidenceOf(recording, there(onePack), { start: 0.9, readings }), energy, length })
  }
  return all
}

/** Mean size of the error of what each trip took, learnt from the others alone, J: as foretold, and at the same energy a kilometre. */
function leftOut(trips: readonly Taken[]): { foretold: number; plain: number } {
  const sum = (of: readonly Taken[], key: 'energy' | 'length') => of.reduce((total, trip) => total + trip[key], 0)
  const errors = trips.map(({ evidence, energy, length }, k) => {
    const others = trips.filter((_, other) => other !== k)
    const posterior = posteriorOf(others.map((other) => other.evidence))
    const last = evidence.route.stations.distance.length - 1
    const { middle } = foretell(posterior, evidence, undefined, 0, last).energy
    const plain = (sum(others, 'energy') / sum(others, 'length')) * length
    return [Math.abs(middle - energy), Math.abs(plain - energy)] as const
  })
  const mean = (which: 0 | 1) => errors.reduce((total, error) => total + error[which], 0) / errors.length
  return { foretold: mean(0), plain: mean(1) }
}

describe('short trips with a voltage read before and after, each left out once', async () => {
  const trips = await taken(hilly, 0)

  it('are foretold with errors a third smaller than past use a kilometre has, where they differ by hill and wind', () => {
    const { foretold, plain } = leftOut(trips)
    expect(foretold).toBeLessThan(0.7 * plain)
  })

  it('are foretold no better where one is like the other', async () => {
    const { foretold, plain } = leftOut(await taken(alike, 0))
    expect(foretold).toBeGreaterThan(0.7 * plain)
  })

  it('are foretold hardly better where readings scatter by as much as a trip takes', async () => {
    const usual = trips.reduce((sum, { energy }) => sum + energy, 0) / trips.length
    const { foretold, plain } = leftOut(await taken(hilly, usual))
    expect(foretold).toBeGreaterThan(0.7 * plain)
  })
})
