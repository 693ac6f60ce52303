import { describe, expect, it } from 'vitest'
import { legNotes } from '../../src/model/readings/leg-notes'
import { climbsOf } from '../../src/model/readings/climbs'
import { legsOf } from '../../src/model/readings/legs'
import { onFoot, onFootBetween } from '../../src/model/readings/on-foot'
import { wBalance } from '../../src/model/readings/rider'
import type { Plan } from '../../src/model/plan/schema'
import { footSentences } from '../../src/view/answer/onFoot'
import { rowWordsIn } from '../../src/view/words/rows'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'

/** Two kilometres up from km 3. */
const hill = (gradient: number) => ({
  length: 6000,
  elevation: (d: number) => gradient * Math.max(0, Math.min(d, 5000) - 3000),
})
/** A weak rider with a motor of twice his power, and one pack. */
const pushed = (change: (plan: Plan) => void) =>
  plainPlan((plan) => {
    plan.rider.power = 80
    plan.assist.ratio = plan.assist.climbRatio = 2
    plan.battery.packs.length = 1
    change(plan)
  })
const charged = (charge: number) => pushed((plan) => (plan.battery.packs[0]!.charge = charge))

describe('why the rider walks', () => {
  it('is the hill where the drive at its best can not hold it, with charge or without', () => {
    for (const charge of [1, 0.05]) {
      const outcome = rideOver(hill(0.2), charged(charge))
      const walked = onFoot(outcome)
      near(walked.tooSteep, outcome.walked, 1e-6)
      near(walked.tooSteep, 2000, 60)
    }
  })

  it('is the charge where the motor could hold it', () => {
    expect(rideOver(hill(0.1), charged(1)).walked).toBe(0)
    const outcome = rideOver(hill(0.1), charged(0.05))
    expect(outcome.emptyAt).toBeLessThan(3000)
    const walked = onFoot(outcome)
    near(walked['noCharge'], 2000, 60)
    expect(walked).toMatchObject({ tooSteep: 0, weakPack: 0 })
    expect(onFootBetween(outcome, 0, 300)).toEqual({ tooSteep: 0, noCharge: 0, weakPack: 0 })
    const capacity = { criticalPower: 300, wPrime: 15_000 }
    expect(climbsOf(outcome, capacity, wBalance(outcome, capacity))[0]!.tooHard).toEqual(['noCharge'])
    const notes = legsOf(outcome).map((leg) => rowWordsIn('metric').legNotes(legNotes(outcome, leg)))
    expect(notes.join()).toContain('walking for want of charge')
    expect(notes.join()).not.toContain('steep')
    expect(footSentences(outcome, 'metric')).toEqual([
      expect.stringMatching(/^2\.0 km on foot: .* no charge is left\.$/),
    ])
  })

  it('is the pack where it gives the motor too little', () => {
    const outcome = rideOver(
      hill(0.1),
      pushed(({ battery }) => Object.assign(battery.packs[0]!, { dischargeCurrent: 2 })),
    )
    expect(outcome.emptyAt).toBeUndefined()
    near(onFoot(outcome).weakPack, 2000, 60)
  })

  it('is the hill where the rider asks the motor for nothing', () => {
    const outcome = rideOver(
      hill(0.1),
      pushed(({ assist }) => (assist.ratio = assist.climbRatio = 0)),
    )
    near(onFoot(outcome).tooSteep, 2000, 60)
  })
})
