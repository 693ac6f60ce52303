import { describe, expect, it } from 'vitest'
import { checkBlocks, checkRestVoltage, mostAgeApart } from '../../src/model/battery/blocks'
import { defaultCarried, defaultPlan } from '../../src/model/plan/defaults'
import { changeBlock } from '../../src/model/plan/edit-blocks'
import { addSource } from '../../src/model/plan/edit'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'

const { carried } = defaultCarried('s', '')
const nmc = { ...carried, chemistry: 'nmc' as const, charge: 0.5 }
const block = (voltage: number | null, age: number | null = 0) => ({ voltage, age })
const codes = (...blocks: ReturnType<typeof block>[]) => checkBlocks(carried, blocks, 25).map(({ code }) => code)

describe('the voltage of a block at rest', () => {
  it('tells the charge where its curve is steep, by the published table: 3.733 V a cell is 50 % of the NMC type', () => {
    expect(checkRestVoltage(nmc, 0, 4 * 3.733)).toBeUndefined()
    const off = checkRestVoltage(nmc, 2, 4 * 3.922)
    expect(off).toMatchObject({ code: 'notAsStated', block: 2, stated: 0.5 })
    near((off as { charge: number }).charge, 0.7, 1e-9)
    expect(checkRestVoltage({ ...nmc, charge: 0.7 }, 0, 4 * 3.922)).toBeUndefined()
  })

  it('does not tell it in the middle of the LFP curve, and does when full', () => {
    expect(checkRestVoltage({ ...carried, charge: 0.5 }, 1, 4 * 3.304)).toMatchObject({
      code: 'chargeUntold',
      block: 1,
    })
    expect(checkRestVoltage(carried, 0, 4 * 3.42)).toBeUndefined()
    expect(checkRestVoltage({ ...carried, charge: 0.1 }, 0, 4 * 3.193)).toBeUndefined()
  })

  it('of a full LFP block is 13.4 to 13.6 V; at the 14.4 V of its charge it has not rested', () => {
    for (const voltage of [13.4, 13.5, 13.6]) expect(checkRestVoltage(carried, 0, voltage)).toBeUndefined()
    expect(checkRestVoltage(carried, 1, 14.4)).toMatchObject({ code: 'notRested', block: 1, least: 13.4, most: 13.6 })
    expect(checkRestVoltage({ ...carried, charge: 0.6 }, 0, 13.5)?.code).toBe('notAsStated')
    // Between 60 and 100 % it may be anything that lies 20 mV a cell below what a full one may show.
    expect(checkRestVoltage(carried, 0, 13.33)?.code).toBe('chargeUntold')
  })

  it('refuses cells below their hard limit, and above full: 2.0 and 3.65 V of LFP, 2.5 V of the NMC type', () => {
    expect(checkRestVoltage(carried, 0, 7.99)).toMatchObject({ code: 'tooLow', least: 8 })
    expect(checkRestVoltage(carried, 0, 14.61)?.code).toBe('tooHigh')
    expect(checkRestVoltage(nmc, 0, 9.9)?.code).toBe('tooLow')
    expect(checkRestVoltage({ ...carried, charge: 0 }, 0, 8.4)).toBeUndefined()
  })
})

describe('blocks before they are joined', () => {
  it('must each be measured', () => {
    expect(checkBlocks(carried, [], 25)).toEqual([{ code: 'notMeasured', count: 3 }])
    expect(checkBlocks(carried, [block(13.7), block(13.7, null), block(13.7)], 25)).toEqual([
      { code: 'notMeasured', count: 1 },
    ])
    expect(checkBlocks({ ...carried, blocksInSeries: 1 }, [], 25)).toEqual([])
  })

  it('are refused where two differ by more than a tenth of their current drives', () => {
    // 2 × (4 × 0.16 Ω·Ah / 10 Ah + 20 mΩ) × 1 A is 0.168 V.
    expect(codes(block(13.6), block(13.65), block(13.76))).toEqual([])
    const [fault] = checkBlocks(carried, [block(13.65), block(13.8), block(13.6)], 25)
    expect(fault).toMatchObject({ code: 'voltagesDiffer', blocks: [2, 1] })
    near((fault as { most: number }).most, 0.168, 1e-9)
    near((fault as { difference: number }).difference, 0.2, 1e-9)
  })

  it('are refused where two are more than a year apart', () => {
    expect(codes(block(13.7), block(13.7, mostAgeApart), block(13.7, 0.5 * mostAgeApart))).toEqual([])
    expect(checkBlocks(carried, [block(13.7, 1.1 * mostAgeApart), block(13.7), block(13.7)], 25)).toMatchObject([
      { code: 'agesDiffer', blocks: [1, 0] },
    ])
  })

  it('stand in the plan by their number', () => {
    const { plan, id } = addSource(defaultPlan(), 'carried', wordsIn('metric').names)
    const measured = changeBlock(changeBlock(plan, id!, 2, { voltage: 13.6 }), id!, 0, { age: 86_400 })
    expect(measured.sources.at(-1)).toMatchObject({
      blocks: [block(null, 86_400), block(null, null), block(13.6, null)],
    })
    expect(changeBlock(plan, 'gone', 0, { voltage: 13 })).toBe(plan)
  })
})
