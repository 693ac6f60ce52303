import { describe, expect, it } from 'vitest'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { crossFieldFault } from '../../src/model/plan/check'
import { setStepCount } from '../../src/model/plan/steps'
import { changesRider, newPlan } from '../../src/state/rider-bike'
import { wordsIn } from '../../src/view/words/words'

const { names } = wordsIn('metric')

describe('rider and bike', () => {
  it('go into a new plan, and nothing that belongs to a route or a day', () => {
    const plan = defaultPlan(names)
    const [pack] = plan.battery.packs
    const before = {
      ...plan,
      start: '2030-01-01T05:00',
      zone: 'Europe/Oslo',
      rider: { ...plan.rider, mass: 91 },
      bike: { ...plan.bike, mass: 33 },
      assist: { ...plan.assist, ratio: 2 },
      battery: { ...plan.battery, packs: [{ ...pack!, name: 'The old one' }] },
      weather: { ...plan.weather, windSpeed: 9 },
      stops: [defaultStop('stop-1', 'Mill', 1000, 'source-1')],
      goal: 7200,
      kit: [],
      steps: setStepCount(plan, 3).steps,
      learnt: { from: [], figures: [], correlations: [] },
      beliefs: [{ path: 'bike.mass' as const, known: 'measured' as const }],
      readings: [{ distance: 1000, at: '2030-01-01T05:10', charge: 0.98 }],
    }
    const { rider, bike, assist, battery, sources, kit, steps, learnt, beliefs } = before
    const own = { rider, bike, assist, battery, sources, kit, steps, learnt, beliefs }
    expect(newPlan(names, before)).toEqual({ ...plan, ...own })
    expect(newPlan(names)).toEqual(plan)
    expect(crossFieldFault(newPlan(names, before))).toBeUndefined()
  })

  it('are changed by an edit of theirs alone', () => {
    const plan = defaultPlan(names)
    expect(changesRider(plan, { ...plan, weather: { ...plan.weather, windSpeed: 3 }, goal: 3600 })).toBe(false)
    expect(changesRider(plan, { ...plan, rider: { ...plan.rider, mass: 80 } })).toBe(true)
    expect(changesRider(plan, { ...plan, kit: [] })).toBe(true)
    expect(changesRider(plan, { ...plan, beliefs: [{ path: 'bike.mass', known: 'guess' }] })).toBe(true)
  })
})
