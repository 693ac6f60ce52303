import { catalogue, type Catalogue } from './catalogue'
import type { Plan, PlanStop } from './schema'

type Lists = 'packs' | 'sources' | 'stops' | 'stretches' | 'controls' | 'kit'

/** What one plan states otherwise than another. Numbers in SI or in the unit that their key names; names as the rider gave them. */
export type PlanDifference =
  | { code: 'number'; group: keyof Catalogue; key: string; of: string | undefined; from: number; to: number }
  | { code: 'place'; of: string; from: number; to: number }
  | { code: 'start'; from: string; to: string }
  | { code: 'goal' | 'ridingGoal'; from: number | null; to: number | null }
  | { code: 'added' | 'removed' | 'otherwise'; list: Lists; names: string[] }
  | { code: 'other'; what: 'zone' | 'motorPlace' | 'lights' | 'surroundings' | 'hourlyWeather' | 'crossings' }

const goals = ['goal', 'ridingGoal'] as const
const groups = ['rider', 'bike', 'assist', 'weather', 'wet', 'battery'] as const satisfies (keyof Plan &
  keyof Catalogue)[]

/** What a plan states otherwise than another, in order of the page; what is only called otherwise is none. */
export function planDifferences(from: Plan, to: Plan): PlanDifference[] {
  const other = (what: Extract<PlanDifference, { code: 'other' }>['what'], one: unknown, another: unknown) =>
    isEqual(one, another) ? [] : [{ code: 'other' as const, what }]
  return [
    ...(from.start === to.start ? [] : [{ code: 'start' as const, from: from.start, to: to.start }]),
    ...other('zone', from.zone, to.zone),
    ...goals.flatMap((code) => (from[code] === to[code] ? [] : [{ code, from: from[code], to: to[code] }])),
    ...groups.flatMap((group) => numbers(group, undefined, from[group], to[group])),
    ...other('motorPlace', from.assist.place, to.assist.place),
    ...other('lights', from.assist.lightsOn, to.assist.lightsOn),
    ...other('surroundings', from.weather.surroundings, to.weather.surroundings),
    ...other('hourlyWeather', from.weather.table, to.weather.table),
    ...listed('packs', from.battery.packs, to.battery.packs, (a, b) => numbers('pack', b.name, a, b)),
    ...listed('sources', from.sources, to.sources),
    ...listed('stops', from.stops, to.stops, stopDifferences),
    ...other('crossings', from.crossings, to.crossings),
    ...listed('stretches', from.stretches, to.stretches),
    ...listed('controls', from.controls, to.controls),
    ...listed('kit', from.kit, to.kit),
  ]
}

function numbers(group: keyof Catalogue, of: string | undefined, from: object, to: object): PlanDifference[] {
  const [a, b] = [from as Record<string, number>, to as Record<string, number>]
  return Object.keys(catalogue[group]).flatMap((key) =>
    a[key] === b[key] ? [] : [{ code: 'number', group, key, of, from: a[key]!, to: b[key]! }],
  )
}

const stopDifferences = (from: PlanStop, to: PlanStop): PlanDifference[] => [
  ...(from.distance === to.distance
    ? []
    : [{ code: 'place' as const, of: to.name, from: from.distance, to: to.distance }]),
  ...numbers('stop', to.name, from, to),
]

/** @param within what can be said of a thing that is in both; where that is not all, it is said to be otherwise */
function listed<T extends { id: string; name: string }>(
  list: Lists,
  from: readonly T[],
  to: readonly T[],
  within: (from: T, to: T) => PlanDifference[] = () => [],
): PlanDifference[] {
  const missingIn = (others: readonly T[]) => (one: T) => !others.some(({ id }) => id === one.id)
  const said: PlanDifference[] = []
  const otherwise: string[] = []
  for (const now of to) {
    const was = from.find(({ id }) => id === now.id)
    if (was === undefined || isEqual({ ...was, name: '' }, { ...now, name: '' })) continue
    const differences = within(was, now)
    said.push(...differences)
    const told = Object.fromEntries(
      differences.map((one) => (one.code === 'number' ? [one.key, one.to] : ['distance', now['distance' as keyof T]])),
    )
    if (!isEqual({ ...was, ...told, name: '' }, { ...now, name: '' })) otherwise.push(now.name)
  }
  const names = (things: readonly T[]) => things.map(({ name }) => name)
  const [removed, added] = [names(from.filter(missingIn(to))), names(to.filter(missingIn(from)))]
  return [
    ...(removed.length > 0 ? [{ code: 'removed' as const, list, names: removed }] : []),
    ...(added.length > 0 ? [{ code: 'added' as const, list, names: added }] : []),
    ...said,
    ...(otherwise.length > 0 ? [{ code: 'otherwise' as const, list, names: otherwise }] : []),
  ]
}

/** Whether two values of a plan say the same. */
export function isEqual(one: unknown, other: unknown): boolean {
  if (one === other) return true
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false
  const [a, b] = [one as Record<string, unknown>, other as Record<string, unknown>]
  const keys = Object.keys(a)
  return keys.length === Object.keys(b).length && keys.every((key) => key in b && isEqual(a[key], b[key]))
}
