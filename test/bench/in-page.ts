import { transferIn, type Arrangement } from '../../src/model/battery/arrangement'
import { bestAssist, usualRatios } from '../../src/model/decide/assist'
import { bestStops } from '../../src/model/decide/best-stop'
import { legsOf } from '../../src/model/readings/legs'
import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import { simulate } from '../../src/model/forecast/simulate'
import { startState } from '../../src/model/forecast/start'
import { Frames } from '../../src/model/forecast/frames'
import { Tally } from '../../src/model/forecast/tally'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { rideNotesSchema } from '../../src/model/learn/notes'
import { rideAndRecord, someHalts } from '../../sample-routes/ridden'
import { makeRandom } from '../../sample-routes/random'
import { parse } from 'valibot'
import { together, usualSampling } from '../../src/model/chance/days'
import { RouteReader } from '../../src/work/jobs'
import { Pool } from '../../src/work/pool'
import type { StudyJobs } from '../../src/work/studies.worker'
import { Learner } from '../../src/work/learning'
import { asGpx } from '../recordings'
import { blocks, bothWays } from '../reference/charging-parts'
import { tenSeries } from '../reference/battery-packs'
import { hourly } from '../rides'
import { bigGpx, gpxWithPlaces } from './big-gpx'
import { defaultDay, hills, worstDay } from './plans'

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

/** As on the page, one worker for all files, which has read one before. */
const reader = new RouteReader()

async function readInWorker(bytes: Uint8Array): Promise<Route> {
  const reading = await reader.read({ bytes, fileName: 'bench.gpx' }, { line: 'joined', riddenGaps: [] }, () => {})
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

/** A long way with many waypoints, and with ten times as many. */
export async function waypoints(some: number, length: number): Promise<Row[]> {
  const rows: Row[] = []
  for (const count of [some, 10 * some]) {
    const bytes = new TextEncoder().encode(gpxWithPlaces(count, length))
    const what = `Route in the worker: ${count.toLocaleString('en')} waypoints, ${(length / 1000).toLocaleString('en')} km`
    rows.push(await time(what, 3, async () => (await readInWorker(bytes)).waypoints.length))
  }
  return rows
}

/** The page's clock has steps of 0.1 ms, 5 ns a station of one ride. */
const ridesAtOnce = 4

/** The first stop a little further on each time, as in a drag: what a frame works out anew. */
function dragged(plan: Plan): () => Plan {
  const [first, ...others] = plan.stops
  let step = 0
  return () => ({ ...plan, stops: [{ ...first!, distance: first!.distance + 10 * (++step % 500) }, ...others] })
}

const outcomeRow = (what: string, route: Route, plan: Plan, runs: number): Promise<Row> => {
  const next = dragged(plan)
  const frames = new Frames()
  return time(what, runs, () => frames.next(route, next(), []).columns.time.at(-1)!, 40, ridesAtOnce)
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

/** The best assist and the best stop for a day of the first sample: an hourly ferry, a stop that charges, two packs. */
export async function deciding(): Promise<Row[]> {
  const sample = await fetch(new URL('../../sample-routes/two-islands-165km.gpx', import.meta.url))
  const route = await readInWorker(new Uint8Array(await sample.arrayBuffer()))
  const plan = defaultPlan()
  plan.stops = [{ ...defaultStop('stop-1', 'Inn', 87_140, 'source-1'), duration: 40 * 60 }]
  plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
  const ask = { plan, ratios: usualRatios, aim: { for: 'soonest' as const } }
  return [
    await time('Best assist, 165 km', 10, () => bestAssist(route, ask).code.length, 5),
    await time('Best stop, 165 km', 10, () => bestStops(route, { plan, sure: undefined }).options.length, 3),
  ]
}

/** Whole days by two workers, as many as the chance of the day takes: of the default plan with a stop, and of the worst one. */
export async function days(length: number): Promise<Row[]> {
  const route = await readInWorker(new TextEncoder().encode(bigGpx(length / 20, length)))
  const open = () => new Worker(new URL('../../src/work/studies.worker.ts', import.meta.url), { type: 'module' })
  const queue = new Pool<StudyJobs>(open, 2).queue()
  const parts = 32
  const places = Array.from({ length: 49 }, (_, k) => (route.length * k) / 48)
  const ride = async (plan: Plan) => {
    const asked = { plan, sampling: usualSampling, places }
    const each = usualSampling.days / parts
    const inputs = Array.from({ length: parts }, (_, k) => ({ asked, from: k * each, to: (k + 1) * each }))
    const got = await queue.run('rideDays', route, inputs)
    if (!got.ok) throw new Error(got.why)
    return together(got.results).time.length
  }
  const what = `${usualSampling.days.toLocaleString('en')} whole days, two workers`
  return [
    await time(`${what}, default plan with a stop`, 5, () => ride(defaultDay(route.length)), 2),
    await time(`${what}, worst plan`, 3, () => ride(worstDay(route.length)), 1),
  ]
}

/** A 500 Wh pack from empty to full by two rows of three carried blocks, in time. */
export async function charging(): Promise<Row[]> {
  const { end } = transferIn(arrangement).run(1, 0, { time: 24 * 3600 })
  if (end !== 'full') throw new Error(`The charge ends with ${end}.`)
  const stored = () => transferIn(arrangement).run(1, 0, { time: 24 * 3600 }).stored
  return [await time('Full charge of 500 Wh by a carried pack and converter', 20, stored, 50, 20)]
}

/** Reads recordings, fits rider and bike to them and compares, in the worker as the page does it; of one ride, and of five. */
export async function learning(length: number): Promise<Row[]> {
  const route = await readInWorker(new TextEncoder().encode(bigGpx(length / 20, length)))
  const plan = defaultDay(length)
  const notes = parse(rideNotesSchema, {})
  const ride = (seed: number) => {
    const { parts } = rideAndRecord(
      route,
      plan,
      {
        ...{ seed, every: [1, 1], pace: { deviation: 0.06, spacing: 900 }, aboard: true },
        receiver: { deviation: 3, stays: 60, jitter: 0.3 },
        barometer: { deviation: 3, spacing: 2400, jitter: 0.2 },
        halts: someHalts(makeRandom(seed, 'halts'), route.length, 8, [45, 1800]),
      },
      1_780_000_000,
    )
    const file = { bytes: new TextEncoder().encode(asGpx('Bench', ...parts)), fileName: 'bench.gpx' }
    return { id: `${seed}`, name: 'Bench', file, notes, points: parts.reduce((sum, { time }) => sum + time.length, 0) }
  }
  const lesson = async (rides: ReturnType<typeof ride>[]) => {
    const learner = new Learner()
    const reading = await learner.learn(route, plan, rides, () => {})
    learner.close()
    if (!reading.ok) throw new Error(reading.why)
    return reading.lesson.beliefs[0]!.middle
  }
  const rides = [1, 2, 3, 4, 5].map(ride)
  return [
    await time(`A ride of ${rides[0]!.points} points read, learnt from and compared`, 3, () =>
      lesson(rides.slice(0, 1)),
    ),
    await time('Five such rides', 1, () => lesson(rides), 0),
  ]
}
