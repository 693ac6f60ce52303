import { describe, expect, it } from 'vitest'
import { answeredOf } from '../../src/model/battery/answered'
import { defaultCarried } from '../../src/model/plan/defaults'

const source = defaultCarried('s', '')

describe('questions before a lead is built', () => {
  it('are counted: polarity and voltage, what is asked of the build, and whether the blocks are measured and alike', () => {
    expect(answeredOf(source, 25)).toEqual({ asked: 7, answered: 0 })
    const single = { ...source, carried: { ...source.carried, blocksInSeries: 1 } }
    expect(answeredOf(single, 25)).toEqual({ asked: 4, answered: 0 })
    const some = { ...source, polarityMeasured: true, blocksAlike: true }
    expect(answeredOf(some, 25)).toEqual({ asked: 7, answered: 2 })
    const blocks = (...voltages: number[]) => voltages.map((voltage) => ({ voltage, age: 0 }))
    expect(answeredOf({ ...some, blocks: blocks(13.5, 13.5, 13.45) }, 25)).toEqual({ asked: 7, answered: 3 })
    // However much is wrong with them, they are one question.
    expect(answeredOf({ ...some, blocks: blocks(14.5, 13.5, 3) }, 25)).toEqual({ asked: 7, answered: 2 })
    const all = { ...some, fullVoltageKnown: true, chargeLimitKnown: true, backFeedTried: true, seriesRated: true }
    expect(answeredOf({ ...all, blocks: blocks(13.5, 13.5, 13.5) }, 25)).toEqual({ asked: 7, answered: 7 })
  })
})
