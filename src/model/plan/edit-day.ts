import { crossingSpeed } from './crossings'
import { passageParameters } from './day-parameters'
import { everyDay, mostOfDay, type Control, type KitItem, type Timetable } from './day-schema'
import { setFields } from './edit'
import type { Numbered } from './names'
import { changedIn, freshId, merged, numberOf, without } from './lists'
import { type Plan, type PlanCrossing } from './schema'

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

/** When it leaves, of a kind of timetable. */
type Sails =
  | { kind: 'duration' }
  | Pick<Extract<Timetable, { kind: 'list' }>, 'kind' | 'times'>
  | Pick<Extract<Timetable, { kind: 'every' }>, 'kind' | 'interval' | 'from' | 'until'>

/**
 * A timetable made one of another kind, or with other sailings; days, boarding and length stay where it had them.
 *
 * @param length of the gap that it crosses, m, for a first guess of its time
 */
export function timetableAs(sails: Sails, now: Timetable, length: number): Timetable {
  const passage =
    now.kind === 'duration'
      ? {
          days: [...everyDay],
          boardBefore: passageParameters.boardBefore.default,
          length: 300 * Math.max(1, Math.round(length / crossingSpeed / 300)),
        }
      : { days: now.days, boardBefore: now.boardBefore, length: now.length }
  if (sails.kind !== 'duration') return { ...sails, ...passage }
  return now.kind === 'duration' ? now : { kind: 'duration', duration: passage.boardBefore + passage.length }
}

/** @param zone name in the tz database, or null for that of the route's start */
export const setZone = (plan: Plan, zone: string | null): Plan => merged(plan, { zone })
/** Times to beat, s: of the whole day, and of riding alone. */
export const setGoal = (plan: Plan, goal: Partial<Pick<Plan, 'goal' | 'ridingGoal'>>): Plan => merged<Plan>(plan, goal)
/** @param table weather by the hour, empty for one weather all day */
export const setWeatherTable = (plan: Plan, table: Plan['weather']['table']): Plan =>
  setFields(plan, 'weather', { table })

/** A further control, open all day; none above the most. */
export function addControl(plan: Plan, distance: number, named: Numbered): Plan {
  if (plan.controls.length >= mostOfDay.controls) return plan
  const id = freshId('control', plan.controls)
  const control = { id, name: named(numberOf(id)), distance, opens: null, closes: null }
  return merged(plan, { controls: [...plan.controls, control] })
}
export const changeControl = (plan: Plan, id: string, change: Partial<Control>): Plan =>
  merged(plan, { controls: changedIn(plan.controls, id, change) })
export const removeControl = (plan: Plan, id: string): Plan => merged(plan, { controls: without(plan.controls, id) })

/** Replaces the whole kit list, as after pasting one. */
export const setKit = (plan: Plan, kit: KitItem[]): Plan => merged(plan, { kit })
/** A further thing of the kit, 100 g on the bike. */
export function addKitItem(plan: Plan, name: string): Plan {
  if (plan.kit.length >= mostOfDay.kit) return plan
  const item: KitItem = {
    id: freshId('kit', plan.kit),
    name,
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
