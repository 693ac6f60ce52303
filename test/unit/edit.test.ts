import fc from 'fast-check'
import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { chemistries } from '../../src/model/battery/chemistry'
import { packAt } from '../../src/model/battery/pack'
import { chargerRefusal } from '../../src/model/battery/refusal'
import { crossFieldFault, readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import { defaultPlan } from '../../src/model/plan/defaults'
import {
  addPack,
  addSource,
  addStop,
  changeCarriedChemistry,
  changeChemistry,
  changePack,
  changeSource,
  changeStop,
  movePack,
  removePack,
  removeSource,
  removeStop,
  setFields,
  setStart,
} from '../../src/model/plan/edit'
import { changeCrossing } from '../../src/model/plan/edit-day'
import { addStretch, changeStretch, moveStretchEnd, removeStretch } from '../../src/model/plan/edit-stretches'
import {
  assistParameters,
  bikeParameters,
  crossingParameters,
  legParameters,
  mainsParameters,
  packParameters,
  riderParameters,
  stopParameters,
  stretchParameters,
  surfaces,
  weatherParameters,
  type Parameter,
  type Surface,
} from '../../src/model/plan/parameters'
import { most, planSchema, type Plan } from '../../src/model/plan/schema'
import { History } from '../../src/state/history'
import { wordsIn } from '../../src/view/words/words'

const { names } = wordsIn('metric')

const seed = 20270619

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    Object.values(value).forEach(frozen)
  }
  return value
}

type Edit = (plan: Plan) => Plan

/** A number within the bounds of one parameter of a group. */
const field = <K extends string>(group: Record<K, Parameter>) =>
  fc
    .constantFrom(...(Object.entries(group) as [K, Parameter][]))
    .chain(([key, { min, max }]) =>
      fc.double({ min, max, noNaN: true }).map((value) => ({ [key]: value }) as Partial<Record<K, number>>),
    )

const idOf = (list: readonly { id: string }[], pick: number) => list[pick % Math.max(1, list.length)]?.id ?? 'none'
const pick = fc.nat(9)
const name = fc.string({ maxLength: 80 })
const chemistry = fc.constantFrom('nmc' as const, 'lfp' as const)

const takes = (duration: number) => ({ timetable: { kind: 'duration' as const, duration } })

