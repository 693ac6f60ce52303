import { runArrangement, type Arrangement } from '../../src/model/battery/arrangement'
import { legsOf } from '../../src/model/readings/legs'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import { addStop } from '../../src/model/plan/edit'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { RouteReader } from '../../src/work/jobs'
import { blocks, bothWays } from '../reference/charging-parts'
import { tenSeries } from '../reference/battery-packs'
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

const planWithStop = (length: number): Plan => addStop(defaultPlan(), length / 2).plan

const outcomeRow = (what: string, route: Route, runs: number): Promise<Row> => {
  const plan = planWithStop(route.length)
  return time(what, runs, () => simulate(route, plan).columns.time.at(-1)!, 20)
}

/** Outcome of 200 km of hills at 10 m, and the leg table. */
export async function outcome(): Promise<Row[]> {
  const route = courseRoute({
    length: 200_000,
    elevation: (d) => 120 * Math.sin(d / 3000) + 30 * Math.sin(d / 500),
    curvature: (d) => (d % 800 < 40 ? 0.06 : 0),
  })
  const plan = planWithStop(route.length)
  const made = simulate(route, plan)
  return [
    await outcomeRow('Outcome, 200 km of hills at 10 m stations', route, 60),
    await time('Leg table of it', 60, () => legsOf(made).length),
  ]
}

/** Outcome of a file of a million points over 200 km. */
export async function outcomeOfMillion(): Promise<Row[]> {
  const route = await readInWorker(new TextEncoder().encode(bigGpx(1_000_000, 200_000)))
  return [await outcomeRow('Outcome, 200 km from 1,000,000 points', route, 20)]
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
  const { end } = runArrangement(arrangement, 1, 0, { time: 24 * 3600 })
  if (end !== 'full') throw new Error(`The charge ends with ${end}.`)
  const stored = () => runArrangement(arrangement, 1, 0, { time: 24 * 3600 }).stored
  return [await time('Full charge of 500 Wh by a carried pack and converter', 20, stored, 50, 20)]
}
