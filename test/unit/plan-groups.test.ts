import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { crossFieldFault, readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan, PlanStretch } from '../../src/model/plan/schema'
import { simulate } from '../../src/model/forecast/simulate'
import { differingGroups, mixPlans, planGroups, type PlanGroup } from '../../src/model/studies/plan-groups'
import { anyRide } from '../invariants/any-ride'
import { fullestPlan } from '../fullest'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 60_000, crossings: [20_000] })
const stretch = (change: Partial<PlanStretch>): PlanStretch => ({
  ...{ id: 'stretch-1', name: '', start: 10_000, end: 20_000 },
  ...{ surface: null, shelter: null, speedLimit: null, assistRatio: null },
  ...change,
})

/** Every value of a plan by its path; ids and what names the document apart. */
function leaves(value: unknown, path = ''): [string, unknown][] {
  if (typeof value !== 'object' || value === null) return [[path, value]]
  return Object.entries(value).flatMap(([key, part]) =>
    /^(id|format|version)$/.test(key) ? [] : leaves(part, `${path}.${key}`),
  )
}

/** A plan with another value in each place but that of ids. */
function allOther<T>(value: T, key = ''): T {
  if (/^(id|format|version)$/.test(key)) return value
  if (typeof value === 'number') return (value + 1) as T
  if (typeof value === 'string') return `${value} too` as T
  if (typeof value === 'boolean') return !value as T
  if (typeof value !== 'object' || value === null) return 'something' as T
  if (Array.isArray(value)) return value.map((part: unknown) => allOther(part)) as T
  return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, allOther<unknown>(part, name)])) as T
}

const short = <T>(list: T[]) => list.slice(0, 2)

