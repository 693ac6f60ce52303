import { defaultPack, defaultSource, defaultStop } from './defaults'
import type { Plan, PlanPack, PlanSource, PlanStop } from './schema'

/** The groups whose fields stand directly in the plan. */
export type FieldGroup = 'rider' | 'bike' | 'assist' | 'weather' | 'battery' | 'legs'

/** Same object if nothing changes, so that an empty edit is no step of the history. */
function merged<T extends object>(object: T, change: Partial<T>): T {
  const keys = Object.keys(change) as (keyof T)[]
  return keys.every((key) => object[key] === change[key]) ? object : { ...object, ...change }
}

const changedIn = <T extends { id: string }>(list: T[], id: string, change: Partial<T>): T[] => {
  const next = list.map((item) => (item.id === id ? merged(item, change) : item))
  return next.every((item, i) => item === list[i]) ? list : next
}

/** A new id `stem-n`, with n above all in use. */
function freshId(stem: string, list: readonly { id: string }[]): string {
  const numbers = list.map(({ id }) => Number(id.startsWith(`${stem}-`) ? id.slice(stem.length + 1) : 0) || 0)
  return `${stem}-${Math.max(0, ...numbers) + 1}`
}

const numberOf = (id: string) => id.slice(id.lastIndexOf('-') + 1)

/** Changes fields of one group. */
export function setFields<G extends FieldGroup>(plan: Plan, group: G, change: Partial<Plan[G]>): Plan {
  return merged(plan, { [group]: merged(plan[group] as object, change) } as Partial<Plan>)
}

/** @param start local date and time, `YYYY-MM-DDTHH:mm` */
export const setStart = (plan: Plan, start: string): Plan => merged(plan, { start })

const withPacks = (plan: Plan, packs: PlanPack[]): Plan => merged(plan, { battery: merged(plan.battery, { packs }) })

/** A further pack, a copy of the last, full at the start. */
export function addPack(plan: Plan): Plan {
  const { packs } = plan.battery
  const id = freshId('pack', packs)
  const like = packs.at(-1) ?? defaultPack(id, '')
  return withPacks(plan, [...packs, { ...like, id, name: `Pack ${numberOf(id)}`, charge: 1 }])
}
export const changePack = (plan: Plan, id: string, change: Partial<PlanPack>): Plan =>
  withPacks(plan, changedIn(plan.battery.packs, id, change))

/** The last pack stays: without any there is no plan. */
export const removePack = (plan: Plan, id: string): Plan =>
  plan.battery.packs.length < 2
    ? plan
    : withPacks(
        plan,
        plan.battery.packs.filter((pack) => pack.id !== id),
      )

export function addSource(plan: Plan): Plan {
  const id = freshId('source', plan.sources)
  return merged(plan, { sources: [...plan.sources, defaultSource(id, `Charger ${numberOf(id)}`)] })
}
export const changeSource = (plan: Plan, id: string, change: Partial<PlanSource>): Plan =>
  merged(plan, { sources: changedIn(plan.sources, id, change) })

/** Stops that used it stay, as rests. */
export const removeSource = (plan: Plan, id: string): Plan =>
  merged(plan, {
    sources: plan.sources.filter((source) => source.id !== id),
    stops: plan.stops.map((stop) => (stop.source === id ? { ...stop, source: null } : stop)),
  })

/**
 * A new stop with the plan's first charge source.
 *
 * @param distance ridden distance from the start, m
 * @returns the plan and the new stop's id
 */
export function addStop(plan: Plan, distance: number): { plan: Plan; id: string } {
  const id = freshId('stop', plan.stops)
  const stop = defaultStop(id, `Stop ${numberOf(id)}`, distance, plan.sources[0]?.id ?? null)
  return { plan: merged(plan, { stops: [...plan.stops, stop] }), id }
}
export const changeStop = (plan: Plan, id: string, change: Partial<PlanStop>): Plan =>
  merged(plan, { stops: changedIn(plan.stops, id, change) })
export const removeStop = (plan: Plan, id: string): Plan =>
  merged(plan, { stops: plan.stops.filter((stop) => stop.id !== id) })

/**
 * @param gap index of the route's gap
 * @param duration time the crossing takes, waiting included, s
 * @param all durations of all gaps as they stand, s
 */
export const setCrossing = (plan: Plan, gap: number, duration: number, all: number[]): Plan =>
  merged(plan, { crossings: all.map((other, i) => (i === gap ? duration : other)) })
