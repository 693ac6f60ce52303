import { transferIn, type Arrangement } from '../../src/model/battery/arrangement'
import { legsOf } from '../../src/model/readings/legs'
import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import { simulate } from '../../src/model/forecast/simulate'
import { startState } from '../../src/model/forecast/start'
import { Frames } from '../../src/model/forecast/frames'
import { Tally } from '../../src/model/forecast/tally'
import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { addStop } from '../../src/model/plan/edit'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { RouteReader } from '../../src/work/jobs'
import { blocks, bothWays } from '../reference/charging-parts'
import { tenSeries } from '../reference/battery-packs'
import { hourly } from '../rides'
import { courseRoute } from '../routes'
import { bigGpx } from './big-gpx'

export interface Row {
  what: string
  median: number
  least: number
  most: number
  /** So that nothing measured can be optimised away. */
  result: number
}

/** @param batch runs to a measurement, for what is shorter than the clock's steps */
async function time(
  what: string,
  runs: number,
  run: () => number | Promise<number>,
  warmUp = 1,
  batch = 1,
): Promise<Row> {
  let result = 0
  for (let i = 0; i < warmUp; i++) result += await run()
  const times: number[] = []
  for (let i = 0; i < runs; i++) {
    const start = performance.now()
    for (let k = 0; k < batch; k++) {
      const one = run()
      result += typeof one === 'number' ? one : await one
    }
    times.push((performance.now() - start) / batch)
  }
  times.sort((a, b) => a - b)
  return { what, median: times[runs >> 1]!, least: times[0]!, most: times.at(-1)!, result }
}

async function readInWorker(bytes: Uint8Array): Promise<Route> {
  const reading = await new RouteReader().read(bytes, 'bench.gpx', { line: 'joined', riddenGaps: [] }, () => {})
  if (reading === 'superseded' || !reading.ok) throw new Error(JSON.stringify(reading))
  return reading.route
}

/** The browser's own XML parser against ours in the worker, on one file. */
export async function reading(points: number, length: number, runs: number): Promise<Row[]> {
  const text = bigGpx(points, length)
  const bytes = new TextEncoder().encode(text)
  const size = `${points.toLocaleString('en')} points, ${(bytes.length / 1e6).toFixed(1)} MB`
  return [
    await time(
      `XML parse by the browser alone: ${size}`,
      runs,
      () => new DOMParser().parseFromString(text, 'application/xml').getElementsByTagName('trkpt').length,
    ),
    await time(`Route in the worker: ${size}`, runs, async () => (await readInWorker(bytes)).stations.distance.length),
  ]
}

/** 200 km of hills with bends, and a crossing half-way. */
export const hills = (): Route =>
  courseRoute({
    length: 200_000,
    elevation: (d) => 300 + 60 * Math.sin(d / 1100) + 4 * Math.sin(d / 140),
    heading: (d) => d / 32_000 + 0.8 * Math.sin(d / 200),
    curvature: (d) => 0.02 * Math.abs(Math.sin(d / 330)) ** 5,
    crossings: [110_000],
  })

/** The default plan with one stop; packs enough that the motor helps to the end. */
export function defaultDay(length: number): Plan {
  const plan = defaultPlan()
  plan.battery.packs = plan.battery.packs.map((pack) => ({ ...pack, capacityAh: 28 }))
  return addStop(plan, 0.45 * length, String).plan
}

