import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { makeRandom } from '../../sample-routes/random'
import { rideAndRecord, someHalts, type Riding } from '../../sample-routes/ridden'
import { defaultPlan } from '../../src/model/plan/defaults'
import { factsOf, meanOf, stretchesOf } from '../../src/model/recording/facts'
import { readRecording } from '../../src/model/recording/read'
import type { Recording } from '../../src/model/recording/recording'
import type { Part } from '../../src/model/route/parts'
import { readRoute } from '../../src/model/route/read'
import type { Route } from '../../src/model/route/route'
import { near } from '../asserts'
import { asGpx, recorded, roads, standing, unseen } from '../recordings'

const sample = (name: string) =>
  new Uint8Array(readFileSync(new URL(`../../sample-routes/${name}.gpx`, import.meta.url)))
const bytes = (text: string) => new TextEncoder().encode(text)
const start = Date.UTC(2026, 5, 13, 5) / 1000

async function routeOf(name: string): Promise<Route> {
  const reading = await readRoute(sample(name), name)
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading.route
}

async function recordingOf(...parts: Part[]): Promise<Recording> {
  const reading = await readRecording(bytes(asGpx('A ride', ...parts)), 'ride.gpx')
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading.recording
}

const codes = ({ faults }: Recording) => faults.map(({ code }) => code)

/** Receiver of 3 m whose error stays for a minute, a barometer that drifts, an uneven pace. */
const riding = (seed: number, every: Riding['every'], halts: Riding['halts']): Riding => ({
  seed,
  every,
  receiver: { deviation: 3, stays: 60, jitter: 0.3 },
  barometer: { deviation: 3, spacing: 1800, jitter: 0.2 },
  pace: { deviation: 0.06, spacing: 1000 },
  halts,
  aboard: seed % 2 === 0,
})

describe('halts of simulated recordings', () => {
  const samplings = [
    [1, 1],
    [2, 7],
    [10, 10],
    [30, 30],
  ] as const

  it.each(samplings)('are found at %d to %d s between points, traffic lights are not', async (...every) => {
    const route = await routeOf('two-islands-165km')
    let truth = 0
    let found = 0
    let right = 0
    const off: number[] = []
    for (const seed of [1, 2]) {
      const planned = someHalts(makeRandom(seed, 'halts'), route.length, 12, [45, 2400])
      const lights = someHalts(makeRandom(seed, 'lights'), route.length, 10, [4, 15])
      const { parts, halts } = rideAndRecord(route, defaultPlan(), riding(seed, every, [...planned, ...lights]), start)
      const recording = await recordingOf(...parts)
      const long = halts.filter(({ time }) => time > 30)
      truth += long.length
      found += recording.halts.length
      for (const { arrive, time } of long) {
        const one = recording.halts.find((halt) => Math.abs(halt.arrive - arrive) < 60)
        if (one === undefined || Math.abs(one.time - time) > 0.25 * time + 20) continue
        right++
        off.push(one.time - time)
      }
      // The ship is none of the ride, whether the receiver ran on aboard or not.
      expect(recording.crossings.length).toBe(1)
      near(recording.crossings[0]!.distance, 96_290, 3500, 'place of the crossing')
      const { elapsed, riding: ridden, stopped, crossing } = factsOf(recording)
      near(elapsed, ridden + stopped + crossing, 1e-3, 'the parts are the whole')
    }
    expect(truth).toBeGreaterThan(35)
    expect(right / truth, 'recall').toBeGreaterThan(0.95)
    expect(right / found, 'precision').toBeGreaterThan(0.95)
    const sorted = off.sort((a, b) => a - b)
    // Braking and setting off within some metres of the place count as standing.
    near(sorted[sorted.length >> 1]!, 5, 7, 'median error of a halt, s')
  })

  it('are where the recorder paused itself, without a point', async () => {
    const part = recorded([roads(1200), standing(600), roads(1200)], 5)
    const { halts } = await recordingOf(unseen(part, [1205, 1795]))
    expect(halts.length).toBe(1)
    near(halts[0]!.time, 600, 15)
    near(halts[0]!.arrive - part.time[0]!, 1200, 10)
  })
})

