import { freshId } from '../plan/lists'
import { most, type Plan, type PlanStretch } from '../plan/schema'
import type { Place } from './rule'

/**
 * A plan ridden with ratios by place: the most frequent is that of the plan, on the flat and on climbs, the others are stated by stretches, which keep
 * what the rider stated there of surface, shelter and speed.
 *
 * @param asked places that cover the whole route one behind the other
 * @returns undefined where the plan would hold more stretches than it can
 */
export function planWithRatios(plan: Plan, asked: readonly Place[]): Plan | undefined {
  const stated = plan.stretches.flatMap(({ start, end }) => [start, end])
  const snapped = (at: number) => stated.find((end) => Math.abs(end - at) < near) ?? at
  const places = asked.map(({ start, end, ratio }) => ({ start: snapped(start), end: snapped(end), ratio }))
  const lengths = new Map<number, number>()
  for (const { start, end, ratio } of places) lengths.set(ratio, (lengths.get(ratio) ?? 0) + end - start)
  const usual = [...lengths].reduce((one, other) => (other[1] > one[1] ? other : one))[0]
  const cuts = [...places, ...plan.stretches].flatMap(({ start, end }) => [start, end])
  const ends = [...new Set(cuts)].sort((a, b) => a - b)
  const stretches: PlanStretch[] = []
  ends.slice(1).forEach((end, k) => {
    const start = ends[k]!
    const own = plan.stretches.find((one) => one.start <= start && one.end >= end)
    const ratio = places.find((one) => one.start <= start && one.end >= end)?.ratio ?? usual
    const assistRatio = ratio === usual ? null : ratio
    if (own === undefined && assistRatio === null) return
    const before = stretches.at(-1)
    const same = before?.end === start && before.assistRatio === assistRatio
    if (same && before.name === (own?.name ?? '') && isAlike(before, own)) {
      before.end = end
      return
    }
    const { surface, shelter, speedLimit, name } = own ?? nothingStated
    const id = own !== undefined && own.start === start ? own.id : freshId('stretch', [...plan.stretches, ...stretches])
    stretches.push({ id, name, start, end, surface, shelter, speedLimit, assistRatio })
  })
  const kept = stretches.filter(
    ({ surface, shelter, speedLimit, assistRatio, name }) =>
      name !== '' || surface !== null || shelter !== null || speedLimit !== null || assistRatio !== null,
  )
  if (kept.length > most.stretches) return undefined
  return { ...plan, assist: { ...plan.assist, ratio: usual, climbRatio: usual }, stretches: kept }
}

/** Places end at stations: an end of a stretch so near, m, is meant. */
const near = 10

const nothingStated = { name: '', surface: null, shelter: null, speedLimit: null }

const isAlike = (one: PlanStretch, stated: Pick<PlanStretch, 'surface' | 'shelter' | 'speedLimit'> = nothingStated) =>
  one.surface === stated.surface && one.shelter === stated.shelter && one.speedLimit === stated.speedLimit
