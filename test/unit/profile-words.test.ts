import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { addStop } from '../../src/model/plan/edit'
import { defaultPlan } from '../../src/model/plan/defaults'
import { chargesAtStop, placeText, profileSentence, stopText } from '../../src/view/profile/words'
import { wordsIn } from '../../src/view/words/words'
import { courseRoute } from '../routes'

const { names } = wordsIn('metric')

const route = courseRoute({ length: 30_000, elevation: (d) => 100 + 50 * Math.sin(d / 2000) })
const { plan, id = '' } = addStop(defaultPlan(names), 20_000, names.stop)
const outcome = simulate(route, plan)
const share = (energy: number) => Math.round((100 * energy) / outcome.usable)

describe('words of the profile', () => {
  it('say a place with its elevation and charge', () => {
    expect(placeText(outcome, 0, 'metric')).toBe('km 0.0, elevation 100 m, charge 100 %')
    expect(placeText(outcome, 16_093.44, 'imperial')).toMatch(/^mile 10\.0, elevation 4\d\d ft, charge \d+ %$/)
  })

  it('say no elevation where the file has none', () => {
    const flat = simulate({ ...courseRoute({ length: 5000 }), elevationKnown: 'none' }, defaultPlan())
    expect(placeText(flat, 0, 'metric')).toBe('km 0.0, charge 100 %')
    expect(profileSentence(flat, 'metric')).toContain('no elevation in the file, flat ground assumed')
  })

  it('say a stop with what it is reached and left with', () => {
    const halt = outcome.halts.find(({ stop }) => stop === id)!
    expect(share(halt.leftAfter)).toBeGreaterThan(share(halt.leftBefore))
    expect(stopText(outcome, { id, distance: 20_000 }, 'metric')).toBe(
      `km 20.0, arrives with ${share(halt.leftBefore)} %, leaves with ${share(halt.leftAfter)} %`,
    )
    expect(chargesAtStop(outcome, 'none')).toBeUndefined()
    expect(stopText(outcome, { id: 'none', distance: 99_000 }, 'metric')).toBe('km 30.0')
  })

  it('sum up the profile, with the lowest charge and where it is', () => {
    const halt = outcome.halts.find(({ stop }) => stop === id)!
    expect(outcome.columns.left.at(-1)).toBeGreaterThan(halt.leftBefore)
    expect(profileSentence(outcome, 'metric')).toBe(
      `30.0 km, ${Math.round(route.ascent)} m of ascent; the charge is lowest, ${share(halt.leftBefore)} %, at km 20.0.`,
    )
  })
})