/** Each edit of edit.ts, at random. */
const edits: Record<string, fc.Arbitrary<Edit>> = {
  rider: field(riderParameters).map((change) => (plan) => setFields(plan, 'rider', change)),
  bike: field(bikeParameters).map((change) => (plan) => setFields(plan, 'bike', change)),
  assist: field(assistParameters).map((change) => (plan) => setFields(plan, 'assist', change)),
  weather: field(weatherParameters).map((change) => (plan) => setFields(plan, 'weather', change)),
  legs: field(legParameters).map((change) => (plan) => setFields(plan, 'legs', change)),
  split: fc.constantFrom('length' as const, 'terrain' as const).map((by) => (plan) => setFields(plan, 'legs', { by })),
  start: fc
    .date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
    .map((date) => (plan) => setStart(plan, date.toISOString().slice(0, 16))),
  addPack: fc.constant((plan) => addPack(plan, names.pack)),
  addSource: fc
    .constantFrom('mains' as const, 'carried' as const, 'swap' as const)
    .map((kind) => (plan) => addSource(plan, kind, names).plan),
  addStop: fc.double({ min: 0, max: 2e5, noNaN: true }).map((at) => (plan) => addStop(plan, at, names.stop).plan),
  changePack: fc.tuple(pick, field(packParameters)).map(
    ([n, change]) =>
      (plan) =>
        changePack(plan, idOf(plan.battery.packs, n), change),
  ),
  changeSource: fc.tuple(pick, field(mainsParameters)).map(
    ([n, change]) =>
      (plan) =>
        changeSource(
          plan,
          idOf(
            plan.sources.filter(({ kind }) => kind === 'mains'),
            n,
          ),
          change,
        ),
  ),
  changeStop: fc.tuple(pick, field(stopParameters), name).map(
    ([n, change, name]) =>
      (plan) =>
        changeStop(plan, idOf(plan.stops, n), { ...change, name }),
  ),
  stretch: fc.tuple(fc.nat(200_000), fc.integer({ min: 1, max: 20_000 })).map(
    ([start, length]) =>
      (plan) =>
        addStretch(plan, start, start + length).plan,
  ),
  ofItsOwn: fc
    .tuple(pick, field(stretchParameters), fc.constantFrom(...(Object.keys(surfaces) as Surface[]), null))
    .map(
      ([n, own, surface]) =>
        (plan) =>
          changeStretch(plan, idOf(plan.stretches, n), { ...own, surface }),
    ),
  moveStretch: fc.tuple(pick, fc.nat(200_000), fc.nat(200_000)).map(
    ([n, start, end]) =>
      (plan) =>
        changeStretch(plan, idOf(plan.stretches, n), { start, end }),
  ),
  removeStretch: pick.map((n) => (plan) => removeStretch(plan, idOf(plan.stretches, n))),
  restAt: pick.map((n) => (plan) => changeStop(plan, idOf(plan.stops, n), { source: null })),
  chemistry: fc.tuple(pick, chemistry).map(
    ([n, to]) =>
      (plan) =>
        changeChemistry(plan, idOf(plan.battery.packs, n), to),
  ),
  movePack: fc.tuple(pick, fc.constantFrom(1 as const, -1 as const)).map(
    ([n, by]) =>
      (plan) =>
        movePack(plan, idOf(plan.battery.packs, n), by),
  ),
  removePack: pick.map((n) => (plan) => removePack(plan, idOf(plan.battery.packs, n))),
  removeSource: pick.map((n) => (plan) => removeSource(plan, idOf(plan.sources, n))),
  removeStop: pick.map((n) => (plan) => removeStop(plan, idOf(plan.stops, n))),
  crossing: fc.tuple(fc.nat(2), fc.double({ min: 0, max: crossingParameters.duration.max, noNaN: true })).map(
    ([gap, time]) =>
      (plan) =>
        changeCrossing(
          plan,
          gap,
          takes(time),
          [0, 1, 2].map((i) => plan.crossings[i] ?? { ...takes(1200), source: null, fillFirst: 'most' }),
        ),
  ),
}
const anyEdit = fc
  .constantFrom(...Object.keys(edits))
  .chain((kind) => edits[kind]!.map((edit) => ({ kind, edit, toString: () => kind })))