describe('times that are not to be trusted', () => {
  it('are told where the receiver saw nothing while the rider moved', async () => {
    const recording = await recordingOf(unseen(recorded([roads(2400)], 5), [1000, 1300]))
    expect(recording.halts).toEqual([])
    const [fault] = recording.faults
    expect(fault?.code).toBe('dropOuts')
    if (fault?.code === 'dropOuts') near(fault.time, 300, 15)
    const [span] = recording.untrusted
    expect(stretchesOf(recording, 500, 100).some(({ from, to }) => from < span!.to && to > span!.from)).toBe(false)
  })

  it('are told where the clock was set back, and cost no riding time', async () => {
    const part = recorded([roads(2400)], 5)
    const set = part.time.map((t, i) => (i < 240 ? t : t - 600))
    const recording = await recordingOf({ ...part, time: set })
    expect(codes(recording)).toContain('clockErrors')
    near(recording.riding.at(-1)!, 2395, 10)
  })

  it('are told where points have none', async () => {
    const part = recorded([roads(2400)], 5)
    const recording = await recordingOf({ ...part, time: part.time.map((t, i) => (i % 3 === 1 ? NaN : t)) })
    expect(recording.faults).toEqual([{ code: 'pointsWithoutTime', count: 160, points: 480 }])
    near(recording.riding.at(-1)!, 2395, 5)
  })

  it('are told where a planner made them, not where someone rode', async () => {
    const route = await routeOf('two-passes-62km')
    const { latitude, longitude, elevation, distance, gradient } = route.stations
    const made = (speed: (gradient: number) => number): Part => {
      let now = start
      const time = distance.map((d, i) => (now += i === 0 ? 0 : (d - distance[i - 1]!) / speed(gradient[i - 1]!)))
      return { latitude, longitude, elevation, time }
    }
    expect(codes(await recordingOf(made(() => 5)))).toEqual(['madeUpTimes'])
    expect(codes(await recordingOf(made((g) => 6 * Math.exp(-8 * g))))).toEqual(['madeUpTimes'])
    const { parts } = rideAndRecord(route, defaultPlan(), riding(3, [5, 5], []), start)
    expect(codes(await recordingOf(...parts))).toEqual([])
  })

  it('are missing in a plan, which is no recording; a bad file has the fault of any', async () => {
    expect(await readRecording(sample('two-islands-165km'), 'a.gpx')).toEqual({ ok: false, fault: { code: 'noTimes' } })
    expect(await readRecording(bytes('<html></html>'), 'a.gpx')).toMatchObject({
      ok: false,
      fault: { code: 'otherRoot' },
    })
  })
})

describe('what sensors measured', () => {
  const point = (i: number, inside: string) =>
    `<trkpt lat="${54 + i * 5e-5}" lon="8"><ele>3</ele><time>${new Date(1000 * (start + i)).toISOString()}</time><extensions>${inside}</extensions></trkpt>`
  const file = (inside: (i: number) => string) =>
    bytes(
      `<gpx xmlns:a="urn:a" xmlns:b="urn:b"><trk><trkseg>${Array.from({ length: 400 }, (_, i) => point(i, inside(i))).join('')}</trkseg></trk></gpx>`,
    )
  const meansOf = async (inside: (i: number) => string) => {
    const reading = await readRecording(file(inside), 'a.gpx')
    if (!reading.ok) throw new Error(reading.fault.code)
    const { power, heartRate, cadence } = factsOf(reading.recording)
    return { means: [power, heartRate, cadence], recording: reading.recording }
  }

  it.each([
    ['side by side', '<power>150</power><a:hr>120</a:hr><a:cad>70</a:cad>'],
    [
      'in an element of their own',
      '<a:Box><a:hr>120</a:hr><a:cad>70</a:cad></a:Box><b:PowerInWatts>150</b:PowerInWatts>',
    ],
    ['by longer names', '<a:Watts>150</a:Watts><a:heartrate>120</a:heartrate><a:cadence>70</a:cadence>'],
  ])('is read %s', async (_, inside) => {
    const { means } = await meansOf(() => inside)
    expect(means).toEqual([150, 120, 70])
  })

  it('is meant over time, and none where there is none', async () => {
    const { means, recording } = await meansOf((i) => (i < 200 ? '<power>100</power>' : '<power>200</power>'))
    near(means[0]!, 150, 1)
    expect(means.slice(1)).toEqual([undefined, undefined])
    near(meanOf(recording, 'power', { from: 0, to: 500 })!, 100, 1)
  })

  it('does not stand in a route that is read for its way', async () => {
    const reading = await readRoute(
      file(() => '<power>150</power>'),
      'a.gpx',
    )
    expect(reading.ok && Object.keys(reading.route.points)).toEqual(['latitude', 'longitude', 'distance'])
  })
})
