import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { defaultCarried, defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { planDifferences } from '../../src/model/plan/differences'
import type { Plan } from '../../src/model/plan/schema'
import { apportioned } from '../../src/view/compare/parts'
import { compareWordsIn } from '../../src/view/words/compare'

describe('parts that are shown', () => {
  it('add up to what is shown of the whole', () => {
    // By hand: the sum is 34.75, which is 35; rounded down they are 19, 11, 6 and −3, and the two that lost most get one more.
    expect(apportioned([19.4, 11.3, 6.45, -2.4], 1)).toEqual([19, 11, 7, -2])
    expect(apportioned([], 60)).toEqual([])
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1e5, max: 1e5, noNaN: true }), { maxLength: 8 }), (amounts) => {
        const shown = apportioned(amounts, 60)
        const sum = (values: number[]) => values.reduce((sum, value) => sum + value, 0)
        expect(sum(shown) / 60).toBeCloseTo(Math.round(sum(amounts) / 60), 6)
        shown.forEach((value, i) => expect(Math.abs(value - amounts[i]!)).toBeLessThanOrEqual(60))
      }),
    )
  })
})

describe('what one plan states otherwise than another', () => {
  const words = compareWordsIn('metric')
  const plan: Plan = {
    ...defaultPlan(),
    stops: [defaultStop('stop-1', 'Inn', 30_000, 'source-1'), defaultStop('stop-2', 'Mill', 60_000, null)],
  }
  const said = (to: Plan) => planDifferences(plan, to).map(words.difference)

  it('is nothing of itself, nor of what is only called otherwise', () => {
    expect(said(structuredClone(plan))).toEqual([])
    expect(said({ ...plan, stops: plan.stops.map((stop) => ({ ...stop, name: 'Elsewhere' })) })).toEqual([])
  })

  it('is said in words, numbers with both their values', () => {
    const [inn] = plan.stops
    const to: Plan = {
      ...plan,
      start: '2027-06-20T05:30',
      goal: 39_600,
      rider: { ...plan.rider, mass: 80 },
      battery: { ...plan.battery, packs: [...plan.battery.packs, defaultPack('pack-9', 'Third')] },
      sources: [...plan.sources, defaultCarried('source-9', 'Box')],
      stops: [{ ...inn!, distance: 31_000, duration: 1800, source: 'source-9' }],
      assist: { ...plan.assist, place: plan.assist.place === 'hub' ? 'crank' : 'hub' },
    }
    expect(said(to)).toEqual([
      'Start: Sat 2027-06-19 06:00 → Sun 2027-06-20 05:30',
      'Goal: none → 11 h 00 min',
      `Rider, dressed: ${plan.rider.mass}.0 kg → 80.0 kg`,
      'Otherwise: where the motor sits',
      'With pack “Third”',
      'With charge source “Box”',
      'Without stop “Mill”',
      '“Inn”: km 30.0 → km 31.0',
      `“Inn”, Stay for: ${inn!.duration / 60} min → 30 min`,
      'Otherwise: stop “Inn”',
    ])
  })
})