describe('edits of the plan', () => {
  it('leave the plan they are given alone, keep it valid, and are undone and redone exactly', () => {
    const effective = new Set<string>()
    fc.assert(
      fc.property(fc.array(anyEdit, { maxLength: 40 }), (sequence) => {
        const first = frozen(defaultPlan())
        const history = new History(first)
        const plans: Plan[] = [first]
        for (const { kind, edit } of sequence) {
          const next = frozen(edit(history.present))
          expect(v.safeParse(planSchema, next).success, kind).toBe(true)
          expect(crossFieldFault(next), kind).toBe(undefined)
          if (next !== history.present) {
            expect(next, kind).not.toEqual(history.present)
            plans.push(next)
            effective.add(kind)
          }
          history.edit(next)
        }
        for (let i = plans.length - 1; i > 0; i--) {
          expect(history.present).toEqual(plans[i])
          expect(history.undo()).toBe(true)
        }
        expect(history.undo()).toBe(false)
        expect(history.present).toEqual(defaultPlan())
        while (history.redo());
        expect(history.present).toEqual(plans.at(-1))
        expect(readPlan(writePlan(history.present))).toEqual({ ok: true, plan: history.present })
      }),
      { seed, numRuns: 300 },
    )
    expect([...effective].sort()).toEqual(Object.keys(edits).sort())
  })

  it.each<[string, Edit]>([
    ['a value that stands already', (plan) => setFields(plan, 'rider', { power: plan.rider.power })],
    ['the start that stands already', (plan) => setStart(plan, plan.start)],
    ['the same name of a pack', (plan) => changePack(plan, 'pack-1', { name: plan.battery.packs[0]!.name })],
    ['the same chemistry', (plan) => changeChemistry(plan, 'pack-1', 'nmc')],
    ['the first pack earlier', (plan) => movePack(plan, 'pack-1', -1)],
    ['the last pack later', (plan) => movePack(plan, 'pack-2', 1)],
    ['a pack that is not there', (plan) => movePack(plan, 'pack-9', 1)],
    ['to remove what is not there', (plan) => removeStop(removeSource(removePack(plan, 'x'), 'x'), 'x')],
    ['to change what is not there', (plan) => changeStop(changeSource(plan, 'x', { name: '' }), 'x', { name: '' })],
    ['to remove a stretch that is not there', (plan) => removeStretch(changeStretch(plan, 'x', { end: 9 }), 'x')],
    [
      'a crossing as it stands',
      (plan) => changeCrossing(plan, 0, { source: null }, [{ ...takes(1200), source: null, fillFirst: 'most' }]),
    ],
  ])('give the same object for %s', (_, edit) => {
    const plan = frozen(defaultPlan())
    expect(edit(plan)).toBe(plan)
  })

  it('share what they do not touch', () => {
    const plan = defaultPlan()
    const next = changePack(plan, 'pack-2', { charge: 0.5 })
    expect(next.battery.packs[0]).toBe(plan.battery.packs[0])
    expect(next.rider).toBe(plan.rider)
  })

  it('never remove the last pack', () => {
    const one = removePack(defaultPlan(), 'pack-1')
    expect(one.battery.packs.map(({ id }) => id)).toEqual(['pack-2'])
    expect(removePack(one, 'pack-2')).toBe(one)
  })

  it('add no more than a plan can hold', () => {
    let plan = defaultPlan()
    for (let i = 0; i < most.stops + 5; i++)
      plan = addStop(addSource(addPack(plan, names.pack), 'carried', names).plan, i, names.stop).plan
    expect([plan.battery.packs.length, plan.sources.length, plan.stops.length]).toEqual([
      most.packs,
      most.sources,
      most.stops,
    ])
    expect(addStop(plan, 1, names.stop)).toEqual({ plan, id: undefined })
    expect(readPlan(writePlan(plan)).ok).toBe(true)
  })

  it('adds a pack like the last when it was new, and full', () => {
    const plan = defaultPlan()
    const worn = { ...plan.battery.packs.at(-1)!, health: 0.7, charge: 0.4, capacityAh: 11 }
    plan.battery.packs = [worn]
    expect(addPack(plan, names.pack).battery.packs).toEqual([
      worn,
      { ...worn, id: expect.any(String) as string, name: expect.any(String) as string, health: 1, charge: 1 },
    ])
  })

  it('move a pack in the order of use', () => {
    const plan = movePack(addPack(defaultPlan(), names.pack), 'pack-3', -1)
    expect(plan.battery.packs.map(({ id }) => id)).toEqual(['pack-1', 'pack-3', 'pack-2'])
  })

  it('leave a pack at an end of the order there, and another chemistry of a thing that is not', () => {
    const plan = defaultPlan()
    expect(movePack(plan, 'pack-1', -1)).toBe(plan)
    expect(movePack(plan, 'pack-2', 1)).toBe(plan)
    expect(movePack(plan, 'none', 1)).toBe(plan)
    expect(changeChemistry(plan, 'none', 'lfp')).toBe(plan)
    expect(changeChemistry(plan, 'pack-1', 'nmc')).toBe(plan)
    expect(moveStretchEnd(plan, 'none', 'end', 5, 10)).toBe(plan)
    expect(changeStretch(plan, 'none', { start: 5 })).toBe(plan)
  })

  it('give a carried pack the resistance and the lowest voltage of its chemistry', () => {
    const { plan, id } = addSource(defaultPlan(), 'carried', names)
    const carriedOf = (plan: Plan) => {
      const source = plan.sources.find((source) => source.id === id)
      return source?.kind === 'carried' ? source.carried : undefined
    }
    const lfp = changeCarriedChemistry(plan, id!, 'lfp')
    expect(carriedOf(lfp)).toEqual({
      ...carriedOf(plan),
      chemistry: 'lfp',
      cellResistance: chemistries.lfp.dischargeResistance,
      lowestCellVoltage: chemistries.lfp.lowVoltage,
    })
    expect(changeCarriedChemistry(lfp, id!, 'lfp')).toBe(lfp)
    expect(changeCarriedChemistry(lfp, 'source-1', 'nmc')).toBe(lfp)
    expect(changeCarriedChemistry(lfp, 'none', 'nmc')).toBe(lfp)
  })

  it('keep stretches in order and apart; touching is fine', () => {
    const one = addStretch(defaultPlan(), 20_000, 30_000).plan
    const { plan: two, id } = addStretch(one, 10_000, 20_000)
    expect(two.stretches.map(({ id, start }) => [id, start])).toEqual([
      ['stretch-2', 10_000],
      ['stretch-1', 20_000],
    ])
    for (const [start, end] of [
      [9000, 10_001],
      [29_999, 31_000],
      [12_000, 13_000],
      [5000, 50_000],
      [40_000, 40_000],
      [41_000, 40_000],
      [NaN, 40_000],
    ] as const)
      expect(addStretch(two, start, end)).toEqual({ plan: two, id: undefined })
    expect(changeStretch(two, id!, { end: 20_000.5 })).toBe(two)
    expect(changeStretch(two, id!, { start: 20_000 })).toBe(two)
    const moved = changeStretch(two, id!, { start: 30_000, end: 31_000, surface: 'gravel' })
    expect(moved.stretches.map(({ id, surface }) => [id, surface])).toEqual([
      ['stretch-1', null],
      ['stretch-2', 'gravel'],
    ])
    expect(removeStretch(moved, 'stretch-1').stretches.map(({ id }) => id)).toEqual(['stretch-2'])
  })

  it('hold no more stretches than a plan can', () => {
    let plan = defaultPlan()
    for (let i = 0; i < most.stretches + 5; i++) plan = addStretch(plan, i, i + 1).plan
    expect(plan.stretches).toHaveLength(most.stretches)
    expect(readPlan(writePlan(plan)).ok).toBe(true)
  })

  it('turn stops into rests when their charge source goes', () => {
    const { plan } = addStop(defaultPlan(), 1000, names.stop)
    expect(plan.stops[0]!.source).toBe('source-1')
    expect(removeSource(plan, 'source-1').stops[0]!.source).toBe(null)
  })

  // Common practice, no source: packs of one class have 7, 10, 13, 14 cells of the NMC type or 8, 12, 15, 16 of LFP.
  it.each([
    [7, 8],
    [10, 12],
    [13, 15],
    [14, 16],
  ])('make %i cells of the NMC type %i of LFP, and back', (nmc, lfp) => {
    const plan = changePack(defaultPlan(), 'pack-1', { series: nmc })
    const there = changeChemistry(plan, 'pack-1', 'lfp')
    expect(there.battery.packs[0]).toMatchObject({
      chemistry: 'lfp',
      series: lfp,
      cellResistance: chemistries.lfp.dischargeResistance,
    })
    expect(changeChemistry(there, 'pack-1', 'nmc')).toEqual(plan)
  })

  it('add a charger that the first pack takes', () => {
    const { plan } = addSource(changePack(defaultPlan(), 'pack-1', { series: 13 }), 'mains', names)
    const charger = plan.sources.at(-1)!
    if (charger.kind !== 'mains') throw new Error('Not a charger.')
    expect(charger.voltage).toBeCloseTo(54.6, 9)
    expect(chargerRefusal(packAt(plan.battery.packs[0]!, 20), charger)).toBe(undefined)
    expect(chargerRefusal(packAt(plan.battery.packs[1]!, 20), charger)?.code).toBe('overcharge')
  })
})
