import { describe, expect, it } from 'vitest'
import { transferIn } from '../../src/model/battery/arrangement'
import { momentAt } from '../../src/model/battery/moment'
import { arrangementOf } from '../../src/model/forecast/sources'
import { learnFromTrial, type TrialFigure } from '../../src/model/learn/trial'
import { defaultCarried, defaultPack } from '../../src/model/plan/defaults'
import type { PlanMeterReading } from '../../src/model/plan/schema'
import { near } from '../asserts'

const made = defaultCarried('s', 'Box')
/** Twelve LFP cells of 30 Ah: they give the set 4 A all the time. */
const source = { ...made, carried: { ...made.carried, blockAh: 30 } }
const pack = { ...defaultPack('p', 'Frame'), capacityAh: 14 }

type Partly = Partial<PlanMeterReading> & Pick<PlanMeterReading, 'time'>
const reading = (partly: Partly): PlanMeterReading => ({
  side: 'pack',
  voltage: null,
  current: null,
  charge: null,
  ...partly,
})
const learn = (readings: Partly[], packCharge = 0.2) => {
  const result = learnFromTrial(source, pack, 25, { packCharge, sourceCharge: 1, readings: readings.map(reading) })
  if (result === undefined) throw new Error('Nothing was learnt.')
  return { ...result, of: (figure: TrialFigure) => result.beliefs.find((belief) => belief.figure === figure)! }
}

/**
 * Worked by hand, with the published tables of cells and copper. Two hours at 4 A from 20 to 80 %: 8 Ah times 0.998 over 0.6 is 13.31 Ah, 95.05 % of
 * 14. After one hour, at 50 %, ten cells rest at 37.33 V; 0.40 Ω·Ah times ten over 13.31 Ah, 30 mΩ and a lead of 16.6 mΩ are 0.347 Ω, so the
 * converter gives 38.72 V times 4 A, 154.9 W, which is 0.516 of its 300 W. With 90 % at half of it and 0.9 × 0.95/0.955 at all of it,
 * 166.7 + (4.9 / 150) × 168.4 = 172.2 W are drawn, and 1 W besides: 39.5 V times 4.384 A. Each is pulled to what is stated by its share of the whole
 * weight: of efficiency some 10 % of 0.055, of health some 5 % of 0.05.
 */
const byHand = [
  { time: 3600, side: 'source' as const, voltage: 39.5, current: 4.384, charge: 0.5 },
  { time: 3600, current: 4 },
  { time: 7200, current: 4, charge: 0.8 },
]

describe('readings of a trial of charging', () => {
  it('tell efficiency and capacity as worked by hand', () => {
    const { of, rows } = learn(byHand)
    near(of('efficiency').middle, 0.9, 0.007)
    near(of('packHealth').middle, 0.9505, 0.003)
    expect(of('efficiency').verdict).toBe('learnt')
    expect(of('packHealth').verdict).toBe('learnt')
    for (const figure of ['efficiency', 'packHealth'] as const) {
      const { low, middle, high } = of(figure)
      expect(low).toBeLessThan(middle)
      expect(middle).toBeLessThan(high)
      expect(high - low).toBeLessThan(0.1)
    }
    expect(rows.map(({ of }) => of)).toEqual(['voltage', 'current', 'charge', 'current', 'current', 'charge'])
    expect(rows.every(({ isFar }) => !isFar)).toBe(true)
  })

  it('leave as stated what can not be told from them', () => {
    const { of } = learn([{ time: 7200, current: 4, charge: 0.8 }])
    expect(of('efficiency')).toMatchObject({ verdict: 'not', middle: source.converter.efficiency })
    expect(of('health')).toMatchObject({ verdict: 'not', middle: source.carried.health })
    expect(of('packHealth').verdict).toBe('learnt')
    const drawn = learn([{ time: 600, side: 'source', voltage: 39.9, current: 4.3 }])
    expect(drawn.of('packHealth')).toMatchObject({ verdict: 'not', middle: pack.health })
    expect(drawn.of('efficiency').verdict).not.toBe('not')
  })

  it('tell less the shorter the trial: the display’s percents weigh more', () => {
    const spans = [1200, 3600, 7200].map((time) => {
      const { low, middle } = learn([{ time, charge: 0.2 + (0.6 * time) / 7200 }]).of('packHealth')
      return middle - low
    })
    expect(spans[1]).toBeLessThan(0.75 * spans[0]!)
    expect(spans[2]).toBeLessThan(0.9 * spans[1]!)
  })

  it('find again the figures that a charge was reckoned with', () => {
    const truth = { efficiency: 0.88, packHealth: 0.82 }
    const changed = { ...source, converter: { ...source.converter, efficiency: truth.efficiency } }
    const { columns } = transferIn(arrangementOf(changed, { ...pack, health: truth.packHealth }, 25)).trace(
      1,
      0.1,
      { time: 7200 },
      60,
    )
    const readings = [1800, 3600, 5400, 7200].flatMap((time): Partly[] => {
      const { inputVoltage, sourceCurrent, outputVoltage, current, charge } = momentAt(columns, time)
      return [
        { time, side: 'source', voltage: inputVoltage, current: sourceCurrent, charge },
        { time, voltage: outputVoltage, current },
      ]
    })
    const { of } = learn(readings, 0.1)
    near(of('efficiency').middle, truth.efficiency, 0.005)
    near(of('packHealth').middle, truth.packHealth, 0.005)
  })

  it('say where a meter shows what can not be', () => {
    const { rows } = learn([{ time: 3600, current: 2.5, charge: 0.5 }])
    expect(rows.find(({ of }) => of === 'current')).toMatchObject({ read: 2.5, isFar: true })
  })

  it('tell nothing where nothing was read, or the arrangement is refused', () => {
    const trial = { packCharge: 0.2, sourceCharge: 1, readings: [reading({ time: 600 })] }
    expect(learnFromTrial(source, pack, 25, trial)).toBeUndefined()
    const read = { ...trial, readings: [reading({ time: 600, current: 4 })] }
    expect(learnFromTrial(source, pack, 25, read)).toBeDefined()
    expect(learnFromTrial(source, pack, -5, read)).toBeUndefined()
  })
})
