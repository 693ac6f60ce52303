import { describe, expect, it } from 'vitest'
import { buildFuses, buildQuestions, buildVoltages } from '../../src/model/battery/build'
import { carriedFacts } from '../../src/model/battery/carried'
import { proposeFuse } from '../../src/model/battery/fuse'
import { defaultCarried, defaultPack } from '../../src/model/plan/defaults'
import { near } from '../asserts'

const { carried, sourceCable, outputCable } = defaultCarried('carried-1', 'Box')
const pack = defaultPack('pack-1', 'Pack 1')
const blocks = (blocksInSeries: number, blocksInParallel: number) => ({ ...carried, blocksInSeries, blocksInParallel })

describe('what is asked of a build', () => {
  it('is less of a single block, and is open until it is answered', () => {
    expect(buildQuestions({}, blocks(1, 1))).toEqual(['chargeLimitKnown', 'backFeedTried'])
    expect(buildQuestions({}, blocks(1, 2))).toEqual(['chargeLimitKnown', 'backFeedTried', 'blocksAlike'])
    expect(buildQuestions({}, blocks(3, 1))).toEqual([
      'chargeLimitKnown',
      'backFeedTried',
      'blocksAlike',
      'seriesRated',
    ])
    expect(buildQuestions({ chargeLimitKnown: true, blocksAlike: false }, blocks(1, 2))).toEqual([
      'backFeedTried',
      'blocksAlike',
    ])
    const all = { chargeLimitKnown: true, backFeedTried: true, blocksAlike: true, seriesRated: true }
    expect(buildQuestions(all, blocks(3, 2))).toEqual([])
  })
})

describe('what a meter must show', () => {
  it('of a string is that of its blocks together, below what it is when full', () => {
    const { block, source, sourceFull, pack: atRest, packFull } = buildVoltages(blocks(3, 1), pack, 0.2, 25)
    near(source.most, 3 * block.most, 1e-12)
    near(source.least, 3 * block.least, 1e-12)
    expect(source.most).toBeLessThan(sourceFull)
    near(sourceFull, carriedFacts(blocks(3, 1)).fullVoltage, 1e-12)
    // 10 cells of the NMC type: 42.0 V full; a fifth full about 3.4 to 3.6 V a cell.
    near(packFull, 42, 1e-9)
    expect(atRest.least).toBeGreaterThan(34)
    expect(atRest.most).toBeLessThan(36.5)
  })

  // 3.348 V a cell: data sheet of an 18650 cell, in the Zephyr kernel's dt-bindings/battery/battery.h; 3.4005 V an hour after the charge: common practice, no published source.
  it('of a full LFP block is what it rests at, 13.4 to 13.6 V, not what its charge ends at', () => {
    const full = buildVoltages(blocks(3, 1), pack, 1, 25).block
    near(full.least, 4 * 3.348, 0.01)
    near(full.most, 4 * 3.4005, 0.01)
    // Half full by the published table, 3.304 V a cell.
    const { block } = buildVoltages({ ...blocks(3, 1), charge: 0.5 }, pack, 0.2, 25)
    near(block.least, 4 * 3.304, 1e-9)
    expect(block.most).toBe(block.least)
    // Of the NMC type, ten cells, full: 4.1 V a cell (common practice, no published source) to the end of the table.
    const { least, most } = buildVoltages(blocks(3, 1), pack, 1, 25).pack
    near(least, 41, 1e-9)
    expect(most).toBeLessThan(42)
  })

  it('lets blocks differ by so little that a tenth of their current flows, by Ohm’s law through both', () => {
    const one = buildVoltages(blocks(1, 2), pack, 0.2, 25)
    const resistance = (carried.blockCells * carried.cellResistance) / carried.blockAh + carried.wiringResistance
    near(one.difference, 2 * resistance * 0.1 * carried.dischargeCurrent, 0.02 * one.difference)
    const weak = { ...blocks(1, 2), dischargeCurrent: carried.dischargeCurrent / 2 }
    near(buildVoltages(weak, pack, 0.2, 25).difference, one.difference / 2, 1e-12)
  })
})

describe('fuses of a build', () => {
  const cables = { sourceCable, outputCable }

  it('stand at both ends, by the current there and the pack’s own full voltage', () => {
    const { source, pack: atPack, string } = buildFuses(blocks(3, 1), pack, cables, 5.2, 4)
    expect(source).toEqual(proposeFuse(5.2, 17, carriedFacts(blocks(3, 1)).fullVoltage))
    expect(atPack).toEqual({ code: 'fuse', current: 5, blade: 58, full: 42 })
    expect(string).toBeUndefined()
  })

  it('stand in each of the strings in parallel, by its share', () => {
    const { string } = buildFuses(blocks(1, 3), pack, cables, 12, 4)
    expect(string).toMatchObject({ code: 'fuse', current: 5 })
  })
})
