import { describe, expect, it } from 'vitest'
import { hangFlags } from '../../src/view/profile/flags'
import { chargeY, distanceAt, elevationY, frameOf, metresPerPixel, xOf } from '../../src/view/profile/frame'
import { roundTicks } from '../../src/view/profile/ticks'
import { near } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { courseRoute } from '../routes'

describe('frame of the profile', () => {
  const route = courseRoute({ length: 30_000, elevation: (d) => 200 + 400 * Math.sin(d / 4000) })
  const frame = frameOf(route, 800, 240)

  it('leads from distance to pixel and back', () => {
    for (const distance of [0, 1, 12_345.6, 30_000])
      near(distanceAt(frame, xOf(frame, distance)), distance, 1e-6, 'distance')
    near(distanceAt(frame, frame.left + 10) - distanceAt(frame, frame.left), 10 * metresPerPixel(frame), 1e-6, 'ten px')
  })

  it('holds what lies beside it to its ends', () => {
    expect(distanceAt(frame, -50)).toBe(0)
    expect(distanceAt(frame, 5000)).toBe(30_000)
    expect(xOf(frame, 99_999)).toBe(frame.right)
  })

  it('leaves a strip below the lowest place and room above the highest', () => {
    expect(elevationY(frame, -200)).toBeLessThan(frame.bottom - 15)
    expect(elevationY(frame, 600)).toBeGreaterThan(frame.top + 15)
    expect(chargeY(frame, 0)).toBe(frame.bottom)
    expect(chargeY(frame, 1)).toBe(frame.top)
  })

  it('does not make mountains of a flat route', () => {
    const flat = frameOf(courseRoute({ length: 5000, elevation: (d) => 5 + Math.sin(d / 100) }), 800, 240)
    expect(elevationY(flat, 4) - elevationY(flat, 6)).toBeLessThan(4)
  })

  it('has an inside even before the page is laid out', () => {
    const none = frameOf(route, 0, 0)
    expect(none.right).toBeGreaterThan(none.left)
    expect(none.bottom).toBeGreaterThan(none.top)
  })
})

describe('ticks', () => {
  it('are round and within the bounds', () => {
    expect(roundTicks(0, 165.5, 14)).toEqual([0, 20, 40, 60, 80, 100, 120, 140, 160])
    expect(roundTicks(0, 165.5, 4)).toEqual([0, 50, 100, 150])
    expect(roundTicks(-12, 139, 4)).toEqual([0, 50, 100])
    expect(roundTicks(3, 3, 4)).toEqual([3])
  })

  it('are never more than asked for and one', () => {
    for (const most of [1, 2, 3, 5, 8, 13])
      for (const to of [0.7, 1, 4.2, 18, 62, 165.5, 999, 12_345]) {
        const ticks = roundTicks(0, to, most)
        expect(ticks.length).toBeLessThanOrEqual(most + 1)
        expect(ticks.length).toBeGreaterThan(0)
        expect(ticks.at(-1)).toBeLessThanOrEqual(to)
      }
  })
})

describe('flags', () => {
  const flag = (x: number, ...widths: number[]) => ({ x, widths, rank: 1 })
  const whole = (...given: Parameters<typeof hangFlags>) => hangFlags(...given).map((one) => one!)

  it('hang in the lowest row where they do not meet', () => {
    expect(hangFlags([flag(300, 80), flag(100, 80)], 1000, 3)).toEqual([
      { left: 300, row: 0, text: 0 },
      { left: 100, row: 0, text: 0 },
    ])
  })

  it('hang the left one higher, so that its stem passes beside the other', () => {
    expect(whole([flag(100, 80), flag(150, 80), flag(170, 80)], 1000, 3).map(({ row }) => row)).toEqual([2, 1, 0])
  })

  it('stay within the right edge', () => {
    expect(hangFlags([flag(980, 80)], 1000, 3)[0]!.left).toBe(920)
  })

  it('shorten the text of the one for which there is no row', () => {
    const hung = whole([flag(100, 80, 20), flag(150, 80, 20), flag(170, 80, 20)], 1000, 2)
    expect(hung.map(({ row, text }) => [row, text])).toEqual([
      [0, 1],
      [1, 0],
      [0, 0],
    ])
  })

  it('all shorten where one finds no room beside long ones', () => {
    const crowd = Array.from({ length: 20 }, (_, i) => flag(40 * i, 200, 90))
    const hung = whole(crowd, 900, 3)
    expect(new Set(hung.map(({ text }) => text))).toEqual(new Set([1]))
    for (const [i, one] of hung.entries())
      for (const other of hung.slice(i + 1))
        if (one.row === other.row) expect(Math.abs(one.left - other.left)).toBeGreaterThanOrEqual(90)
  })

  it('are left out by rank where they find no room', () => {
    const three = [flag(100, 80), { ...flag(101, 80), rank: 0 }, flag(102, 80)]
    expect(hangFlags(three, 1000, 2).map((one) => one?.row)).toEqual([1, 0, undefined])
  })

  it('of a hundred stops cover none and are crossed by no stem, on a wide ribbon and a narrow one', () => {
    const random = seeded(11)
    for (const right of [1000, 300]) {
      const flags = Array.from({ length: 100 }, () => ({ x: right * random(), widths: [90, 66, 44], rank: random() }))
      const hung = hangFlags(flags, right, 3).flatMap((one, i) =>
        one === undefined ? [] : [{ ...one, x: flags[i]!.x, end: one.left + flags[i]!.widths[one.text]! }],
      )
      expect(hung.length).toBeGreaterThan(right / 100)
      for (const one of hung)
        for (const other of hung)
          if (one !== other && one.row === other.row) expect(one.end <= other.left || other.end <= one.left).toBe(true)
          else if (one.row > other.row) expect(one.x < other.left || one.x >= other.end).toBe(true)
      const first = flags.findIndex(({ rank }) => rank === Math.min(...flags.map(({ rank }) => rank)))
      expect(hangFlags(flags, right, 3)[first]).toMatchObject({ text: 1 })
    }
  })
})
