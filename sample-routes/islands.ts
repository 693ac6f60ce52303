import { beside, length } from './alignment'
import { type LonLat, type Metres, toLonLat } from './plane'
import { between, makeRandom, type Random } from './random'

/** An island's coast on the drawing board in kilometres, anticlockwise; a `true` keeps the shore straight around it. */
interface Island {
  name: string
  outline: readonly (readonly [east: number, north: number, harbour?: true])[]
}

const coastSeed = 41151

const islands: readonly Island[] = [
  {
    name: 'Tarrovay',
    outline: [
      [2.6, -3.2, true],
      [3.4, -2.2, true],
      [5.2, -0.9],
      [4.4, 1.6],
      [2.4, 3.4],
      [0.9, 4.6],
      [1.9, 6.8],
      [3.0, 9.8],
      [0.6, 13.8],
      [-2.2, 15.2],
      [-5.0, 18.2],
      [-6.4, 15.8],
      [-8.4, 14.0],
      [-9.6, 17.4],
      [-10.4, 21.2],
      [-14.2, 22.6],
      [-17.2, 21.2],
      [-18.8, 18.4],
      [-21.0, 20.6],
      [-25.6, 18.0],
      [-27.6, 14.8],
      [-25.2, 13.0],
      [-23.6, 9.8],
      [-25.8, 10.0],
      [-28.2, 11.8],
      [-31.6, 12.4],
      [-34.2, 9.4],
      [-37.8, 5.4],
      [-36.4, 2.8],
      [-33.6, 1.2],
      [-30.0, -0.6],
      [-29.4, -2.0],
      [-32.6, -3.0],
      [-36.6, -4.6],
      [-36.0, -8.2],
      [-37.0, -11.4],
      [-33.4, -12.8],
      [-31.4, -15.4],
      [-27.6, -15.0],
      [-26.0, -12.6],
      [-25.3, -10.8, true],
      [-25.0, -10.4, true],
      [-24.6, -10.9, true],
      [-23.4, -12.6],
      [-22.6, -15.4],
      [-21.6, -19.6],
      [-18.0, -21.0],
      [-15.2, -23.0],
      [-12.6, -20.8],
      [-10.2, -20.0],
      [-9.0, -17.8],
      [-8.4, -16.8, true],
      [-7.6, -17.4, true],
      [-5.4, -18.4],
      [-2.6, -18.0],
      [0.4, -15.4],
      [1.4, -12.6],
      [2.2, -10.2],
      [0.6, -9.0],
      [-1.4, -7.8],
      [0.0, -6.6],
      [2.6, -6.9],
      [5.0, -6.2],
      [4.2, -4.6],
    ],
  },
  {
    name: 'Linnovay',
    outline: [
      [14.2, 0.4, true],
      [14.3, -0.3, true],
      [13.8, -2.2],
      [16.0, -4.6],
      [17.0, -7.0],
      [15.2, -9.4],
      [15.8, -12.2],
      [18.6, -15.2],
      [23.2, -17.0],
      [24.8, -15.0],
      [25.8, -11.8],
      [27.4, -13.6],
      [30.6, -15.2],
      [34.0, -12.0],
      [35.0, -8.6],
      [36.4, -5.6],
      [33.8, -3.8],
      [30.2, -1.8],
      [33.0, -0.6],
      [37.4, 1.4],
      [36.6, 4.6],
      [37.0, 7.8],
      [33.6, 9.8],
      [32.0, 12.4],
      [32.6, 15.6],
      [28.4, 17.8],
      [25.4, 15.6],
      [23.5, 12.3, true],
      [22.9, 12.4, true],
      [21.6, 14.8],
      [19.0, 16.0],
      [17.6, 13.2],
      [15.8, 11.6],
      [17.2, 9.0],
      [17.8, 6.6],
      [14.8, 4.8],
      [14.6, 2.4],
    ],
  },
]

/** The coast of each island as a closed ring on the ellipsoid, anticlockwise, degrees to five decimals (about 1 m). */
export function coasts(): { name: string; ring: LonLat[] }[] {
  return islands.map(({ name, outline }) => {
    const random = makeRandom(coastSeed, name)
    const ring = outline.flatMap(([east, north, harbour], i) => {
      const [nextEast, nextNorth, nextHarbour] = outline[(i + 1) % outline.length]!
      const calm = harbour || nextHarbour ? 0.12 : 0.24
      return shore([east * 1000, north * 1000], [nextEast * 1000, nextNorth * 1000], calm, random)
    })
    return { name, ring: [...ring, ring[0]!].map((place) => toLonLat(place).map(fiveDecimals) as LonLat) }
  })
}

/** A fractal shore by seeded midpoint displacement, without its end. */
function shore(from: Metres, to: Metres, roughness: number, random: Random): Metres[] {
  const reach = length(from, to)
  if (reach < 205) return [from]
  const middle = beside(from, to, between(random, 0.38, 0.62), reach * between(random, -roughness, roughness))
  return [...shore(from, middle, roughness, random), ...shore(middle, to, roughness, random)]
}

function fiveDecimals(degrees: number): number {
  return Number(degrees.toFixed(5))
}
