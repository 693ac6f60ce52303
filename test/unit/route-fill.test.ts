import { describe, expect, it } from 'vitest'
import { fillFromGround, lackingIn } from '../../src/model/route/fill'
import type { Ground, Lacking } from '../../src/model/route/ground'
import { readLines } from '../../src/model/route/lines'
import { near } from '../asserts'
import { groundOf } from '../ground'

/** Thousandths of a degree of longitude at the equator, m (WGS84). */
const thousandth = 111.319_490_8

/** Points along the equator, each so many thousandths of a degree from the last, with their elevations. */
function along(elevations: readonly number[], stretches = [{ first: 0, last: elevations.length - 1 }], apart = 1) {
  return {
    latitude: new Float64Array(elevations.length),
    longitude: Float64Array.from(elevations, (_, i) => 7 + (i * apart) / 1000),
    distance: Float64Array.from(elevations, (_, i) => i * apart * thousandth),
    elevation: Float64Array.from(elevations),
    stretches,
  }
}
const pieces = (...of: Parameters<typeof along>) => lackingIn(along(...of)).map(({ first, last }) => [first, last])

describe('pieces without elevation', () => {
  it('go from the last point that has one to the next, or from or to an end', () => {
    expect(pieces([1, 2, NaN, NaN, 5, 6])).toEqual([[1, 4]])
    expect(pieces([NaN, NaN, 3, 4, NaN])).toEqual([
      [0, 2],
      [3, 4],
    ])
    expect(pieces([NaN, 2, NaN, 4])).toEqual([
      [0, 1],
      [1, 3],
    ])
    expect(pieces([NaN, NaN, NaN])).toEqual([[0, 2]])
    expect(pieces([1, 2, 3])).toEqual([])
  })

  it('end with their stretch', () => {
    const two = [
      { first: 0, last: 2 },
      { first: 3, last: 5 },
    ]
    expect(pieces([1, NaN, NaN, NaN, NaN, 6], two)).toEqual([
      [0, 2],
      [3, 5],
    ])
    expect(pieces([1, 2, NaN, 4, NaN, NaN], two)).toEqual([
      [1, 2],
      [3, 5],
    ])
  })

  it('are longer than 100 m', () => {
    expect(pieces([1, NaN, 3], undefined, 0.449)).toEqual([])
    expect(pieces([1, NaN, 3], undefined, 0.45)).toEqual([[0, 2]])
  })
})

