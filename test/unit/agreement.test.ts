import { describe, expect, it } from 'vitest'
import { defaultCarried } from '../../src/model/plan/defaults'
import { changed, disagreement, whyWaits } from '../../src/view/sheet/agreement'

const { converter, carried } = defaultCarried('s', '')
const { converter: disagree } = disagreement

describe('a figure that contradicts another one', () => {
  it('waits: a continuous current is not given up before a peak is stated, and goes as soon as it is', () => {
    expect(whyWaits(converter, {}, { outputCurrent: null }, disagree)).toEqual({ code: 'noOutput' })
    const waiting = { outputCurrent: null }
    expect(whyWaits(converter, waiting, { outputPeak: 10 }, disagree)).toBeUndefined()
    const peakOnly = changed(converter, waiting, { outputPeak: 10 }, disagree)
    expect(peakOnly).toEqual({ ...converter, outputCurrent: null, outputPeak: 10 })
    expect(whyWaits(peakOnly, {}, { outputPeak: null }, disagree)).toEqual({ code: 'noOutput' })
    // Typed anew, the continuous one stands.
    expect(changed(converter, waiting, { outputCurrent: 6 }, disagree)).toEqual({ ...converter, outputCurrent: 6 })
  })

  it('does not hold up the others', () => {
    const waiting = { outputCurrent: null }
    expect(whyWaits(converter, waiting, { efficiency: 0.9 }, disagree)).toBeUndefined()
    expect(changed(converter, waiting, { efficiency: 0.9 }, disagree)).toEqual({ ...converter, efficiency: 0.9 })
  })

  it('may be a least above its greatest, a voltage out of range, or a lowest one that such cells have not', () => {
    expect(whyWaits(converter, {}, { inputVoltageLeast: 65 }, disagree)).toEqual({ code: 'inputRange' })
    const both = changed(converter, { inputVoltageLeast: 65 }, { inputVoltageMost: 90 }, disagree)
    expect(both).toMatchObject({ inputVoltageLeast: 65, inputVoltageMost: 90 })
    expect(whyWaits(converter, {}, { outputVoltageMost: 5 }, disagree)).toEqual({ code: 'outputRange' })
    expect(whyWaits(converter, {}, { voltage: 70 }, disagree)).toMatchObject({ code: 'setOutside', most: 60 })
    const nmc = { ...carried, chemistry: 'nmc' as const }
    expect(whyWaits(nmc, {}, { lowestCellVoltage: 2 }, disagreement.carried)).toMatchObject({ least: 2.5 })
  })

  it('is no matter where what stands contradicts itself already, as from a file: anything may mend it', () => {
    const none = { ...converter, outputCurrent: null }
    expect(whyWaits(none, {}, { efficiency: 0.9 }, disagree)).toBeUndefined()
    expect(changed(none, {}, { outputPeak: 5 }, disagree)).toMatchObject({ outputCurrent: null, outputPeak: 5 })
  })
})
