import * as v from 'valibot'
import { migrate } from './migrate'
import { planSchema, planVersion, type Plan } from './schema'
import { stretchFault } from './stretches'

export type PlanReading = { ok: true; plan: Plan } | { ok: false; sentence: string }

const refuse = (sentence: string): PlanReading => ({ ok: false, sentence })

/**
 * A plan from any door (file, storage): brought to the newest version, checked by the one schema and then across fields.
 *
 * @param text JSON
 * @returns the plan, or one sentence that says what is wrong and where
 */
export function readPlan(text: string): PlanReading {
  let document: unknown
  try {
    document = JSON.parse(text)
  } catch {
    return refuse('This plan file is not JSON, so it was not opened.')
  }
  if (
    typeof document !== 'object' ||
    document === null ||
    !('format' in document) ||
    document.format !== 'wattfare-plan'
  )
    return refuse('This file is not a Wattfare plan: its “format” is missing.')
  const version = 'version' in document ? document.version : undefined
  if (typeof version !== 'number' || !Number.isSafeInteger(version) || version < 1)
    return refuse('This plan’s “version” is not a whole number from 1, so it was not opened.')
  if (version > planVersion)
    return refuse(`This plan is of version ${version}, newer than this program, which knows version ${planVersion}.`)
  const result = v.safeParse(planSchema, migrate({ ...document }, version))
  if (!result.success) {
    const issue = result.issues[0]
    return refuse(`The plan’s “${v.getDotPath(issue) ?? 'document'}” is not right: ${issue.message}.`)
  }
  const fault = crossFieldFault(result.output)
  return fault === undefined ? { ok: true, plan: result.output } : refuse(fault)
}

/**
 * What is wrong between fields that are each within bounds.
 *
 * @returns one sentence, or undefined if all is well
 */
export function crossFieldFault(plan: Plan): string | undefined {
  for (const [what, list] of [
    ['packs', plan.battery.packs],
    ['charge sources', plan.sources],
    ['stops', plan.stops],
    ['controls', plan.controls],
    ['stretches', plan.stretches],
    ['things of the kit', plan.kit],
  ] as const) {
    const ids = list.map(({ id }) => id)
    const twice = ids.find((id, i) => ids.indexOf(id) !== i)
    if (twice !== undefined) return `Two ${what} of the plan have the same id “${twice}”.`
  }
  for (const stop of plan.stops)
    if (stop.source !== null && !plan.sources.some(({ id }) => id === stop.source))
      return `The stop “${stop.name}” uses a charge source that the plan does not have.`
  if (plan.crossings.some(({ source }) => source !== null && !plan.sources.some(({ id }) => id === source)))
    return 'A crossing uses a charge source that the plan does not have.'
  for (const stretch of plan.stretches) {
    const fault = stretchFault(plan.stretches, stretch)
    if (fault !== undefined)
      return fault.kind === 'order'
        ? `The stretch “${stretch.id}” of the plan ends before it begins.`
        : `The stretches “${stretch.id}” and “${fault.with.id}” of the plan overlap.`
  }
  if (plan.zone !== null && !isZone(plan.zone)) return `“${plan.zone}” is no time zone that the clock knows.`
  if (new Date(`${plan.start}Z`).toISOString().slice(0, 16) !== plan.start)
    return `The start “${plan.start}” is not a date of the calendar.`
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

/** The plan as text for a file or storage; `readPlan` gives back an equal plan. */
export const writePlan = (plan: Plan): string => JSON.stringify(plan, null, 2) + '\n'
