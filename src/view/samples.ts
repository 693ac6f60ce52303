import { everyDay } from '../model/plan/day-schema'
import { defaultPlan, defaultStop } from '../model/plan/defaults'
import type { Plan } from '../model/plan/schema'
import { fetched } from '../state/parts.svelte'
import type { Workbench } from '../state/workbench.svelte'
import type { Words } from './words/words'

export type SampleFile = keyof Words['samples']

export interface Sample {
  address: string
  fileName: SampleFile
}

const addresses = import.meta.glob<string>('../../sample-routes/*.gpx', {
  query: '?url',
  import: 'default',
  eager: true,
})

const sample = (fileName: SampleFile): Sample => {
  const address = addresses[`../../sample-routes/${fileName}`]
  if (address === undefined) throw new Error(`The sample ${fileName} is missing.`)
  return { address, fileName }
}

export const samples: readonly Sample[] = [
  sample('two-islands-165km.gpx'),
  sample('two-passes-62km.gpx'),
  sample('into-town-18km.gpx'),
]

/** Of the first sample, where the first visit begins: a windy long day with an old second pack, which needs the charge at the inn, and an hourly ferry. */
function demoPlan({ names, demo }: Words): Plan {
  const plan = defaultPlan(names)
  const [first, second] = plan.battery.packs
  return {
    ...plan,
    assist: { ...plan.assist, ratio: 1.2, climbRatio: 1.6 },
    weather: { ...plan.weather, windSpeed: 6 },
    battery: { ...plan.battery, packs: [first!, { ...second!, name: demo.oldPack, health: 0.7 }] },
    stops: [{ ...defaultStop('stop-1', demo.stop, 87_140, 'source-1'), duration: 40 * 60 }],
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
        name: demo.control,
        distance: 124_500,
        opens: null,
        closes: { by: 'clock', day: 0, time: '15:00' },
      },
    ],
  }
}

/** Fetches a bundled sample and opens it whole, as it came. */
export async function openSample(bench: Workbench, { address, fileName }: Sample, words: Words): Promise<void> {
  bench.messages.end('file')
  const bytes = await fetched(async () => {
    const response = await fetch(address)
    if (!response.ok) throw new Error(`${fileName}: ${response.status}`)
    return response.arrayBuffer()
  })
  if (bytes === undefined) return
  const plan = fileName === samples[0]!.fileName ? demoPlan(words) : undefined
  await bench.days.openSample({ bytes: new Uint8Array(bytes), fileName }, plan)
}