describe('a plan by its groups', () => {
  const full = fullestPlan(60_000, 1)
  const plan: Plan = {
    ...full,
    weather: {
      ...full.weather,
      table: short(full.weather.table).map((place) => ({ ...place, hours: short(place.hours) })),
    },
    ...{ sources: short(full.sources), stops: short(full.stops), controls: short(full.controls) },
    ...{ stretches: [full.stretches[0]!, full.stretches[2]!], kit: short(full.kit), zone: 'Europe/Rome', goal: 36_000 },
  }

  it('has every key in exactly one group', () => {
    const other = allOther(plan)
    // Stretches lie where they lay, so that what each says can be followed.
    other.stretches = plan.stretches.map(({ id, name, start, end, ...said }) => ({
      id,
      name,
      start,
      end,
      ...allOther(said),
    }))
    const mixes = planGroups.map((group) => new Map(leaves(mixPlans(route, plan, other, [group]))))
    const inOther = new Map(leaves(other))
    const places = leaves(plan).filter(([path]) => !/^\.stretches\.\d+\.(name|start|end)$/.test(path))
    expect(places.length).toBeGreaterThan(200)
    const groups = new Map(
      places.map(([path, before]) => {
        expect(before, path).not.toEqual(inOther.get(path))
        return [path, planGroups.filter((_, i) => mixes[i]!.get(path) === inOther.get(path))]
      }),
    )
    for (const [path, found] of groups) expect(found, path).toHaveLength(1)
    expect(
      Object.fromEntries(
        [
          '.rider.mass',
          '.kit.0.mass',
          '.bike.luggage',
          '.rider.power',
          '.bike.dragArea',
          '.battery.packs.0.mass',
          '.stops.1.source',
          '.stops.1.duration',
          '.crossings.0.fillFirst',
          '.wet.rolling',
          '.assist.lights',
          '.stretches.0.assistRatio',
          '.zone',
        ].map((path) => [path, groups.get(path)![0]]),
      ),
    ).toEqual({
      '.rider.mass': 'mass',
      '.kit.0.mass': 'mass',
      '.bike.luggage': 'mass',
      '.rider.power': 'rider',
      '.bike.dragArea': 'bike',
      '.battery.packs.0.mass': 'packs',
      '.stops.1.source': 'packs',
      '.stops.1.duration': 'stops',
      '.crossings.0.fillFirst': 'packs',
      '.wet.rolling': 'weather',
      '.assist.lights': 'assist',
      '.stretches.0.assistRatio': 'assist',
      '.zone': 'start',
    } satisfies Record<string, PlanGroup>)
  })

  it('is one plan with no group of the other, the other with all, and names the groups that differ', () => {
    const other = allOther(plan)
    expect(mixPlans(route, plan, other, [])).toBe(plan)
    expect(mixPlans(route, plan, other, planGroups)).toBe(other)
    expect(differingGroups(route, plan, plan)).toEqual([])
    expect(differingGroups(route, plan, structuredClone(plan))).toEqual([])
    expect(differingGroups(route, plan, other)).toEqual(planGroups)
    const heavier = { ...plan, rider: { ...plan.rider, mass: plan.rider.mass + 3 }, start: '2027-06-20T05:00' }
    expect(differingGroups(route, plan, heavier)).toEqual(['mass', 'start'])
    // A crossing of which only the usual is said is as one of which nothing is said.
    const usual = defaultPlan()
    const said: Plan = {
      ...usual,
      crossings: [{ timetable: { kind: 'duration', duration: 2867 }, source: null, fillFirst: 'most' }],
    }
    expect(differingGroups(route, usual, said)).toEqual([])
    said.crossings[0]!.source = 'source-1'
    expect(differingGroups(route, usual, said)).toEqual(['packs'])
  })

  it('charges at a stop with what the plan of the packs says, and rests where that has no such source', () => {
    const usual: Plan = {
      ...defaultPlan(),
      stops: [defaultStop('stop-1', 'Inn', 9000, 'source-1'), defaultStop('stop-2', 'Mill', 30_000, 'source-1')],
    }
    const carried: Plan = {
      ...usual,
      sources: [...usual.sources, defaultCarried('source-2', 'Carried')],
      stops: [
        { ...usual.stops[0]!, source: 'source-2', duration: 99 },
        { ...defaultStop('stop-3', 'Bench', 40_000, 'source-2'), duration: 1500 },
        defaultStop('stop-4', 'Quay', 50_000, 'source-1'),
      ],
    }
    const stopsOf = (groups: PlanGroup[]) =>
      mixPlans(route, usual, carried, groups).stops.map(({ id, source, duration }) => [id, source, duration])
    const [inn] = usual.stops
    expect(stopsOf(['packs'])).toEqual([
      ['stop-1', 'source-2', inn!.duration],
      ['stop-2', 'source-1', inn!.duration],
    ])
    expect(stopsOf(['stops'])).toEqual([
      ['stop-1', 'source-1', 99],
      ['stop-3', null, 1500],
      ['stop-4', 'source-1', inn!.duration],
    ])
    expect(stopsOf(['stops', 'packs'])).toEqual(carried.stops.map(({ id, source, duration }) => [id, source, duration]))
  })

  it('cuts stretches where either plan has one, and takes of each what belongs to the group', () => {
    const a: Plan = { ...defaultPlan(), stretches: [stretch({ surface: 'gravel', assistRatio: 0.5, name: 'Wood' })] }
    const b: Plan = {
      ...a,
      stretches: [
        stretch({ start: 15_000, end: 30_000, surface: 'cobbles', shelter: 0.2, assistRatio: 2 }),
        stretch({ id: 'stretch-2', start: 30_000, end: 31_000, speedLimit: 4, assistRatio: 2 }),
      ],
    }
    const said = (groups: PlanGroup[]) =>
      mixPlans(route, a, b, groups).stretches.map(({ start, end, surface, shelter, speedLimit, assistRatio }) =>
        [start, end, surface, shelter, speedLimit, assistRatio].join(' '),
      )
    expect(said(['mass', 'stops'])).toEqual(['10000 20000 gravel   0.5'])
    expect(said(['assist'])).toEqual(['10000 15000 gravel   ', '15000 20000 gravel   2', '20000 31000    2'])
    expect(said(['bike'])).toEqual([
      '10000 15000    0.5',
      '15000 20000 cobbles   0.5',
      '20000 30000 cobbles   ',
      '30000 31000   4 ',
    ])
    expect(said(['weather', 'assist', 'bike'])).toEqual(['15000 30000 cobbles 0.2  2', '30000 31000   4 2'])
    expect(
      differingGroups(route, a, { ...a, stretches: [...a.stretches, stretch({ id: 'stretch-7', start: 1, end: 2 })] }),
    ).toEqual([])
  })

  it('is valid however two plans are mixed, and can be ridden', () => {
    fc.assert(
      fc.property(anyRide, anyRide, fc.subarray([...planGroups]), ({ course, plan }, ride, groups) => {
        const other = { ...ride.plan, stops: ride.plan.stops.map((stop) => ({ ...stop, id: `${stop.id}-too` })) }
        const there = courseRoute(course)
        const mixed = mixPlans(there, plan, other, groups)
        expect(crossFieldFault(mixed)).toBeUndefined()
        expect(readPlan(writePlan(mixed))).toMatchObject({ ok: true })
        expect(simulate(there, mixed).columns.time.at(-1)).toBeGreaterThan(0)
      }),
      { numRuns: 100 },
    )
  })
})
