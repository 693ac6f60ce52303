import { mostOfDay } from '../src/model/plan/day-schema'
import { defaultCarried, defaultPack, defaultPlan, defaultStop } from '../src/model/plan/defaults'
import { writePlan } from '../src/model/plan/write'
import { learntPaths, most, statablePaths, type Plan } from '../src/model/plan/schema'
import { WHOLE_FILE } from '../src/model/route/reading'
import { writeDay } from '../src/state/day-file'
import { gpxWithPlaces } from './bench/big-gpx'

const list = <T>(count: number, item: (i: number) => T): T[] => Array.from({ length: count }, (_, i) => item(i))
const two = (value: number) => String(value).padStart(2, '0')
/** A name as long as one may be. */
const named = (what: string, i: number) => `${what} ${i} `.padEnd(80, 'on the way to the end of the world ')

/**
 * A plan with as much of everything as the schema allows, all names as long as they may be.
 *
 * @param length of the route, m, over which stops, stretches and controls are spread
 * @param crossings of which each sails as often a day as can be said
 */
export function fullestPlan(length = 200_000, crossings: number = most.crossings): Plan {
  const spread = (i: number, count: number) => ((i + 0.5) / count) * length
  const plan = defaultPlan()
  const times = list(mostOfDay.sailings, (i) => `${two(Math.floor(i / 9))}:${two((i % 9) * 6)}`)
  const passage = { days: [1, 2, 3, 4, 5, 6, 7], boardBefore: 60, length: 120 }
  return {
    ...plan,
    weather: {
      ...plan.weather,
      table: list(mostOfDay.weatherPlaces, (place) => ({
        name: named('Weather', place),
        distance: spread(place, mostOfDay.weatherPlaces),
        hours: list(mostOfDay.weatherHours, (i) => ({
          time: new Date(Date.UTC(2027, 5, 18, i)).toISOString().slice(0, 16),
          temperatureCelsius: 12.5 + (i % 24) / 3,
          windSpeed: 3.125 + (i % 7),
          windFromDegrees: (10 * i) % 360,
          rainPerHour: i % 9 === 4 ? 1.25 : 0,
          pressure: 101_325.5,
        })),
      })),
    },
    battery: { ...plan.battery, packs: list(most.packs, (i) => defaultPack(`pack-${i}`, named('Pack', i))) },
    sources: list(most.sources, (i) => defaultCarried(`source-${i}`, named('Source', i))),
    stops: list(most.stops, (i) => ({
      ...defaultStop(`stop-${i}`, named('Stop', i), spread(i, most.stops), `source-${i % most.sources}`),
      duration: 600,
    })),
    crossings: list(crossings, () => ({
      timetable: { kind: 'list', times, ...passage },
      source: null,
      fillFirst: 'most',
    })),
    stretches: list(most.stretches, (i) => ({
      id: `stretch-${i}`,
      name: named('Stretch', i),
      start: (i / most.stretches) * length,
      end: ((i + 1) / most.stretches) * length,
      surface: 'gravel',
      shelter: 0.6,
      speedLimit: 8,
      assistRatio: 1,
    })),
    controls: list(mostOfDay.controls, (i) => ({
      id: `control-${i}`,
      name: named('Control', i),
      distance: spread(i, mostOfDay.controls),
      opens: { by: 'speed', speed: 9 },
      closes: { by: 'clock', day: 1 + Math.floor(i / 9), time: '22:00' },
    })),
    goal: 86_400,
    kit: list(mostOfDay.kit, (i) => ({
      id: `kit-${i}`,
      name: named('Thing', i),
      mass: 0.125,
      count: 2,
      place: 'spare',
      mark: 'unused',
      use: { by: 'distance', rate: 0.000001 },
    })),
    beliefs: statablePaths.map((path) => ({ path, known: 'measured' })),
    readings: list(most.readings, (i) => ({
      distance: spread(i, most.readings),
      at: '2026-06-20T12:34',
      charge: 0.0625,
    })),
    steps: list(most.steps, (i) => ({
      name: named('Step', i),
      ratio: 0.0625 + i / 8,
      span: 1.125,
      before: { ratio: 0.125, span: 2 },
      test: { length: 1000, there: 6.125, back: 5.875, used: 0.0625 },
    })),
    learnt: {
      from: list(20, (i) => ({ name: named('Ride', i), date: '2026-06-20' })),
      figures: learntPaths.map((path) => ({
        path,
        middle: 1.0625,
        low: 0.9375,
        high: 1.1875,
        stated: 1,
        verdict: 'learnt',
      })),
      correlations: learntPaths.flatMap((a) => learntPaths.map((b) => ({ a, b, value: 0.0625 }))),
    },
  }
}

/** The file of a day of 200 km with 20,000 waypoints and 500 crossings, and the fullest plan for it. */
export function fullestDay(): Uint8Array<ArrayBuffer> {
  const [ridden, crossings] = [200_000, 500]
  const bytes = new TextEncoder().encode(gpxWithPlaces(20_000, 2 * ridden, crossings))
  const head = { name: 'Fullest day', isNamed: true, fileName: 'fullest.gpx', choice: WHOLE_FILE, changed: 0 }
  return writeDay({ ...head, plan: writePlan(fullestPlan(ridden, crossings)) }, bytes)
}
