import { describe, expect, it } from 'vitest'
import type { Change } from '../../src/model/battery/alternatives'
import type { CableCaution } from '../../src/model/battery/cable'
import type { OutOfReach } from '../../src/model/battery/converter'
import type { FuseProposal } from '../../src/model/battery/fuse'
import type { Refusal } from '../../src/model/battery/refusal'
import { benchWordsIn } from '../../src/view/words/bench'
import { batteryWordsIn } from '../../src/view/words/battery'

const battery = batteryWordsIn('metric')
const words = benchWordsIn('metric')

describe('what a pack is refused with', () => {
  it.each<[Refusal, string]>([
    [
      { code: 'overcharge', by: 'charger', voltage: 54.6, full: 42 },
      "The charger's 54.6 V would overcharge this pack, which is full at 42.0 V.",
    ],
    [
      { code: 'overcharge', by: 'converter', voltage: 43, full: 42 },
      'The 43.0 V set would overcharge this pack, which is full at 42.0 V.',
    ],
    [{ code: 'tooCold', least: 0 }, 'Lithium cells must not be charged below 0 °C.'],
    [{ code: 'tooHot', most: 45 }, 'This pack must not be charged above 45 °C.'],
    [
      { code: 'breaksConverter', voltage: 54.6, most: 50 },
      'The carried pack’s 54.6 V when full would break this converter, which takes 50.0 V at most.',
    ],
    [{ code: 'setOutside', least: 5, most: 60, set: 4 }, 'The converter gives 5.0 V to 60.0 V, not the 4.0 V set.'],
    [
      { code: 'lowestVoltage', chemistry: 'nmc', least: 2.5, below: 3.6 },
      'The lowest voltage of a cell of NMC-type lithium-ion must lie from 2.5 to below 3.6 V.',
    ],
    [
      { code: 'flatInStore' },
      'This pack is flat after its time in store: its cells may have been harmed, so do not charge or use it.',
    ],
  ])('%j', (refusal, sentence) => expect(battery.refusal(refusal)).toBe(sentence))

  it('in the rider’s degrees', () => {
    expect(batteryWordsIn('imperial').refusal({ code: 'tooCold', least: 0 })).toBe(
      'Lithium cells must not be charged below 32 °F.',
    )
    expect(words.cautions.carried[2]).toBe(
      'Never leave it alone, never below 0 °C or above 45 °C; let packs cool after riding.',
    )
    expect(benchWordsIn('imperial').cautions.carried[2]).toMatch(/never below 32 °F or above 113 °F;/)
  })

  it('or filled in part', () => {
    expect(battery.shortfall({ voltage: 38, full: 42, charge: 0.614 })).toBe(
      "The charger's 38.0 V is below the 42.0 V of a full pack and fills it to about 61 % only.",
    )
  })
})

describe('by air', () => {
  it.each([
    [
      'allowed',
      99.96,
      '100.0 Wh: by air in hand luggage up to 100 Wh, terminals covered; check the carrier’s current rules, also for post.',
    ],
    [
      'withApproval',
      128,
      '128.0 Wh: by air only with the airline’s approval, at most two spares, in hand luggage; check the carrier’s current rules, also for post.',
    ],
    [
      'notAllowed',
      500.4,
      '500 Wh: above 160 Wh, not on a passenger plane; by post or freight as dangerous goods only; check the carrier’s current rules.',
    ],
  ] as const)('%s', (air, wattHours, sentence) => expect(battery.travel(air, wattHours)).toBe(sentence))
})

describe('on the bench', () => {
  it.each<[Change, string]>([
    [{ code: 'blocksInSeries', blocks: 3 }, 'All 3 blocks in series'],
    [{ code: 'oneMoreString', blocks: 3 }, 'One more string of 3 blocks'],
    [{ code: 'higherCurrent', current: 6 }, 'Set to 6.0 A'],
    [{ code: 'higherCurrent', current: undefined }, 'A higher set current'],
    [{ code: 'converterInput', current: 20 }, 'A converter that may draw 20.0 A'],
    [{ code: 'mainsCharger', current: 4 }, 'A 4.0 A charger at a socket'],
  ])('a change: %j', (change, label) => expect(words.change(change)).toBe(label))

  it('why one cannot be had', () => {
    expect(words.changeRefusal({ code: 'mostAlready', current: 6 })).toBe(
      '6.0 A is already all that converter and pack allow.',
    )
    expect(words.changeRefusal({ code: 'takesNoCharge' })).toBe('This pack takes no charging current.')
  })

  const part = { from: 1, to: 0.1 }
  it.each<[OutOfReach, string]>([
    [
      { code: 'passedOn', voltage: 35, isAlways: false, ...part },
      'Down to 35.0 V the source is too high to step up from: such a converter passes it straight on, its current unlimited.',
    ],
    [
      { code: 'passedOn', voltage: 35, isAlways: true, ...part },
      'Even empty, the source is too high to step up from: such a converter passes it straight on, its current unlimited.',
    ],
    [
      { code: 'belowSet', voltage: 43, set: 42, isAlways: false, ...part },
      'From 43.0 V down the source is too low to step down to 42.0 V.',
    ],
    [
      { code: 'belowSet', voltage: 43, set: 42, isAlways: true, ...part },
      'Even full, the source is too low to step down to 42.0 V.',
    ],
    [
      { code: 'belowInput', voltage: 38.1, isAlways: false, ...part },
      'From 38.1 V down the source is below what this converter runs on.',
    ],
    [
      { code: 'belowInput', voltage: 38.1, isAlways: true, ...part },
      'Even full, the source is below what this converter runs on.',
    ],
  ])('out of reach: %j', (reach, sentence) => expect(words.outOfReach(reach)).toBe(sentence))

  it.each<[CableCaution, string]>([
    [{ code: 'current', current: 18, rating: 17 }, '18.0 A is more than the 17.0 A this cable carries for hours.'],
    [
      { code: 'drop', share: 0.0532, sensible: 0.03 },
      'The cable takes 5.3 % of the voltage; 3 % is sensible: shorter or thicker.',
    ],
    [
      { code: 'connectors', rating: 15, most: 9, current: 10 },
      'Connectors rated 15 A should carry 9.0 A for hours, not 10.0 A.',
    ],
  ])('a lead: %j', (caution, sentence) => expect(words.cableCaution(caution)).toBe(sentence))

  it.each<[FuseProposal, string]>([
    [
      { code: 'fuse', current: 7.5, blade: 58, full: 43.8 },
      'Fuse the source with 7.5 A at its terminal, blade fuse rated 58 V (full: 43.8 V).',
    ],
    [
      { code: 'fuse', current: 15, blade: undefined, full: 58.4 },
      'Fuse the source with 15 A at its terminal, d.c. fuse rated at least 59 V (full: 58.4 V).',
    ],
    [
      { code: 'noFuse', load: 10, least: 12.5, cableRating: 3 },
      'No fuse fits: 10.0 A needs one of at least 12.5 A, the cable allows 3.0 A; thicker cable or less current.',
    ],
  ])('%j', (proposal, sentence) => expect(words.fuse(proposal)).toBe(sentence))

  it('a lead has its length in the rider’s units', () => {
    expect(words.drawing.lead(1.5, 2.5)).toBe('1.5 m, 2.5 mm²')
    expect(benchWordsIn('imperial').drawing.lead(1.5, 2.5)).toBe('59.1 in, 2.5 mm²')
  })
})
