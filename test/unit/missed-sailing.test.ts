import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { everyDay } from '../../src/model/plan/day-schema'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { crossingsFor } from '../../src/model/plan/crossings'
import { justGone, missedSailing } from '../../src/model/studies/missed-sailing'
import { localAt } from '../../src/model/world/zone'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 60_000, crossings: [30_000] })
const boardBefore = 600

/** A day that leaves at 06:00 and meets sailings at clock times. */
function day(...times: string[]) {
  const plan: Plan = { ...defaultPlan(), start: '2027-06-19T06:00' }
  plan.crossings = crossingsFor(route, plan).map((crossing) => ({
    ...crossing,
    timetable: { kind: 'list', times, days: [...everyDay], boardBefore, length: 1800 },
  }))
  return simulate(route, plan)
}

/** When the rider is at the quay, Unix time, s, and the clock some minutes from then, rounded down. */
const there = (() => {
  const outcome = day('23:00')
  return outcome.started + outcome.halts.find(({ kind }) => kind === 'crossing')!.arrive
})()
const zone = day('23:00').zone
const clock = (minutes: number) => localAt(60 * Math.floor(there / 60) + 60 * minutes, zone).slice(11)

describe('a sailing that is missed by little', () => {
  it('is told with what the next costs and the latest start that catches it', () => {
    const before = clock(5)
    const after = clock(155)
    const outcome = day(before, after)
    const missed = missedSailing(outcome)!
    expect(justGone(outcome, 0)).toEqual({ depart: missed.missed, late: missed.late })
    expect(localAt(missed.missed, zone).slice(11)).toBe(before)
    expect(localAt(missed.taken, zone).slice(11)).toBe(after)
    expect(missed.late).toBeCloseTo(there + boardBefore - missed.missed, 3)
    const takenWith = (start: string) =>
      simulate(route, { ...outcome.plan, start }).halts.find(({ kind }) => kind === 'crossing')!.sailing!.depart
    expect(takenWith(missed.leaveBy)).toBe(missed.missed)
    const minute = localAt(Date.parse(`${missed.leaveBy}Z`) / 1000 + 60, 'Etc/UTC')
    expect(takenWith(minute)).toBe(missed.taken)
  })

  it('is none where the one before is far gone, where the next comes soon, or where the first is caught', () => {
    expect(missedSailing(day(clock(-60), clock(155)))).toBeUndefined()
    expect(missedSailing(day(clock(5), clock(12)))).toBeUndefined()
    expect(missedSailing(day(clock(12), clock(155)))).toBeUndefined()
    expect(missedSailing(day(clock(155)))).toBeUndefined()
  })

  it('is none where it would be missed with an earlier start too, for a control opens only then', () => {
    const outcome = day(clock(5), clock(155))
    const opens = clock(1)
    const waited = simulate(route, {
      ...outcome.plan,
      controls: [
        { id: 'c1', name: 'Gate', distance: 29_000, opens: { by: 'clock', day: 0, time: opens }, closes: null },
      ],
    })
    expect(waited.halts.some(({ kind }) => kind === 'control')).toBe(true)
    expect(missedSailing(waited)).toBeUndefined()
  })
})
