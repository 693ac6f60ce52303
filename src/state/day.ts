import * as v from 'valibot'
import { readPlan, type PlanFault } from '../model/plan/check'
import { writePlan } from '../model/plan/write'
import type { Plan } from '../model/plan/schema'
import { choiceSchema } from '../model/route/choice-schema'
import type { RouteChoice } from '../model/route/reading'

/** A day as it is kept: the route's bytes lie apart, once for all days that use them. */
export interface Day {
  id: string
  /** As the rider named it, or the route's name. */
  name: string
  isNamed: boolean
  /** Begun as this sample: rider and bike of such a day are not taken for the rider's own. */
  sample?: string
  /** Key of the route's bytes. */
  route: string
  fileName: string
  choice: RouteChoice
  /** As text, to be checked like any other. */
  plan: string
  /** Number of its state among the steps of undo. */
  at: number
  /** Last change, Unix time, ms. */
  changed: number
  /** What its file held that this program does not know. */
  others?: Others
  grounds?: Grounds
  beside?: Beside
  rides?: readonly KeptRide[]
}

/** A ride that was ridden: its file as it was opened, packed, unless it is only remembered; and what is said of it, as text to be checked. */
export interface KeptRide {
  id: string
  fileName?: string
  notes: string
  bytes?: Uint8Array
}

/** Plans that are kept beside that of a day, each as text to be checked like any other. */
export interface Beside {
  /** The held one, which others are measured against. */
  held?: string
  kept: readonly KeptPlan[]
}

export interface KeptPlan {
  id: string
  name: string
  plan: string
}

/** Heights of the land that were brought for a route, by the keys that choices name. */
export type Grounds = Readonly<Record<string, Uint8Array>>

/** Parts of a day's file that are passed on as they came. */
export interface Others {
  keys: Record<string, unknown>
  files: Record<string, Uint8Array>
}

const besideSchema: v.GenericSchema<unknown, Beside> = v.object({
  held: v.exactOptional(v.string()),
  kept: v.array(v.object({ id: v.string(), name: v.string(), plan: v.string() })),
})

/** Without its file, as it stands in the file of a day. */
export const rideEntries = {
  id: v.string(),
  fileName: v.exactOptional(v.string()),
  notes: v.string(),
}
const ridesSchema: v.GenericSchema<unknown, KeptRide[]> = v.array(
  v.object({ ...rideEntries, bytes: v.exactOptional(v.instance(Uint8Array)) }),
)

const daySchema: v.GenericSchema<unknown, Day> = v.looseObject({
  id: v.string(),
  name: v.string(),
  isNamed: v.boolean(),
  sample: v.exactOptional(v.string()),
  route: v.string(),
  fileName: v.string(),
  choice: choiceSchema,
  plan: v.string(),
  at: v.number(),
  changed: v.number(),
  others: v.exactOptional(
    v.object({ keys: v.record(v.string(), v.unknown()), files: v.record(v.string(), v.instance(Uint8Array)) }),
  ),
  // Without them the route is read all the same, and says so.
  grounds: v.exactOptional(v.fallback(v.record(v.string(), v.instance(Uint8Array)), {})),
  // Without them the day is whole.
  beside: v.exactOptional(v.fallback(besideSchema, { kept: [] })),
  rides: v.exactOptional(v.fallback(ridesSchema, [])),
})

/** Why a day that is kept can't be opened. */
export type DayFault = { code: 'damaged' } | PlanFault

export type DayReading = { ok: true; day: Day; plan: Plan } | { ok: false; fault: DayFault }

/** A day as it was found in the browser, which may be of another build or damaged. */
export function readDay(record: unknown): DayReading {
  const reading = v.safeParse(daySchema, record)
  if (!reading.success) return { ok: false, fault: { code: 'damaged' } }
  const { output: day } = reading
  const plan = readPlan(day.plan)
  return plan.ok ? { ok: true, day, plan: plan.plan } : plan
}

/** Of grounds those that some choices name; nothing where there are none. */
export function groundsFor(
  choices: readonly RouteChoice[],
  grounds: Grounds | undefined,
): { grounds: Grounds } | undefined {
  const keys = new Set(choices.map(({ ground }) => ground?.key))
  const named = Object.entries(grounds ?? {}).filter(([key]) => keys.has(key))
  return named.length === 0 ? undefined : { grounds: Object.fromEntries(named) }
}

/** Plans beside a day as they come from elsewhere; none where they can't be read. */
export function readBeside(value: unknown): Beside | undefined {
  const reading = v.safeParse(besideSchema, value)
  return reading.success ? reading.output : undefined
}

const plans = new Map<string, Plan | undefined>()
/** As many as are looked at together, by far. */
const mostRead = 100

/** The plan of a text, read once; undefined where it is none. */
export function planOf(text: string): Plan | undefined {
  if (!plans.has(text)) {
    if (plans.size >= mostRead) plans.clear()
    const reading = readPlan(text)
    plans.set(text, reading.ok ? reading.plan : undefined)
  }
  return plans.get(text)
}

const texts = new WeakMap<Plan, string>()

/** A plan as text, worked out once. */
export function textOf(plan: Plan): string {
  let text = texts.get(plan)
  if (text === undefined) texts.set(plan, (text = writePlan(plan)))
  return text
}

const hex = (bytes: Uint8Array) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')

/** An id that no other day has. */
export const newId = (): string => hex(crypto.getRandomValues(new Uint8Array(8)))

/** Key of a route's bytes, the same for the same: SHA-256 where the page is served so that the browser has it. */
export async function routeKey(bytes: Uint8Array): Promise<string> {
  const { subtle } = crypto as { subtle?: SubtleCrypto }
  if (subtle === undefined) return newId()
  return hex(new Uint8Array(await subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>)))
}
