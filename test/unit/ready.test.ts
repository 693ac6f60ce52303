import { describe, expect, it } from 'vitest'
import type { BuildFuses } from '../../src/model/battery/build'
import { readinessOf } from '../../src/model/battery/ready'
import { defaultCarried } from '../../src/model/plan/defaults'

const source = defaultCarried('s', '')
const fuse = { code: 'fuse', current: 5, blade: 58, full: 42 } as const
const fused: BuildFuses = { source: fuse, pack: fuse, string: undefined }
const counted = (of: typeof source, fuses = fused) => {
  const { asked, answered } = readinessOf(of, fuses, 25)
  return [answered, asked]
}
const blocks = (...voltages: number[]) => voltages.map((voltage) => ({ voltage, age: 0 }))
const some = { ...source, polarityMeasured: true, blocksAlike: true }
const all = {
  ...some,
  ...{ fullVoltageKnown: true, chargeLimitKnown: true, backFeedTried: true, seriesRated: true },
  blocks: blocks(13.5, 13.5, 13.5),
}

describe('questions before a lead is built', () => {
  it('are counted: polarity and voltage, what is asked of the build, and whether the blocks are measured and alike', () => {
    expect(counted(source)).toEqual([0, 7])
    expect(counted({ ...source, carried: { ...source.carried, blocksInSeries: 1 } })).toEqual([0, 4])
    expect(counted(some)).toEqual([2, 7])
    expect(counted({ ...some, blocks: blocks(13.5, 13.5, 13.45) })).toEqual([3, 7])
    // However much is wrong with them, they are one question.
    expect(counted({ ...some, blocks: blocks(14.5, 13.5, 3) })).toEqual([2, 7])
    expect(counted(all)).toEqual([7, 7])
  })

  it('are more where only the peak of a converter is known, and where no fuse fits: then it is not ready', () => {
    const peakOnly = { ...all, converter: { ...source.converter, outputCurrent: null, outputPeak: 10 } }
    expect(counted(peakOnly)).toEqual([7, 8])
    const none = { code: 'noFuse', load: 20, least: 25, cableRating: 17 } as const
    expect(readinessOf(all, { ...fused, source: none }, 25).unfused).toEqual([none])
    expect(counted(all, { ...fused, source: none })).toEqual([7, 8])
  })
})
