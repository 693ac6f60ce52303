import * as v from 'valibot'
import { isDate } from './dates'
import { measureJson, type Size } from './json-size'
import { migrate } from './migrate'
import { planSchema, planVersion, type Plan } from './schema'
import { stretchFault } from './stretches'

/** What is wrong between fields of a plan that are each within bounds. */
export type CrossFieldFault =
  | { code: 'sameId'; of: Identified; id: string }
  | { code: 'noSource'; stop: string }
  | { code: 'noSourceOfCrossing' }
  | { code: 'stretchOrder'; id: string }
  | { code: 'stretchesOverlap'; ids: [string, string] }
  | { code: 'noZone'; zone: string }
  | { code: 'noDate'; start: string }
  | { code: 'noHour'; place: string; time: string }
  | { code: 'hourTwice'; place: string; time: string }

/** Things of a plan that are told apart by their ids. */
export type Identified = 'packs' | 'sources' | 'stops' | 'controls' | 'stretches' | 'kit'

/** Why a document is not taken as a plan. A field's path is that in the document; what is expected and received is in SI, as JSON. */
export type PlanFault =
  | { code: 'tooLarge'; most: number }
  | { code: 'tooDeep' }
  | { code: 'tooMany'; most: number }
  | { code: 'noJson' }
  | { code: 'noPlan' }
  | { code: 'noVersion' }
  | { code: 'newer'; version: number; known: number }
  | { code: 'noDocument' }
  | { code: 'missingField'; path: string }
  | { code: 'badForm'; path: string; received: string }
  | { code: 'outOfBounds'; path: string; bound: 'least' | 'most'; limit: string; received: string }
  | { code: 'badField'; path: string; expected: string; received: string }
  | CrossFieldFault

export type PlanReading = { ok: true; plan: Plan } | { ok: false; fault: PlanFault }

const refuse = (fault: PlanFault): PlanReading => ({ ok: false, fault })

/**
 * How much text is read as a plan, in characters, and how much may be in it: about twice as many values, nested more than twice as deep, as in
 * the fullest plan that the schema allows, which has 4.6 million characters.
 */
export const mostText = 8_000_000
const most: Size = { depth: 16, values: 500_000 }

/** Why a text is not even parsed; undefined where it may be. */
export function sizeFault(text: string): PlanFault | undefined {
  if (text.length > mostText) return { code: 'tooLarge', most: mostText }
  const { depth, values } = measureJson(text)
  if (depth > most.depth) return { code: 'tooDeep' }
  return values > most.values ? { code: 'tooMany', most: most.values } : undefined
}

/**
 * A plan from any door (file, storage): brought to the newest version, checked by the one schema and then across fields.
 *
 * @param text JSON
 * @returns the plan, or what is wrong and where
 */
export function readPlan(text: string): PlanReading {
  const oversize = sizeFault(text)
  if (oversize !== undefined) return refuse(oversize)
  let document: unknown
  try {
    document = JSON.parse(text)
  } catch {
    return refuse({ code: 'noJson' })
  }
  if (
    typeof document !== 'object' ||
    document === null ||
    !('format' in document) ||
    document.format !== 'wattfare-plan'
  )
    return refuse({ code: 'noPlan' })
  const version = 'version' in document ? document.version : undefined
  if (typeof version !== 'number' || !Number.isSafeInteger(version) || version < 1) return refuse({ code: 'noVersion' })
  if (version > planVersion) return refuse({ code: 'newer', version, known: planVersion })
  const result = v.safeParse(planSchema, migrate({ ...document }, version), { abortEarly: true })
  if (!result.success) return refuse(faultOf(result.issues[0]))
  const plan = withWeatherInOrder(result.output)
  const fault = crossFieldFault(plan)
  return fault === undefined ? { ok: true, plan } : refuse(fault)
}

/** Places by distance, and in each its hours by time. */
function withWeatherInOrder(plan: Plan): Plan {
  const table = plan.weather.table
    .map((place) => ({
      ...place,
      hours: place.hours.toSorted((a, b) => Number(a.time > b.time) - Number(a.time < b.time)),
    }))
    .sort((a, b) => a.distance - b.distance)
  return { ...plan, weather: { ...plan.weather, table } }
}

function faultOf(issue: v.InferIssue<typeof planSchema>): PlanFault {
  const path = v.getDotPath(issue)
  const { type, expected, received } = issue
  if (path === null) return { code: 'noDocument' }
  if (received === 'undefined') return { code: 'missingField', path }
  const [, sign, limit] = /^([<>])=(.*)$/.exec(expected ?? '') ?? []
  if (limit !== undefined) return { code: 'outOfBounds', path, bound: sign === '>' ? 'least' : 'most', limit, received }
  return type === 'regex' || expected === null
    ? { code: 'badForm', path, received }
    : { code: 'badField', path, expected, received }
}

/**
 * What is wrong between fields that are each within bounds.
 *
 * @param plan its hours of weather in order of time
 * @returns undefined if all is well
 */
export function crossFieldFault(plan: Plan): CrossFieldFault | undefined {
  const lists: Record<Identified, readonly { id: string }[]> = {
    packs: plan.battery.packs,
    sources: plan.sources,
    stops: plan.stops,
    controls: plan.controls,
    stretches: plan.stretches,
    kit: plan.kit,
  }
  for (const [of, list] of Object.entries(lists) as [Identified, readonly { id: string }[]][]) {
    const ids = list.map(({ id }) => id)
    const twice = ids.find((id, i) => ids.indexOf(id) !== i)
    if (twice !== undefined) return { code: 'sameId', of, id: twice }
  }
  for (const stop of plan.stops)
    if (stop.source !== null && !plan.sources.some(({ id }) => id === stop.source))
      return { code: 'noSource', stop: stop.name }
  if (plan.crossings.some(({ source }) => source !== null && !plan.sources.some(({ id }) => id === source)))
    return { code: 'noSourceOfCrossing' }
  for (const stretch of plan.stretches) {
    const fault = stretchFault(plan.stretches, stretch)
    if (fault !== undefined)
      return fault.kind === 'order'
        ? { code: 'stretchOrder', id: stretch.id }
        : { code: 'stretchesOverlap', ids: [stretch.id, fault.with.id] }
  }
  if (plan.zone !== null && !isZone(plan.zone)) return { code: 'noZone', zone: plan.zone }
  if (!isDate(plan.start.slice(0, 10))) return { code: 'noDate', start: plan.start }
  for (const { name, hours } of plan.weather.table)
    for (const [i, { time }] of hours.entries()) {
      if (!isDate(time.slice(0, 10))) return { code: 'noHour', place: name, time }
      if (time === hours[i - 1]?.time) return { code: 'hourTwice', place: name, time }
    }
  return undefined
}

/** Whether a name is a time zone of the tz database that the browser's clock knows. */
export function isZone(zone: string): boolean {
  try {
    return zone !== '' && new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== ''
  } catch (error) {
    if (error instanceof RangeError) return false
    throw error
  }
}
