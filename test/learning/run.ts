/**
 * Whether what is learnt is what was true: simulated rides, `npx tsx test/learning/run.ts 1000 [first seed] [even]`, where even leaves out that a
 * rider's pace is uneven and that lights are red. A table of coverage; a line a seed to standard error.
 */
import { sampleRoute } from '../sample-route'
import { coverage, learnt, type Learnt, type Scores } from './study'

const [, , count = '100', first = '1', pace] = process.argv
const islands = await sampleRoute('two-islands-165km')
const passes = await sampleRoute('two-passes-62km')
const all: Learnt[] = []
for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
  const [route, other] = seed % 3 === 0 ? [islands, passes] : [passes, islands]
  const one = await learnt(seed, route, other, pace === 'even')
  all.push(one)
  console.error(JSON.stringify(one))
}

const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(8)
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!
const sum = (key: 'truth' | 'found' | 'right') => all.reduce((total, { halts }) => total + halts[key], 0)
console.log(
  `${all.length} seeds; halts: recall ${percent(sum('right') / sum('truth'))}, precision ${percent(sum('right') / sum('found'))}`,
)
console.log(
  `with readings, median error: power ${percent(median(all.map(({ powerError }) => Math.abs(powerError))))}, of that day ${percent(median(all.map(({ dayPowerError }) => Math.abs(dayPowerError))))}, assist ${percent(median(all.map(({ assistError }) => Math.abs(assistError))))}`,
)
for (const kind of ['without', 'with'] as const)
  for (const key of Object.keys(all[0]![kind]) as (keyof Scores)[]) {
    const scores = all.map((one) => one[kind][key]!)
    const { in80, in95 } = coverage(scores)
    const left =
      kind === 'without' && key !== 'time' && key !== 'energy'
        ? `left ${percent(median(all.map((one) => one.left[key]!)))}`
        : ''
    console.log(
      `${kind.padEnd(8)} ${key.padEnd(12)} 80: ${percent(in80)}  95: ${percent(in95)}  median ${median(scores).toFixed(2)} ${left}`,
    )
  }