/** All that a rider can reasonably ask at once: hourly weather at three places, lights by the dark, timetable, controls, stretches, two packs and a carried one. */
export function worstDay(length: number): Plan {
  const plan = defaultDay(length)
  const hour = (k: number) => `2027-06-${19 + Math.floor(k / 24)}T${String(k % 24).padStart(2, '0')}:00`
  const place = (share: number) => ({
    name: `at ${share}`,
    distance: share * length,
    hours: Array.from({ length: 36 }, (_, k) => ({
      time: hour(k),
      temperatureCelsius: 12 + 8 * Math.sin((k - 9) / 4) - 4 * share,
      windSpeed: 3 + 2 * Math.sin(k / 3 + share),
      windFromDegrees: (200 + 8 * k + 40 * share) % 360,
      rainPerHour: k % 9 === 4 ? 1.5 : 0,
      pressure: 101_000 + 20 * k,
    })),
  })
  const control = (share: number, k: number) => ({
    id: `control-${k}`,
    name: `Control ${k}`,
    distance: share * length,
    opens: { by: 'speed' as const, speed: 9 },
    closes: { by: 'speed' as const, speed: 4 },
  })
  plan.start = '2027-06-19T04:30'
  plan.weather.table = [0, 0.5, 1].map(place)
  plan.assist.lightsOn = 'dark'
  plan.controls = [0.2, 0.4, 0.6, 0.8].map(control)
  plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
  plan.sources.push(defaultCarried('source-2', 'Carried'))
  plan.stops.push({ ...defaultStop('stop-9', 'Mill', 0.7 * length, 'source-2'), fillFirst: 'most' })
  plan.stretches = [0.1, 0.3, 0.6].map((share, k) => ({
    id: `stretch-${k}`,
    name: '',
    start: share * length,
    end: (share + 0.1) * length,
    surface: 'gravel',
    shelter: 0.6,
    speedLimit: 8,
    assistRatio: 1,
  }))
  return plan
}

/** The page's clock has steps of 0.1 ms, 5 ns a station of one ride. */
const ridesAtOnce = 4

/** The first stop a little further on each time, as in a drag: what a frame works out anew. */
export function dragged(plan: Plan): () => Plan {
  const [first, ...others] = plan.stops
  let step = 0
  return () => ({ ...plan, stops: [{ ...first!, distance: first!.distance + 10 * (++step % 500) }, ...others] })
}

const outcomeRow = (what: string, route: Route, plan: Plan, runs: number): Promise<Row> => {
  const next = dragged(plan)
  const frames = new Frames()
  return time(what, runs, () => frames.next(route, next(), undefined).columns.time.at(-1)!, 40, ridesAtOnce)
}

/** Outcomes of 200 km of hills at 10 m, and the leg table. */
export async function outcome(): Promise<Row[]> {
  const route = hills()
  const plan = defaultDay(route.length)
  const made = simulate(route, plan)
  return [
    await outcomeRow('Outcome, whole, 200 km at 10 m, default plan', route, plan, 100),
    await outcomeRow('Outcome, whole, 200 km at 10 m, worst plan', route, worstDay(route.length), 100),
    await time('Leg table of it', 60, () => legsOf(made).length),
  ]
}

/** Whole rides of the same in a few numbers, as a study rides them in a worker that does nothing else. */
export async function tally(): Promise<Row[]> {
  const route = hills()
  const tallyRow = (what: string, day: Plan) => {
    const prepared = prepare(route, day)
    const ride = new Ride(prepared)
    const start = startState(prepared)
    const none = new Float64Array()
    const tally = new Tally([], none, none, none)
    const one = () => {
      tally.run(prepared, ride, start)
      return tally.time
    }
    return time(what, 50, one, 40, ridesAtOnce)
  }
  return [
    await tallyRow('One ride of a study, default plan', defaultDay(route.length)),
    await tallyRow('One ride of a study, worst plan', worstDay(route.length)),
  ]
}

/** Outcome of a file of a million points over 200 km. */
export async function outcomeOfMillion(): Promise<Row[]> {
  const route = await readInWorker(new TextEncoder().encode(bigGpx(1_000_000, 200_000)))
  return [await outcomeRow('Outcome, 200 km from 1,000,000 points', route, defaultDay(route.length), 20)]
}

const lead = { areaMm2: 2.5, length: 1, temperature: 20 }
const arrangement: Arrangement = {
  carried: { ...blocks, blocksInParallel: 2 },
  sourceCable: lead,
  converter: bothWays,
  outputCable: lead,
  pack: { ...tenSeries, capacityAh: 13.9, chargeCurrent: 6 },
  temperature: 20,
}

/** A 500 Wh pack from empty to full by two rows of three carried blocks, in time. */
export async function charging(): Promise<Row[]> {
  const { end } = transferIn(arrangement).run(1, 0, { time: 24 * 3600 })
  if (end !== 'full') throw new Error(`The charge ends with ${end}.`)
  const stored = () => transferIn(arrangement).run(1, 0, { time: 24 * 3600 }).stored
  return [await time('Full charge of 500 Wh by a carried pack and converter', 20, stored, 50, 20)]
}
