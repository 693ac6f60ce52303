import { describe, expect, it } from 'vitest'
import { passagesFor } from '../../src/model/readings/passages'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import { chargeY, elevationY, frameOf, xOf } from '../../src/view/profile/frame'
import { placeLabels, uprightsOf, wishesOf, type Wish } from '../../src/view/profile/labels'
import { courseRoute } from '../routes'

const frame = frameOf(courseRoute({ length: 10_000 }), 600, 240)
const widthOf = (text: string) => 7 * text.length

const wish = (key: string, change: Partial<Wish>): Wish => ({
  key,
  text: key,
  kind: 'ink',
  must: false,
  spots: [{ x: 300, y: 100, end: false }],
  ...change,
})
const twoSpots = [
  { x: 300, y: 100, end: false },
  { x: 290, y: 100, end: true },
]

describe('labels of the profile', () => {
  it('take their first place where it is free', () => {
    expect(placeLabels([wish('one', { spots: twoSpots })], frame, [], widthOf)).toEqual([
      { key: 'one', text: 'one', kind: 'ink', x: 300, y: 100, end: false },
    ])
  })

  it('leave another its place, or are left out', () => {
    const placed = placeLabels(
      [wish('first', {}), wish('second', { spots: twoSpots }), wish('third', {})],
      frame,
      [],
      widthOf,
    )
    expect(placed.map(({ key, x }) => [key, x])).toEqual([
      ['first', 300],
      ['second', 290],
    ])
  })

  it('are shown where they must be, covered or not, before what may be left out', () => {
    const placed = placeLabels([wish('first', {}), wish('second', { must: true })], frame, [], widthOf)
    expect(placed.map(({ key }) => key)).toEqual(['second'])
    const both = placeLabels([wish('first', { must: true }), wish('second', { must: true })], frame, [], widthOf)
    expect(both.map(({ key }) => key)).toEqual(['first', 'second'])
  })

  it('keep within the ribbon', () => {
    const spots = [
      { x: frame.right - 5, y: 100, end: false },
      { x: frame.right - 5, y: 100, end: true },
    ]
    expect(placeLabels([wish('one', { spots })], frame, [], widthOf)[0]!.end).toBe(true)
  })

  it('leave a line in sight: another place, or none where they may be left out', () => {
    const line = [{ x: 310, y: 97 }]
    expect(placeLabels([wish('one', { spots: twoSpots })], frame, line, widthOf)[0]!.end).toBe(true)
    expect(placeLabels([wish('one', {})], frame, line, widthOf)).toEqual([])
    expect(placeLabels([wish('one', { must: true })], frame, line, widthOf)).toHaveLength(1)
  })

  it('stand apart beside each other', () => {
    const end = 300 + widthOf('first')
    const second = (gap: number) => wish('second', { spots: [{ x: end + gap, y: 100, end: false }] })
    expect(placeLabels([wish('first', {}), second(1)], frame, [], widthOf)).toHaveLength(1)
    expect(placeLabels([wish('first', {}), second(8)], frame, [], widthOf)).toHaveLength(2)
  })
})

describe('what the profile names', () => {
  const route = courseRoute({ length: 100_000 })
  const plan = defaultPlan()
  plan.battery.packs = plan.battery.packs.map((pack) => ({ ...pack, capacityAh: 3 }))
  const control = { id: 'c', name: 'Old mill', distance: 60_000, opens: null }
  plan.controls = [
    { ...control, closes: { by: 'clock', day: 0, time: '23:59' } },
    { ...control, id: 'd', name: 'Far gate', distance: 80_000, closes: { by: 'clock', day: 0, time: '00:01' } },
  ]
  const outcome = simulate(route, plan)
  const wide = frameOf(route, 1000, 240)
  const wishes = wishesOf(wide, outcome, passagesFor(outcome), undefined, 'metric')
  const texts = wishes.map(({ text }) => text)

  it('marks the reserve on the charge axis and the end of the motor on the ground', () => {
    const [reserve, empty] = uprightsOf(wide, outcome)
    expect(reserve!.x).toBe(Math.round(xOf(wide, outcome.reserveAt!)))
    expect(reserve!.foot).toBe(chargeY(wide, outcome.reserve / outcome.usable))
    expect(empty!.x).toBe(Math.round(xOf(wide, outcome.emptyAt!)))
    expect(empty!.foot).toBe(wide.bottom)
    expect(reserve!.x).toBeLessThan(empty!.x)
  })

  it('names controls at the ground, and says which is missed', () => {
    expect(texts).toContain('Old mill')
    expect(texts).toContain('Far gate missed')
    const mill = wishes.find(({ text }) => text === 'Old mill')!
    expect(mill.must).toBe(false)
    for (const { x, y } of mill.spots) {
      expect(Math.abs(x - xOf(wide, 60_000))).toBeLessThan(16)
      expect(Math.abs(y - elevationY(wide, 0))).toBeLessThan(32)
    }
  })

  it('says where the motor stops', () => {
    expect(texts.filter((text) => text.startsWith('motor stops, km'))).toHaveLength(1)
  })
})
