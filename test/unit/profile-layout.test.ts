import { describe, expect, it } from 'vitest'
import { hangFlags } from '../../src/view/profile/flags'
import { chargeY, distanceAt, elevationY, frameOf, metresPerPixel, xOf } from '../../src/view/profile/frame'
import { roundTicks } from '../../src/view/profile/ticks'
import { near } from '../asserts'
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
  const flag = (x: number, ...widths: number[]) => ({ x, widths })

  it('hang in the lowest row where they do not meet', () => {
    expect(hangFlags([flag(300, 80), flag(100, 80)], 1000, 3)).toEqual([
      { left: 300, row: 0, text: 0 },
      { left: 100, row: 0, text: 0 },
    ])
  })

  it('hang the left one higher, so that its stem passes beside the other', () => {
    expect(hangFlags([flag(100, 80), flag(150, 80), flag(170, 80)], 1000, 3).map(({ row }) => row)).toEqual([2, 1, 0])
  })

  it('stay within the right edge', () => {
    expect(hangFlags([flag(980, 80)], 1000, 3)[0]!.left).toBe(920)
  })

  it('shorten the text of the one for which there is no row', () => {
    const hung = hangFlags([flag(100, 80, 20), flag(150, 80, 20), flag(170, 80, 20)], 1000, 2)
    expect(hung.map(({ row, text }) => [row, text])).toEqual([
      [0, 1],
      [1, 0],
      [0, 0],
    ])
  })

  it('all shorten where one finds no room beside long ones', () => {
    const crowd = Array.from({ length: 20 }, (_, i) => flag(40 * i, 200, 90))
    const hung = hangFlags(crowd, 900, 3)
    expect(new Set(hung.map(({ text }) => text))).toEqual(new Set([1]))
    for (const [i, one] of hung.entries())
      for (const other of hung.slice(i + 1))
        if (one.row === other.row) expect(Math.abs(one.left - other.left)).toBeGreaterThanOrEqual(90)
  })

  it('begin again in the first row where all rows are taken', () => {
    const rows = hangFlags([flag(100, 80), flag(101, 80), flag(102, 80)], 1000, 2).map(({ row }) => row)
    expect(rows).toEqual([0, 1, 0])
  })
})
