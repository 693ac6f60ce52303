import { describe, expect, it } from 'vitest'
import { firstMissed, passagesOf } from '../../src/model/readings/passages'
import { passageOf, windowsOf } from '../../src/model/world/controls'
import { instantOf } from '../../src/model/world/zone'
import type { Control } from '../../src/model/plan/day-schema'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'

const zone = 'Europe/Berlin'
const start = '2027-06-19T06:00'
const began = instantOf(start, zone)
const control = (change: Partial<Control>): Control => ({
  id: 'control-1',
  name: 'Mill bridge',
  distance: 60_000,
  opens: null,
  closes: null,
  ...change,
})

describe('controls', () => {
  it('open and close by the clock or by a speed from the start', () => {
    const [one] = windowsOf(
      [control({ opens: { by: 'speed', speed: 10 }, closes: { by: 'clock', day: 1, time: '00:15' } })],
      null,
      start,
      zone,
      100_000,
    )
    expect(one!.opens! - began).toBe(6000)
    expect(one!.closes! - began).toBe(18.25 * 3600)
  })

  it('are met to the second, and the one that is early waits', () => {
    const [one] = windowsOf(
      [control({ opens: { by: 'speed', speed: 10 }, closes: { by: 'speed', speed: 5 } })],
      null,
      start,
      zone,
      1e5,
    )
    expect(passageOf(one!, began + 12_000)).toMatchObject({ met: true, margin: 0, early: 0 })
    expect(passageOf(one!, began + 12_001)).toMatchObject({ met: false, margin: -1 })
    expect(passageOf(one!, began + 5000)).toMatchObject({ met: true, early: 1000 })
  })

  it('that never close are always met, and lie at the finish where they are planned beyond it', () => {
    const [first, second, goal] = windowsOf(
      [
        control({ distance: 90_000, opens: { by: 'speed', speed: 10 } }),
        control({ id: 'b', distance: 20_000, opens: { by: 'clock', day: 0, time: '05:00' } }),
      ],
      7200,
      start,
      zone,
      50_000,
    )
    expect([first!.id, second!.distance, goal!.id]).toEqual(['b', 50_000, 'finish'])
    expect(second!.opens! - began).toBe(5000)
    expect(goal).toMatchObject({ kind: 'goal', distance: 50_000, opens: undefined, closes: began + 7200 })
    expect(passageOf(first!, began + 9e5)).toMatchObject({
      met: true,
      margin: undefined,
      early: 0,
      arrive: began + 9e5,
    })
    expect(passageOf(goal!, began + 7300)).toMatchObject({ met: false, margin: -100, early: 0 })
  })

  it('are passed as the forecast says, and the first that is missed is named, in order of the route', () => {
    const outcome = rideOver({ length: 50_000 }, plainPlan())
    const time = outcome.columns.time.at(-1)!
    const speed = outcome.length / time
    const controls = [
      control({ id: 'c', distance: 49_000, closes: { by: 'speed', speed: 2 * speed } }),
      control({ id: 'b', distance: 30_000, closes: { by: 'speed', speed: 1.2 * speed } }),
      control({ id: 'a', distance: 20_000, closes: { by: 'speed', speed: 0.8 * speed } }),
    ]
    const passages = passagesOf(outcome, windowsOf(controls, time - 60, start, zone, outcome.length), began)
    expect(passages.map(({ id, met }) => [id, met])).toEqual([
      ['a', true],
      ['b', false],
      ['c', false],
      ['finish', false],
    ])
    expect(firstMissed(passages)!.id).toBe('b')
    near(passages[3]!.margin!, -60, 1e-6, 'margin to the goal')
    expect(
      firstMissed(passagesOf(outcome, windowsOf([controls[2]!], time + 1, start, zone, outcome.length), began)),
    ).toBeUndefined()
  })
})
