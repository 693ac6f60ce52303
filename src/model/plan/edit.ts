import { chemistries, type ChemistryId } from '../battery/chemistry'
import { fullVoltage } from '../battery/pack'
import { defaultPack, defaultSource, defaultStop } from './defaults'
import { mainsParameters, packParameters } from './parameters'
import { most, type Plan, type PlanPack, type PlanSource, type PlanStop } from './schema'

/** The groups whose fields stand directly in the plan. */
export type FieldGroup = 'rider' | 'bike' | 'assist' | 'weather' | 'battery' | 'legs'

/** Same object if nothing changes, so that an empty edit is no step of the history. */
function merged<T extends object>(object: T, change: Partial<T>): T {
  const keys = Object.keys(change) as (keyof T)[]
  return keys.every((key) => object[key] === change[key]) ? object : { ...object, ...change }
}

/** Same list if no item changes. */
function mapped<T>(list: T[], change: (item: T) => T): T[] {
  const next = list.map(change)
  return next.every((item, i) => item === list[i]) ? list : next
}

const changedIn = <T extends { id: string }>(list: T[], id: string, change: Partial<T>): T[] =>
  mapped(list, (item) => (item.id === id ? merged(item, change) : item))

/** Same list if it has no such id. */
function without<T extends { id: string }>(list: T[], id: string): T[] {
  const next = list.filter((item) => item.id !== id)
  return next.length === list.length ? list : next
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

/** A further pack, a copy of the last, full at the start; none above `most.packs`. */
export function addPack(plan: Plan): Plan {
  const { packs } = plan.battery
  if (packs.length >= most.packs) return plan
  const id = freshId('pack', packs)
  const like = packs.at(-1) ?? defaultPack(id, '')
  return withPacks(plan, [...packs, { ...like, id, name: `Pack ${numberOf(id)}`, charge: 1 }])
}
export const changePack = (plan: Plan, id: string, change: Partial<PlanPack>): Plan =>
  withPacks(plan, changedIn(plan.battery.packs, id, change))

/**
 * Gives a pack another chemistry, with that chemistry's usual resistance and as many cells in series as make a pack of the same
 * class: 7, 10, 13 and 14 of the NMC type are 8, 12, 15 and 16 of LFP (common practice, no source).
 */
export function changeChemistry(plan: Plan, id: string, chemistry: ChemistryId): Plan {
  const pack = plan.battery.packs.find((pack) => pack.id === id)
  if (pack === undefined || pack.chemistry === chemistry) return plan
  const to = chemistries[chemistry]
  const share = chemistries[pack.chemistry].nominalVoltage / to.nominalVoltage
  const series = share > 1 ? Math.ceil(pack.series * share) : Math.floor(pack.series * share)
  const { min, max } = packParameters.series
  return changePack(plan, id, {
    chemistry,
    series: Math.min(Math.max(series, min), max),
    cellResistance: to.dischargeResistance,
  })
}

/** Moves a pack in the order in which the packs are used. */
export function movePack(plan: Plan, id: string, by: 1 | -1): Plan {
  const packs = [...plan.battery.packs]
  const from = packs.findIndex((pack) => pack.id === id)
  const other = packs[from + by]
  if (from < 0 || other === undefined) return plan
  packs[from + by] = packs[from]!
  packs[from] = other
  return withPacks(plan, packs)
}

/** The last pack stays: without any there is no plan. */
export const removePack = (plan: Plan, id: string): Plan =>
  plan.battery.packs.length < 2 ? plan : withPacks(plan, without(plan.battery.packs, id))

/** A further charger that fits the first pack; none above `most.sources`. */
export function addSource(plan: Plan): Plan {
  if (plan.sources.length >= most.sources) return plan
  const id = freshId('source', plan.sources)
  const { min, max } = mainsParameters.voltage
  const first = plan.battery.packs[0]
  const source = defaultSource(id, `Charger ${numberOf(id)}`)
  const voltage = first === undefined ? source.voltage : Math.min(Math.max(fullVoltage(first), min), max)
  return merged(plan, { sources: [...plan.sources, { ...source, voltage }] })
}
export const changeSource = (plan: Plan, id: string, change: Partial<PlanSource>): Plan =>
  merged(plan, { sources: changedIn(plan.sources, id, change) })

/** Stops that used it stay, as rests. */
export const removeSource = (plan: Plan, id: string): Plan =>
  merged(plan, {
    sources: without(plan.sources, id),
    stops: mapped(plan.stops, (stop) => (stop.source === id ? { ...stop, source: null } : stop)),
  })

/**
 * A new stop with the plan's first charge source.
 *
 * @param distance ridden distance from the start, m
 * @returns the plan and the new stop's id; the same plan and no id where it holds `most.stops`
 */
export function addStop(plan: Plan, distance: number): { plan: Plan; id: string | undefined } {
  if (plan.stops.length >= most.stops) return { plan, id: undefined }
  const id = freshId('stop', plan.stops)
  const stop = defaultStop(id, `Stop ${numberOf(id)}`, distance, plan.sources[0]?.id ?? null)
  return { plan: merged(plan, { stops: [...plan.stops, stop] }), id }
}
export const changeStop = (plan: Plan, id: string, change: Partial<PlanStop>): Plan =>
  merged(plan, { stops: changedIn(plan.stops, id, change) })
export const removeStop = (plan: Plan, id: string): Plan => merged(plan, { stops: without(plan.stops, id) })

/**
 * @param gap index of the route's crossing
 * @param duration time the crossing takes, waiting included, s
 * @param all durations of all crossings as they stand, s
 */
export const setCrossing = (plan: Plan, gap: number, duration: number, all: number[]): Plan =>
  all[gap] === duration ? plan : merged(plan, { crossings: all.map((other, i) => (i === gap ? duration : other)) })
