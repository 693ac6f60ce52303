import { mostOfDay, type Control, type KitItem } from './day-schema'
import { setFields } from './edit'
import { changedIn, freshId, merged, numberOf, without } from './lists'
import type { Plan, PlanCrossing } from './schema'

/**
 * Changes a crossing.
 *
 * @param index of the route's crossing
 * @param all crossings of the route as they stand, from `crossingsOf` of the outcome
 */
export function changeCrossing(
  plan: Plan,
  index: number,
  change: Partial<PlanCrossing>,
  all: readonly PlanCrossing[],
): Plan {
  const next = all.map((crossing, i) => (i === index ? merged(crossing, change) : crossing))
  return next.every((crossing, i) => crossing === all[i]) ? plan : merged(plan, { crossings: next })
}

/** @param zone name in the tz database, or null for that of the route's start */
export const setZone = (plan: Plan, zone: string | null): Plan => merged(plan, { zone })
/** @param goal time to beat, s */
export const setGoal = (plan: Plan, goal: number | null): Plan => merged(plan, { goal })
/** @param table weather by the hour, empty for one weather all day */
export const setWeatherTable = (plan: Plan, table: Plan['weather']['table']): Plan =>
  setFields(plan, 'weather', { table })

/** A further control, open all day; none above the most. */
export function addControl(plan: Plan, distance: number): Plan {
  if (plan.controls.length >= mostOfDay.controls) return plan
  const id = freshId('control', plan.controls)
  const control = { id, name: `Control ${numberOf(id)}`, distance, opens: null, closes: null }
  return merged(plan, { controls: [...plan.controls, control] })
}
export const changeControl = (plan: Plan, id: string, change: Partial<Control>): Plan =>
  merged(plan, { controls: changedIn(plan.controls, id, change) })
export const removeControl = (plan: Plan, id: string): Plan => merged(plan, { controls: without(plan.controls, id) })

/** Replaces the whole kit list, as after pasting one. */
export const setKit = (plan: Plan, kit: KitItem[]): Plan => merged(plan, { kit })
/** A further thing of the kit, 100 g on the bike. */
export function addKitItem(plan: Plan): Plan {
  if (plan.kit.length >= mostOfDay.kit) return plan
  const item: KitItem = {
    id: freshId('kit', plan.kit),
    name: 'Thing',
    mass: 0.1,
    count: 1,
    place: 'bike',
    mark: 'comes',
    use: null,
  }
  return merged(plan, { kit: [...plan.kit, item] })
}
export const changeKitItem = (plan: Plan, id: string, change: Partial<KitItem>): Plan =>
  merged(plan, { kit: changedIn(plan.kit, id, change) })
export const removeKitItem = (plan: Plan, id: string): Plan => merged(plan, { kit: without(plan.kit, id) })
