import { describe, expect, it } from 'vitest'
import {
  carriedFacts,
  carriedFault,
  carriedPack,
  carriedPackSpec,
  chargeAfterStorage,
} from '../../src/model/battery/carried'
import { resistance, type Pack } from '../../src/model/battery/pack'
import { airTravel } from '../../src/model/battery/travel'
import { PackState } from '../../src/model/forecast/pack-state'
import { near } from '../asserts'
import { blocks } from '../reference/charging-parts'

const week = 7 * 24 * 3600

describe('a carried pack', () => {
  it('adds cells in series and ampere-hours in parallel', () => {
    const spec = carriedPackSpec({ ...blocks, blocksInSeries: 2, blocksInParallel: 3 })
    expect([spec.series, spec.capacityAh, spec.dischargeCurrent]).toEqual([8, 30, 60])
    near(spec.wiringResistance, (0.02 * 2) / 3, 1e-12)
    near(carriedFacts(blocks).ratedWh, 384, 1e-9)
    near(carriedFacts(blocks).blockWh, 128, 1e-9)
    near(carriedFacts(blocks).mass, 3.9, 1e-9)
  })

  it('holds the same energy however its blocks are joined, its resistance that of the joined blocks', () => {
    const series = carriedPack(blocks, 20)
    const parallel = carriedPack({ ...blocks, blocksInSeries: 1, blocksInParallel: 3 }, 20)
    near(resistance(series, 0.5), 9 * resistance(parallel, 0.5), 1e-12)
    const most = (joined: Pack) => new PackState(joined, 0.9, 0, Infinity).most
    near(most(series), most(parallel), 1e-6)
  })

  it('has the lowest voltage of its cells, by chemistry where none is given', () => {
    expect(carriedPack(blocks, 20).cutOffVoltage).toBe(30)
    near(carriedPack({ ...blocks, lowestCellVoltage: 2.8 }, 20).cutOffVoltage, 33.6, 1e-9)
    expect(carriedPack({ ...blocks, chemistry: 'nmc' }, 20).cutOffVoltage).toBe(36)
  })

  it('loses charge in store, down to nothing', () => {
    expect(chargeAfterStorage(blocks)).toBe(1)
    const stored = { ...blocks, charge: 0.5, storage: 10 * week }
    near(chargeAfterStorage(stored), 0.5 - (10 * 168 * (0.03 / 730.5) + (0.0001 * 1680) / 10), 1e-12)
    expect(chargeAfterStorage({ ...stored, storage: 100 * week })).toBe(0)
  })

  it('is refused where it went flat in store, or its numbers make no pack', () => {
    expect(carriedFault(blocks)).toBeUndefined()
    expect(carriedFault({ ...blocks, charge: 0 })).toBeUndefined()
    expect(carriedFault({ ...blocks, charge: 0.1, storage: 60 * week })).toEqual({ code: 'flatInStore' })
    expect(carriedFault({ ...blocks, blocksInSeries: 1.5 })).toEqual({ code: 'notWholeBlocks' })
    expect(carriedFault({ ...blocks, blockAh: 0 })).toEqual({ code: 'blockCapacity' })
    expect(carriedFault({ ...blocks, dischargeCurrent: 0 })).toEqual({ code: 'blockCurrent' })
    expect(carriedFault({ ...blocks, lowestCellVoltage: 1.9 })).toEqual({
      code: 'lowestVoltage',
      chemistry: 'lfp',
      least: 2,
      below: 3.2,
    })
    expect(() => carriedPack({ ...blocks, blockCells: 0 }, 20)).toThrow('notWholeBlocks')
  })
})

describe('travel by air', () => {
  it('allows exactly 100 Wh and asks for approval at exactly 160 Wh', () => {
    expect([100, 100.1, 160, 160.1].map(airTravel)).toEqual(['allowed', 'withApproval', 'withApproval', 'notAllowed'])
  })
})
