import { everyDay } from '../model/plan/day-schema'
import { defaultPlan, defaultStop } from '../model/plan/defaults'
import type { Names } from '../model/plan/names'
import type { Plan } from '../model/plan/schema'
import type { Format } from './format'
import type { Workbench } from '../state/workbench.svelte'

export interface Sample {
  title: string
  about: (format: Format) => string
  address: string
  fileName: string
}

const addresses = import.meta.glob<string>('../../sample-routes/*.gpx', {
  query: '?url',
  import: 'default',
  eager: true,
})

const sample = (fileName: string, title: string, about: Sample['about']): Sample => {
  const address = addresses[`../../sample-routes/${fileName}`]
  if (address === undefined) throw new Error(`The sample ${fileName} is missing.`)
  return { title, about, address, fileName }
}

export const samples: readonly Sample[] = [
  sample(
    'two-islands-165km.gpx',
    'Two islands',
    ({ distance }) => `A long day with a ferry in the middle, ${distance(165_000, 0)}`,
  ),
  sample(
    'two-passes-62km.gpx',
    'Two passes',
    ({ distance, height }) => `A mountain ride, ${distance(62_000, 0)} and ${height(1500)} up`,
  ),
  sample('into-town-18km.gpx', 'Into town', ({ distance }) => `A short flat ride, ${distance(18_000, 0)}`),
]

/** Where the first visit begins: a windy long day with an old second pack, which needs the charge at the inn, and an hourly ferry. */
export function demoPlan(names: Names): Plan {
  const plan = defaultPlan(names)
  const [first, second] = plan.battery.packs
  return {
    ...plan,
    assist: { ...plan.assist, ratio: 1.2, climbRatio: 1.6 },
    weather: { ...plan.weather, windSpeed: 6 },
    battery: { ...plan.battery, packs: [first!, { ...second!, name: 'Old pack', health: 0.7 }] },
    stops: [{ ...defaultStop('stop-1', 'Inn at Querrel Sands', 87_140, 'source-1'), duration: 40 * 60 }],
    crossings: [
      {
        timetable: {
          kind: 'every',
          interval: 3600,
          from: '07:15',
          until: '21:15',
          days: [...everyDay],
          boardBefore: 10 * 60,
          length: 45 * 60,
        },
        source: null,
        fillFirst: 'most',
      },
    ],
    controls: [
      {
        id: 'control-1',
        name: 'Tollan Spring',
        distance: 124_500,
        opens: null,
        closes: { by: 'clock', day: 0, time: '15:00' },
      },
    ],
  }
}

/** Fetches a bundled sample and opens it like any file. */
export async function openSample(bench: Workbench, { address, fileName }: Sample, plan?: Plan): Promise<void> {
  const response = await fetch(address)
  await bench.openFile(new Uint8Array(await response.arrayBuffer()), fileName, plan)
}