describe('elevations from the ground', () => {
  // A pixel is 38.2 m wide at the equator; a point each 111.3 m.
  const across = 2 ** 20
  const flat = (way: ReturnType<typeof along>, height = 300): Ground => groundOf(() => height, way, across)
  function filled(
    elevations: readonly number[],
    change: (ground: Ground) => Ground = (same) => same,
    stretches?: Parameters<typeof along>[1],
  ) {
    const way = along(elevations, stretches)
    const {
      distance,
      elevation,
      stretches: ridden,
      fromGround,
    } = fillFromGround(way, lackingIn(way), change(flat(way)))
    return { distance, elevation, ridden, fromGround }
  }

  it('meet those at both ends, evenly in between, about every pixel', () => {
    const { distance, elevation, ridden, fromGround } = filled([305, 310, NaN, NaN, NaN, 330, 335])
    // 445.3 m by 38.2 m: twelve steps.
    expect(ridden).toEqual([{ first: 0, last: 14 }])
    expect(distance.length).toBe(15)
    const at = [0, ...Array.from({ length: 13 }, (_, k) => 1 + (4 * k) / 12), 6]
    at.forEach((place, i) => near(distance[i]!, place * thousandth, 1e-6, `place ${i}`))
    const expected = [305, ...Array.from({ length: 13 }, (_, k) => 310 + (20 * k) / 12), 335]
    expected.forEach((height, i) => near(elevation[i]!, height, 1e-6, `height ${i}`))
    near(fromGround, 4 * thousandth, 1e-6)
  })

  it('are as far from the ground as the one end that is known, or lie on it', () => {
    const first = filled([NaN, NaN, 312, 313])
    expect([first.elevation.length, first.distance[0], first.ridden]).toEqual([8, 0, [{ first: 0, last: 7 }]])
    first.elevation.forEach((height, i) => near(height, i === 7 ? 313 : 312, 1e-6))
    const last = filled([280, 290, NaN, NaN])
    expect(last.elevation.length).toBe(8)
    last.elevation.forEach((height, i) => near(height, i === 0 ? 280 : 290, 1e-6))
    near(last.distance[7]!, 3 * thousandth, 1e-6)
    const none = filled([NaN, NaN, NaN])
    expect([...none.elevation]).toEqual(Array.from(none.elevation, () => 300))
    near(none.fromGround, 2 * thousandth, 1e-6)
  })

  it('follow the land between points, and the way from point to point', () => {
    const way = along([NaN, NaN, NaN])
    way.latitude.set([0, 0.001, 0])
    // Height by latitude alone: up to the middle point, and down.
    const ground = groundOf((latitude) => 1e5 * latitude, way, across)
    const { distance, elevation } = fillFromGround(way, lackingIn(way), ground)
    elevation.forEach((height, i) => {
      const share = distance[i]! / thousandth
      near(height, 100 * (share < 1 ? share : 2 - share), 0.01, `height ${i}`)
    })
    expect(elevation.length).toBe(7)
  })

  it('go on from piece to piece, and from stretch to stretch', () => {
    const { elevation, ridden } = filled([NaN, 310, NaN, 320, NaN, NaN], undefined, [
      { first: 0, last: 3 },
      { first: 4, last: 5 },
    ])
    expect(ridden).toEqual([
      { first: 0, last: 9 },
      { first: 10, last: 13 },
    ])
    expect([elevation[0], elevation[3], elevation[9], elevation[10], elevation[13]].map((h) => Math.round(h!))).toEqual(
      [310, 310, 320, 300, 300],
    )
    expect(elevation.every(Number.isFinite)).toBe(true)
  })

  it('stay unknown where the ground is', () => {
    const holed = (ground: Ground) => ({ ...ground, heights: ground.heights.map(() => NaN) })
    const { elevation, fromGround } = filled([1, NaN, NaN, 4], holed)
    expect([elevation[0], elevation.at(-1), fromGround]).toEqual([1, 4, 0])
    expect(elevation.subarray(1, -1).every(Number.isNaN)).toBe(true)
    // Known in its western half.
    const half = (ground: Ground) => {
      const middle = ((187.003 / 360) * across) | 0
      return {
        ...ground,
        heights: ground.heights.map((height, i) => (ground.pixels[i]! % across > middle ? NaN : height)),
      }
    }
    const part = filled([300, NaN, NaN, NaN, NaN, NaN, 300], half)
    near(part.fromGround, 3 * thousandth, 60)
    expect(part.elevation.filter((height) => !Number.isNaN(height)).every((height) => height === 300)).toBe(true)
  })

  it('are taken no closer together than 10 m, and short pieces are left to be drawn', () => {
    const way = along([300, NaN, 300])
    const fine = groundOf(() => 300, way, 2 ** 25)
    const { distance } = fillFromGround(way, lackingIn(way), fine)
    // 222.6 m.
    expect(distance.length).toBe(23)
    const short = along([300, NaN, 302], undefined, 0.4)
    const pieces: Lacking[] = lackingIn(short)
    expect([...fillFromGround(short, pieces, flat(short)).elevation]).toEqual([300, NaN, 302])
  })
})

describe('names of places', () => {
  it('are without tags and character references', async () => {
    const name = async (text: string) =>
      (await readLines(`<gpx><wpt lat="1" lon="2"><name><![CDATA[${text}]]></name></wpt></gpx>`, () => {}))
        .waypoints[0]!.name
    expect(await name('<b>Old</b> <a href="x">mill</a><br/>by the weir')).toBe('Old mill by the weir')
    expect(await name('Bed &amp; bread &lt;3 &gt; &quot;a&quot; &apos;b&#39;&nbsp;c &euro;')).toBe(
      'Bed & bread <3 > "a" \'b\' c &euro;',
    )
    expect(await name('1 < 2 > 0, <3>')).toBe('1 < 2 > 0, <3>')
  })
})
