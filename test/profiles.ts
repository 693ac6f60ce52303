import { scaleAt } from '../src/model/geo/scale'
import { buildRoute } from '../src/model/route/build'
import { clean } from '../src/model/route/clean'
import type { Part } from '../src/model/route/parts'
import type { Route } from '../src/model/route/route'
import { seeded } from './bench/big-gpx'

/** A source of normal deviates of variance 1 (Box and Muller 1958). */
export function normal(seed: number): () => number {
  const random = seeded(seed)
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}

const wave =
  (height: number, length: number, phase = 0) =>
  (at: number) =>
    height * Math.sin((2 * Math.PI * at) / length + phase)

const sum =
  (...parts: ((at: number) => number)[]) =>
  (at: number) =>
    parts.reduce((total, part) => total + part(at), 0)

/** True elevations, m, at a distance, m. */
export const profiles = {
  rolling: sum(() => 200, wave(40, 6000), wave(18, 2300, 1), wave(7, 1200, 2)),
  alpine: sum((at) => 950 - 450 * Math.cos((2 * Math.PI * at) / 24_000), wave(12, 1700)),
  'near flat': sum(() => 20, wave(8, 7000), wave(2, 3100, 1)),
  flat: () => 10,
}

/** Points on a straight road north from 41 N, 151 W. */
export function straightRoad(elevations: ArrayLike<number>, spacing: number): Part {
  const { north } = scaleAt(41)
  const n = elevations.length
  return {
    latitude: Float64Array.from({ length: n }, (_, i) => 41 + (i * spacing) / north),
    longitude: new Float64Array(n).fill(-151),
    elevation: Float64Array.from(elevations),
    time: new Float64Array(n).fill(NaN),
  }
}

export function routeOf(parts: Part[], riddenGaps: number[] = [], stationSpacing = 10): Route {
  return buildRoute('test', clean(parts, riddenGaps), [], [], { stationSpacing })
}
