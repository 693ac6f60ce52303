import { readFileSync } from 'node:fs'
import { defaultCarried, defaultMains, defaultPack, defaultPlan, defaultStop } from '../src/model/plan/defaults'
import type { CarriedSource, Plan } from '../src/model/plan/schema'
import { writePlan } from '../src/model/plan/write'
import { WHOLE_FILE } from '../src/model/route/reading'
import { demoKit } from '../src/view/kit/demoKit'
import { kitWordsIn } from '../src/view/words/kit'
import { writeDay } from '../src/state/day-file'

const hour = 3600 // s
const month = 730.5 * hour

/** Two blocks more than a carried pack begins with, each measured, the lead tried at home. */
const tried = (id: string, name: string): CarriedSource => {
  const source = defaultCarried(id, name)
  return {
    ...source,
    carried: { ...source.carried, blocksInParallel: 2 },
    polarityMeasured: true,
    chargeLimitKnown: true,
    blocks: [13.5, 13.48, 13.51, 13.5, 13.49, 13.5].map((voltage) => ({ voltage, age: 8 * month })),
    trial: {
      pack: null,
      packCharge: 0.4,
      sourceCharge: 1,
      stated: null,
      readings: [20, 50, 80].map((minutes, k) => ({
        time: 60 * minutes,
        side: k === 1 ? 'source' : 'pack',
        voltage: [40.9, 39.3, 41.6][k]!,
        current: [4, 4.3, 4][k]!,
        charge: [0.5, 0.65, 0.79][k]!,
      })),
    },
  }
}

/** A plan of the first sample with as much in it as a careful rider states: two carried packs, three stops that charge, a lead that is built and tried, a list of things, hourly weather. */
export function fullPlan(): Plan {
  const plan = defaultPlan()
  const stop = (k: number, name: string, kilometre: number, source: string) => ({
    ...defaultStop(`stop-${k}`, name, 1000 * kilometre, source),
    duration: 0.75 * hour,
  })
  const control = (k: number, name: string, kilometre: number, time: string) => ({
    id: `control-${k}`,
    name,
    distance: 1000 * kilometre,
    opens: null,
    closes: { by: 'clock' as const, day: 0, time },
  })
  return {
    ...plan,
    goal: 11 * hour,
    assist: { ...plan.assist, ratio: 1.2, climbRatio: 1.6 },
    battery: {
      ...plan.battery,
      packs: ['Pack 1', 'Pack 2'].map((name, k) => defaultPack(`pack-${k + 1}`, name)),
    },
    sources: [
      defaultMains('source-1', 'Charger 4 A'),
      tried('source-2', 'Long string'),
      defaultCarried('source-3', 'Spare blocks'),
    ],
    stops: [
      stop(1, 'Bench at Morrow', 40, 'source-2'),
      stop(2, 'Inn at Querrel Sands', 87.14, 'source-2'),
      stop(3, 'Chapel green', 130, 'source-3'),
    ],
    crossings: [
      {
        timetable: {
          kind: 'every',
          interval: hour,
          from: '07:15',
          until: '21:15',
          days: [1, 2, 3, 4, 5, 6, 7],
          boardBefore: 600,
          length: 0.75 * hour,
        },
        source: 'source-3',
        fillFirst: 'most',
      },
    ],
    stretches: [
      ['Harbour road', 10, 16],
      ['Moor track', 60, 66],
      ['Town', 120, 124],
    ].map(([name, from, to], k) => ({
      id: `stretch-${k}`,
      name: String(name),
      start: 1000 * Number(from),
      end: 1000 * Number(to),
      surface: k === 1 ? ('gravel' as const) : null,
      shelter: k === 1 ? null : 0.5,
      speedLimit: k === 2 ? 8 : null,
      assistRatio: null,
    })),
    controls: [control(1, 'Ashgill school', 60, '11:00'), control(2, 'Tarn bridge', 124.5, '16:00')],
    weather: {
      ...plan.weather,
      table: ['Start', 'Goal'].map((name, place) => ({
        name,
        distance: place * 160_000,
        hours: Array.from({ length: 16 }, (_, i) => ({
          time: `2027-06-19T${String(5 + i).padStart(2, '0')}:00`,
          temperatureCelsius: 10 + i / 2,
          windSpeed: 3 + (i % 4),
          windFromDegrees: 220 + 5 * i,
          rainPerHour: i === 9 ? 0.8 : 0,
          pressure: 101_300,
        })),
      })),
    },
    kit: demoKit(kitWordsIn('metric').demo, { bars: 8, gels: 8, bottles: 3 }),
    steps: [0.5, 1.2, 2].map((ratio, i) => ({ name: `Step ${i + 1}`, ratio, span: 1.3, before: null, test: null })),
    readings: [{ distance: 40_000, at: '2027-06-19T08:40', charge: 0.72 }],
  }
}

/** The file of such a day, with two other plans kept beside it. */
export function fullDay(): Buffer {
  const plan = fullPlan()
  const beside = (change: Partial<Plan>) => writePlan({ ...plan, ...change })
  const day = {
    ...{ name: 'Round both islands', isNamed: true, fileName: 'two-islands-165km.gpx', choice: WHOLE_FILE },
    ...{ changed: Date.UTC(2027, 5, 18), plan: writePlan(plan) },
    beside: {
      kept: [
        {
          id: 'kept-1',
          name: 'No carried pack',
          plan: beside({ stops: plan.stops.map((stop) => ({ ...stop, source: 'source-1' })) }),
        },
        { id: 'kept-2', name: 'Half an hour sooner', plan: beside({ start: '2027-06-19T05:30' }) },
      ],
    },
  }
  const route = readFileSync(new URL('../sample-routes/two-islands-165km.gpx', import.meta.url))
  return Buffer.from(writeDay(day, new Uint8Array(route)))
}
