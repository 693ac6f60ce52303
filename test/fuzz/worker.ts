import { parentPort, workerData } from 'node:worker_threads'
import { simulate } from '../../src/model/forecast/simulate'
import { readPlan } from '../../src/model/plan/check'
import { legsOf } from '../../src/model/readings/legs'
import type { Plan } from '../../src/model/plan/schema'
import type { RouteChoice } from '../../src/model/route/reading'
import { readRoute } from '../../src/model/route/read'
import type { Route } from '../../src/model/route/route'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { readDays } from '../../src/state/day-file'
import { daysWordsIn } from '../../src/view/words/days'
import { wordsIn } from '../../src/view/words/words'
import { courseRoute } from '../routes'
import { caseOf, lengthOfRoute, type Case } from './cases'

/** What became of a case: an answer, a fault in words, or what is wrong. */
export interface Verdict {
  number: number
  kind: Case['kind']
  became: 'answer' | 'fault' | 'wrong'
  /** Of a fault its sentence. */
  said: string
  /** Of the processor, for the machine may have other work, s; and memory outside the heap when it was over, bytes. */
  time: number
  buffers: number
}

const words = wordsIn('metric')
const dayWords = daysWordsIn('metric')
const route = courseRoute({
  length: lengthOfRoute,
  elevation: (d) => 200 + 60 * Math.sin(d / 900),
  curvature: (d) => 0.01 * Math.abs(Math.sin(d / 330)) ** 5,
  crossings: [18_000],
})

/** Where a number is not finite, by its path; undefined where all are. */
function notFinite(value: unknown, path: string, seen: Set<object>): string | undefined {
  if (typeof value === 'number') return Number.isFinite(value) ? undefined : `${path} is ${value}`
  if (typeof value !== 'object' || value === null || seen.has(value)) return undefined
  seen.add(value)
  if (ArrayBuffer.isView(value)) {
    const place = (value as Float64Array).findIndex((number) => !Number.isFinite(number))
    return place < 0 ? undefined : `${path}[${place}] is ${(value as Float64Array)[place]}`
  }
  for (const [key, inside] of Object.entries(value)) {
    const found = notFinite(inside, `${path}.${key}`, seen)
    if (found !== undefined) return found
  }
  return undefined
}

const answer = (over: Route, plan: Parameters<typeof simulate>[1]): string | undefined => {
  // Until when the weather at hand holds may be for ever.
  const { weather, ...outcome } = simulate(over, plan)
  return notFinite(outcome, 'outcome', new Set()) ?? notFinite(legsOf({ ...outcome, weather }), 'legs', new Set())
}

const planFor = (length: number) => ({
  ...defaultPlan(words.names),
  stops: [defaultStop('stop-1', 'Mill', length / 2, 'source-1')],
})

/** A fault's sentence, or what is not finite. */
type Tried = { fault: string } | { notFinite: string | undefined }

async function tried({ kind, name, bytes }: Case): Promise<Tried> {
  if (kind === 'plan') {
    const reading = readPlan(new TextDecoder().decode(bytes))
    return reading.ok ? { notFinite: answer(route, reading.plan) } : { fault: words.plan(reading.fault) }
  }
  const reading = kind === 'day' ? readDays(bytes, name) : undefined
  if (reading === undefined) return triedRoute(bytes, name)
  const [first] = reading.faults
  if (first !== undefined) return { fault: dayWords.file(first.fileName, first.fault) }
  for (const { day, plan, bytes } of reading.days) {
    const result = await triedRoute(bytes, day.fileName, day.choice, plan)
    if ('fault' in result || result.notFinite !== undefined) return result
  }
  return { notFinite: undefined }
}

/** @param plan where absent one made for the route */
async function triedRoute(bytes: Uint8Array, name: string, choice?: RouteChoice, plan?: Plan): Promise<Tried> {
  const reading = await readRoute(bytes, name, choice)
  if (!reading.ok) return { fault: words.route.fault(reading.fault) }
  return { notFinite: answer(reading.route, plan ?? planFor(reading.route.length)) }
}

/** What it quotes of a file may say anything. */
const isOneSentence = (text: string) =>
  text.length > 10 &&
  text.length <= 200 &&
  !/[.!?]\s+[A-Z]/.test(text) &&
  !/\[object|\bundefined\b|\bNaN\b|\^\(/.test(text.replace(/"[^"]*"|“[^”]*”/g, ''))

async function verdictOn(number: number): Promise<Verdict> {
  const one = caseOf(workerData as number, number)
  const began = process.cpuUsage()
  let became: Verdict['became'] = 'wrong'
  let said: string
  try {
    const result = await tried(one)
    if ('fault' in result) {
      said = result.fault
      if (isOneSentence(said)) became = 'fault'
    } else {
      said = result.notFinite ?? ''
      if (said === '') became = 'answer'
    }
  } catch (error) {
    said = error instanceof Error ? (error.stack ?? error.message) : String(error)
  }
  const { user, system } = process.cpuUsage(began)
  const time = (user + system) / 1e6
  return { number, kind: one.kind, became, said, time, buffers: process.memoryUsage().arrayBuffers }
}

parentPort!.on(
  'message',
  (number: number) => void verdictOn(number).then((verdict) => parentPort!.postMessage(verdict)),
)
