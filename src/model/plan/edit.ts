import { chemistries, type ChemistryId } from '../battery/chemistry'
import { fullVoltage } from '../battery/pack'
import { converterParameters } from './bench-parameters'
import { defaultCarried, defaultMains, defaultPack, defaultStop } from './defaults'
import type { Names, Numbered } from './names'
import { changedIn, freshId, mapped, merged, numberOf, without } from './lists'
import { mainsParameters, packParameters, type Parameter } from './parameters'
import {
  most,
  type CarriedSource,
  type MainsSource,
  type Plan,
  type PlanPack,
  type PlanSource,
  type PlanStop,
} from './schema'

/** The groups whose fields stand directly in the plan. */
export type FieldGroup = 'rider' | 'needs' | 'wet' | 'bike' | 'pedalling' | 'assist' | 'weather' | 'battery' | 'legs'

/** Changes fields of one group. */
export function setFields<G extends FieldGroup>(plan: Plan, group: G, change: Partial<Plan[G]>): Plan {
  return merged(plan, { [group]: merged(plan[group] as object, change) } as Partial<Plan>)
}

/** @param start local date and time, `YYYY-MM-DDTHH:mm` */
export const setStart = (plan: Plan, start: string): Plan => merged(plan, { start })

const withPacks = (plan: Plan, packs: PlanPack[]): Plan => merged(plan, { battery: merged(plan.battery, { packs }) })

/** A further pack, like the last when it was new, full at the start; none above `most.packs`. */
export function addPack(plan: Plan, named: Numbered): Plan {
  const { packs } = plan.battery
  if (packs.length >= most.packs) return plan
  const id = freshId('pack', packs)
  const like = packs.at(-1) ?? defaultPack(id, '')
  return withPacks(plan, [
    ...packs,
    { ...like, id, name: named(numberOf(id)), charge: 1, storage: 0, health: packParameters.health.default },
  ])
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

/**
 * A further charge source that fits the first pack.
 *
 * @returns the plan and the new source's id; the same plan and no id where it holds `most.sources`
 */
export function addSource(plan: Plan, kind: PlanSource['kind'], names: Names): { plan: Plan; id: string | undefined } {
  if (plan.sources.length >= most.sources) return { plan, id: undefined }
  const id = freshId('source', plan.sources)
  const first = plan.battery.packs[0]
  const within = ({ min, max }: Parameter, value: number) => Math.min(Math.max(value, min), max)
  const full = (parameter: Parameter) => within(parameter, first === undefined ? parameter.default : fullVoltage(first))
  const name = names.source[kind](plan.sources.filter((source) => source.kind === kind).length + 1)
  const make = {
    mains: (): PlanSource => ({
      ...defaultMains(id, name),
      voltage: full(mainsParameters.voltage),
    }),
    carried: (): PlanSource => {
      const source = defaultCarried(id, name)
      return { ...source, along: true, converter: { ...source.converter, voltage: full(converterParameters.voltage) } }
    },
    swap: (): PlanSource => ({ id, name, kind: 'swap' }),
  }
  return { plan: merged(plan, { sources: [...plan.sources, make[kind]()] }), id }
}

/** Gives the blocks of a carried pack another chemistry, with that chemistry's usual resistance and lowest voltage. */
export function changeCarriedChemistry(plan: Plan, id: string, chemistry: ChemistryId): Plan {
  const source = plan.sources.find((source) => source.id === id)
  if (source?.kind !== 'carried' || source.carried.chemistry === chemistry) return plan
  const { dischargeResistance, lowVoltage } = chemistries[chemistry]
  return changeSource(plan, id, {
    carried: { ...source.carried, chemistry, cellResistance: dischargeResistance, lowestCellVoltage: lowVoltage },
  })
}

export const changeSource = (plan: Plan, id: string, change: Partial<MainsSource> | Partial<CarriedSource>): Plan =>
  merged(plan, { sources: changedIn(plan.sources, id, change as Partial<PlanSource>) })

/** Stops that used it stay, as rests. */
export const removeSource = (plan: Plan, id: string): Plan =>
  merged(plan, {
    sources: without(plan.sources, id),
    stops: mapped(plan.stops, (stop) => (stop.source === id ? { ...stop, source: null } : stop)),
    crossings: mapped(plan.crossings, (crossing) =>
      crossing.source === id ? { ...crossing, source: null } : crossing,
    ),
  })

/**
 * A new stop with the plan's first charge source.
 *
 * @param distance ridden distance from the start, m
 * @returns the plan and the new stop's id; the same plan and no id where it holds `most.stops`
 */
export function addStop(plan: Plan, distance: number, named: Numbered): { plan: Plan; id: string | undefined } {
  if (plan.stops.length >= most.stops) return { plan, id: undefined }
  const id = freshId('stop', plan.stops)
  const stop = defaultStop(id, named(numberOf(id)), distance, plan.sources[0]?.id ?? null)
  return { plan: merged(plan, { stops: [...plan.stops, stop] }), id }
}
export const changeStop = (plan: Plan, id: string, change: Partial<PlanStop>): Plan =>
  merged(plan, { stops: changedIn(plan.stops, id, change) })
export const removeStop = (plan: Plan, id: string): Plan => merged(plan, { stops: without(plan.stops, id) })
