import { mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { Worker } from 'node:worker_threads'
import { caseOf, kinds, type Case } from './cases'
import type { Verdict } from './worker'

/**
 * `npm run fuzz -- [--cases N] [--seed N] [--only NUMBER]`: files that are wrong in any way, by a seed, each in a worker that is ended
 * when it takes too long or too much; one at a time, since the processor's time is told for a process only. Each must give an answer of finite numbers or one sentence. What does not is kept in test-results/fuzz.
 */
const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
  },
})
const seed = Number(values.seed)
const first = values.only === undefined ? 0 : Number(values.only)
const last = values.only === undefined ? Number(values.cases) - 1 : first
const patience = 2 // s of the processor
/** By the clock, after which a worker is ended: the machine may be busy, and the first case has the program to load. */
const longest = 60_000 // ms
const mostMemory = 200 // MB
const kept = fileURLToPath(new URL('../../test-results/fuzz/', import.meta.url))

type Result = Verdict | { number: number; became: 'wrong'; said: string }

/** A worker does not inherit how this script is read. */
const program = `import('tsx/esm/api').then(({ register }) => {
  register()
  return import(${JSON.stringify(new URL('./worker.ts', import.meta.url))})
})`

/** A worker that takes one number after the other. */
class Lane {
  private worker: Worker | undefined

  try(number: number): Promise<Result> {
    const worker = (this.worker ??= new Worker(program, {
      eval: true,
      workerData: seed,
      resourceLimits: { maxOldGenerationSizeMb: mostMemory, maxYoungGenerationSizeMb: 32 },
    }))
    return new Promise((resolve) => {
      const wrong = (said: string) => {
        this.end()
        resolve({ number, became: 'wrong', said })
      }
      const wait = setTimeout(() => wrong('gives no answer'), longest)
      worker.removeAllListeners()
      worker.once('error', (error) => {
        clearTimeout(wait)
        wrong(error.message)
      })
      worker.once('message', (verdict: Verdict) => {
        clearTimeout(wait)
        resolve(verdict)
      })
      worker.postMessage(number)
    })
  }

  end(): void {
    void this.worker?.terminate()
    this.worker = undefined
  }
}

function wrongIn(result: Result): string | undefined {
  if (result.became === 'wrong') return result.said
  if (result.time > patience) return `took ${result.time.toFixed(1)} s`
  return result.buffers > mostMemory * 1e6
    ? `holds ${(result.buffers / 1e6).toFixed(0)} MB outside the heap`
    : undefined
}

const tally = Object.fromEntries(kinds.map((kind) => [kind, { answer: 0, fault: 0, wrong: 0 }])) as Record<
  Case['kind'],
  Record<Verdict['became'], number>
>
let slowest = 0
let most = 0
let wrong = 0
const lane = new Lane()
for (let number = first; number <= last; number++) {
  let result = await lane.try(number)
  // The processor is slower where others use its memory: once more.
  if ('time' in result && result.time > patience) result = await lane.try(number)
  const fault = wrongIn(result)
  const { kind, bytes } = caseOf(seed, number)
  tally[kind][fault === undefined ? result.became : 'wrong']++
  if ('time' in result) {
    slowest = Math.max(slowest, result.time)
    most = Math.max(most, result.buffers)
  }
  if (fault !== undefined) {
    wrong++
    mkdirSync(kept, { recursive: true })
    const file = `${seed}-${number}.${{ plan: 'json', day: 'wattfare', gpx: 'gpx', kml: 'kml' }[kind]}`
    writeFileSync(kept + file, bytes)
    console.log(`${file}: ${fault.split('\n').slice(0, 4).join('\n')}`)
  }
  if (values.only !== undefined) console.log(`${result.became}: ${result.said}`)
  if (number > 0 && number % 1000 === 0) console.log(`${number} of ${last + 1}`)
}
lane.end()
for (const [kind, { answer, fault, wrong }] of Object.entries(tally))
  console.log(`${kind}: ${answer} answers, ${fault} faults in one sentence, ${wrong} wrong`)
console.log(`longest ${slowest.toFixed(1)} s, most outside the heap ${(most / 1e6).toFixed(0)} MB (seed ${seed})`)
process.exit(wrong > 0 ? 1 : 0)
