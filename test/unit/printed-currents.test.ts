import { describe, expect, it } from 'vitest'
import { currentCautions, steadyCurrents } from '../../src/model/battery/converter'
import { packAt } from '../../src/model/battery/pack'
import { arrangementOf, sourceRefusal } from '../../src/model/forecast/sources'
import { transferIn } from '../../src/model/battery/arrangement'
import { defaultCarried, defaultPack } from '../../src/model/plan/defaults'
import { near } from '../asserts'

const pack = defaultPack('pack-1', '')
const source = (converter: object) => {
  const made = defaultCarried('s', '')
  return { ...made, converter: { ...made.converter, current: 6, ...converter } }
}
/** Current into the bike's pack at the beginning, A. */
const flows = (converter: object) =>
  transferIn(arrangementOf(source(converter), pack, 20)).trace(1, 0.3, { time: 600 }, 60).columns.current[0]!

describe('printed currents of a converter', () => {
  it('lets flow what is continuous, not the peak', () => {
    const held = flows({ outputCurrent: 3, outputPeak: 8 })
    near(held, 3, 1e-12)
    expect(flows({ outputCurrent: 3, outputPeak: null })).toBe(held)
    expect(flows({ inputCurrent: 2.5, inputPeak: 15 })).toBeLessThan(3)
    expect(flows({ inputCurrent: 2.5, inputPeak: 15 })).toBe(flows({ inputCurrent: 2.5, inputPeak: null }))
  })

  it('takes 60 % of a peak where nothing else is printed', () => {
    expect(steadyCurrents({ outputCurrent: null, outputPeak: 5, inputCurrent: null, inputPeak: 10 })).toEqual({
      outputCurrent: 3,
      inputCurrent: 6,
    })
    near(flows({ outputCurrent: null, outputPeak: 5 }), 3, 1e-12)
  })

  it('refuses a converter of which no current is known', () => {
    const none = source({ outputCurrent: null, outputPeak: null })
    expect(sourceRefusal(none, packAt(pack, 20))).toEqual({ code: 'noOutput' })
  })

  it('says where only the peak is known, where the two contradict, and where more is set than flows', () => {
    const printed = { outputCurrent: 8, outputPeak: null, inputCurrent: 10, inputPeak: null, current: 4 }
    expect(currentCautions(printed)).toEqual([])
    expect(currentCautions({ ...printed, inputCurrent: null, inputPeak: 15 })).toEqual([
      { code: 'peakOnly', side: 'input', peak: 15, taken: 9 },
    ])
    expect(currentCautions({ ...printed, outputPeak: 6 })).toEqual([
      { code: 'peakBelow', side: 'output', continuous: 8, peak: 6 },
    ])
    expect(currentCautions({ ...printed, outputCurrent: 3, outputPeak: 5 })).toEqual([
      { code: 'setAbove', set: 4, continuous: 3, peak: 5 },
    ])
    expect(currentCautions({ ...printed, outputCurrent: null, outputPeak: 5 })).toEqual([
      { code: 'peakOnly', side: 'output', peak: 5, taken: 3 },
      { code: 'setAbove', set: 4, continuous: 3, peak: 5 },
    ])
  })
})
