import { describe, expect, it } from 'vitest'
import {
  carriedFacts,
  carriedPack,
  carriedPackSpec,
  chargeAfterStorage,
  checkCarried,
} from '../../src/model/battery/carried'
import { resistance, type Pack } from '../../src/model/battery/pack'
import { checkRestVoltage } from '../../src/model/battery/refusal'
import { travelNote } from '../../src/model/battery/travel'
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
    const most = (joined: Pack) => new PackState(joined, 0.9, 0).most
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
    expect(checkCarried(blocks)).toBeUndefined()
    expect(checkCarried({ ...blocks, charge: 0 })).toBeUndefined()
    expect(checkCarried({ ...blocks, charge: 0.1, storage: 60 * week })).toMatch(/flat after its time in store/)
    expect(checkCarried({ ...blocks, blocksInSeries: 1.5 })).toMatch(/whole numbers/)
    expect(checkCarried({ ...blocks, blockAh: 0 })).toMatch(/capacity above 0/)
    expect(checkCarried({ ...blocks, dischargeCurrent: 0 })).toMatch(/discharge current/)
    expect(checkCarried({ ...blocks, lowestCellVoltage: 1.9 })).toMatch(/lowest voltage/)
    expect(() => carriedPack({ ...blocks, blockCells: 0 }, 20)).toThrow(/whole numbers/)
  })

  it('is refused by its voltage at rest below the hard limit of its cells, and asked about above full', () => {
    const spec = carriedPackSpec(blocks)
    expect(checkRestVoltage(spec, 24)).toBeUndefined()
    expect(checkRestVoltage(spec, 23.9)).toMatch(/must not be charged again/)
    expect(checkRestVoltage(spec, 43.8)).toBeUndefined()
    expect(checkRestVoltage(spec, 44.2)).toMatch(/above the 43.8 V/)
  })
})

describe('travel by air', () => {
  it('allows exactly 100 Wh and asks for approval at exactly 160 Wh', () => {
    const by = (wattHours: number) => travelNote(wattHours).air
    expect([100, 100.1, 160, 160.1].map(by)).toEqual(['allowed', 'with approval', 'with approval', 'not allowed'])
    for (const wattHours of [50, 120, 500])
      expect(travelNote(wattHours).sentence).toMatch(/check the carrier’s current rules/)
  })
})
