import { describe, expect, it } from 'vitest'
import { scaleAt } from '../../src/model/geo/scale'
import { noiseBetween, noiseLeft, wavelengthForCurvature } from '../../src/model/route/noise'
import { curvatureAt, headingBetween, smoothPath, type Path } from '../../src/model/route/path'
import {
  medianAbsolute,
  penalties,
  smoothOver,
  smoothRobustly,
  sumsOf,
  weightsByLength,
  type Grid,
  type Observations,
} from '../../src/model/route/smooth'
import { keepWaves } from '../../src/model/route/waves'
import { elevationWavelengths, lowest } from '../../src/model/route/wavelength'
import { near, within } from '../asserts'
import { normal } from '../profiles'

/** Numbers from 0 to 1 (Park and Miller 1988). */
function seeded(seed: number): () => number {
  let state = seed
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
}

/** Which two nodes a place lies between, and how far on. */
function placeOn({ nodes, spacing }: Grid, at: number): { node: number; share: number } {
  const node = Math.min(Math.floor(at / spacing), nodes - 2)
  return { node, share: at / spacing - node }
}

/**
 * The line of least Σ w (value − line)² + Σ λ (second difference)², from its normal equations written out whole and solved by elimination
 * (Eilers and Marx 1996, Statistical Science 11:89-121).
 */
function lineOf({ at, value, weight }: Observations, grid: Grid, lambda: ArrayLike<number>): number[] {
  const n = grid.nodes
  const rows = Array.from({ length: n }, () => new Float64Array(n + 1))
  at.forEach((place, i) => {
    const { node, share } = placeOn(grid, place)
    const both = [1 - share, share]
    for (const [j, a] of both.entries()) {
      for (const [k, b] of both.entries()) rows[node + j]![node + k]! += weight[i]! * a * b
      rows[node + j]![n]! += weight[i]! * a * value[i]!
    }
  })
  for (let k = 0; k + 2 < n; k++)
    for (const [i, a] of [1, -2, 1].entries())
      for (const [j, b] of [1, -2, 1].entries()) rows[k + i]![k + j]! += lambda[k]! * a * b
  // Nothing stands more than two places beside the diagonal.
  for (let k = 0; k < n; k++)
    for (let i = k + 1; i < Math.min(n, k + 3); i++) {
      const factor = rows[i]![k]! / rows[k]![k]!
      for (const j of [k, k + 1, k + 2].filter((j) => j < n).concat(n)) rows[i]![j]! -= factor * rows[k]![j]!
    }
  const line = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    const known = (i + 1 < n ? rows[i]![i + 1]! * line[i + 1]! : 0) + (i + 2 < n ? rows[i]![i + 2]! * line[i + 2]! : 0)
    line[i] = (rows[i]![n]! - known) / rows[i]![i]!
  }
  return line
}

const readAt = (line: ArrayLike<number>, grid: Grid, at: number) => {
  const { node, share } = placeOn(grid, at)
  return line[node]! * (1 - share) + line[node + 1]! * share
}

/** λ at which a wave keeps half its amplitude: (2 sin(π spacing / wavelength))⁻⁴, of no wave shorter than two steps. */
const lambdaOf = (grid: Grid, wavelength: number) =>
  new Array<number>(grid.nodes).fill((2 * Math.sin(Math.PI * Math.min(0.5, grid.spacing / wavelength))) ** -4)

/** Half of what lies before and after each, in steps of the grid. */
const weightsOf = (at: ArrayLike<number>, spacing: number) =>
  Float64Array.from(at, (_, i) => ((at[i + 1] ?? at[i]!) - (at[i - 1] ?? at[i]!)) / 2 / spacing)

function hills(length: number, step: number, seed: number, noise: number, wave = (at: number) => 0 * at) {
  const random = seeded(seed)
  const deviate = normal(seed)
  const at: number[] = [0]
  while (at.at(-1)! < length) at.push(at.at(-1)! + step * (0.4 + 1.2 * random()))
  const height = (d: number) => 500 + 60 * Math.sin(d / 900) + 25 * Math.sin(d / 310 + 1) + wave(d)
  return { at: Float64Array.from(at), value: Float64Array.from(at, (d) => height(d) + noise * deviate()) }
}

describe('the smoother', () => {
  const grid = { nodes: 41, spacing: 25 }
  const { at, value } = hills(990, 17, 4, 2)
  const weight = weightsByLength(at, grid.spacing)

  it('weighs each point by half of the way before and after it', () => {
    expect([...weightsByLength(Float64Array.of(0, 10, 40, 50), 20)]).toEqual([0.25, 1, 1, 0.25])
  })

  it('solves its equations between the nodes, with a wavelength by the place', () => {
    const wavelength = (place: number) => 100 + place / 5
    const lambda = penalties(grid, wavelength)
    for (let k = 0; k + 2 < grid.nodes; k++)
      within(lambda[k]!, lambdaOf(grid, wavelength((k + 1) * grid.spacing))[0]!, 1e-9, `λ ${k}`)
    const line = lineOf({ at, value, weight }, grid, lambda)
    smoothOver({ at, value, weight }, grid, lambda).forEach((z, i) => near(z, line[i]!, 1e-7, `node ${i}`))
    // From a base: the same less that.
    sumsOf({ at, value, weight }, grid, 400)
      .solve(lambda)
      .forEach((z, i) => near(z, line[i]! - 400, 1e-7, `node ${i} above 400 m`))
    // No wave is shorter than two nodes: λ of 1 / 16 there and below.
    expect([1, 20, 50].map((shortest) => penalties(grid, shortest)[3])).toEqual([1 / 16, 1 / 16, 1 / 16])
  })

  it('knows the error of any line from its sums alone, also from those of two parts', () => {
    const observations = { at, value, weight }
    const line = Float64Array.from({ length: grid.nodes }, (_, i) => 480 + 3 * Math.cos(i))
    const error = at.reduce((sum, d, i) => sum + weight[i]! * (value[i]! - readAt(line, grid, d)) ** 2, 0)
    within(sumsOf(observations, grid).squaredError(line), error, 1e-9)
    const part = (from: number, to: number) =>
      sumsOf({ at: at.slice(from, to), value: value.slice(from, to), weight: weight.slice(from, to) }, grid)
    const both = part(0, 20)
    both.addAll(part(20, at.length))
    within(both.squaredError(line), error, 1e-9)
    const lambda = penalties(grid, 200)
    const whole = lineOf(observations, grid, lambda)
    both.solve(lambda).forEach((z, i) => near(z, whole[i]!, 1e-7))
  })

  it('counts points far from the line less in three rounds, by Tukey’s biweight', () => {
    const lambda = penalties(grid, 300)
    const spiked = value.slice()
    spiked[7]! += 40
    spiked[30]! -= 9
    const observations = { at, value: spiked, weight }
    let shares = new Float64Array(at.length).fill(1)
    let line: number[] = []
    for (let round = 0; round <= 3; round++) {
      line = lineOf({ ...observations, weight: weight.map((w, i) => w * shares[i]!) }, grid, lambda)
      const off = spiked.map((v, i) => Math.abs(v - readAt(line, grid, at[i]!)))
      // 4.685 for 95 % efficiency (Beaton and Tukey 1974), the median's share of a normal deviation, and never below 1 m.
      const limit = 4.685 * Math.max(1, off.slice().sort()[off.length >> 1]! / 0.6745)
      shares = off.map((r) => Math.max(1e-6, r < limit ? (1 - (r / limit) ** 2) ** 2 : 0))
    }
    smoothRobustly(observations, grid, lambda).forEach((z, i) => near(z, line[i]!, 1e-6, `node ${i}`))
    // Where all lie near the line nothing is done again.
    const calm = { at, value: at.map((d) => d / 20 + 0.5 * Math.sin(d)), weight }
    expect(smoothRobustly(calm, grid, lambda)).toEqual(smoothOver(calm, grid, lambda))
  })

  it('takes the middle of the sizes, of very many every other', () => {
    expect(medianAbsolute(Float64Array.of(-5, 1, -2))).toBe(2)
    expect(medianAbsolute(Float64Array.of(4, -3, 2, -1))).toBe(3)
    expect(medianAbsolute(new Float64Array(0))).toBe(0)
    const many = Float64Array.from({ length: 20_002 }, (_, i) => (i % 2 === 0 ? 1 : 9))
    expect(medianAbsolute(many)).toBe(1)
    expect(medianAbsolute(many.subarray(2).map((v) => v))).toBe(9)
  })
})

/** Cross-validation by blocks, written out: the sum over two lengths of block of the logarithm of the mean squared error. */
function scoresAgain(at: Float64Array, value: Float64Array): number[] {
  const wavelengths = Array.from({ length: 6 }, (_, k) => 200 * 1.6 ** k)
  const whole = at.at(-1)! - at[0]!
  const mean = whole / (at.length - 1)
  const nodes = Math.max(3, Math.round(whole / Math.max(30, mean / 3))) + 1
  const grid = { nodes, spacing: whole / (nodes - 1) }
  const place = at.map((d) => d - at[0]!)
  const weight = weightsOf(place, grid.spacing)
  const high = value.map((v) => v - value[0]!)
  return wavelengths.map((wavelength) =>
    [200, 500].reduce((score, block) => {
      const size = Math.max(block, 1.5 * mean)
      let [error, steps] = [0, 0]
      for (let fold = 0; fold < 3; fold++) {
        const isOut = Array.from(place, (d) => Math.floor(d / size) % 3 === fold)
        const rest = weight.map((w, i) => (isOut[i] ? 0 : w))
        const line = lineOf({ at: place, value: high, weight: rest }, grid, lambdaOf(grid, wavelength))
        place.forEach((d, i) => {
          if (!isOut[i]) return
          error += weight[i]! * (high[i]! - readAt(line, grid, d)) ** 2
          steps += weight[i]!
        })
      }
      return score + Math.log(error / steps + 0.1 ** 2)
    }, 0),
  )
}

describe('the wavelength for elevations', () => {
  it('is the best of a cross-validation by blocks in each window and, half as much, in its neighbours', () => {
    for (const [seed, noise, step] of [
      [5, 2, 60],
      [6, 8, 90],
      [7, 0.3, 150],
    ] as const) {
      const { at, value } = hills(36_000, step, seed, noise)
      const found = elevationWavelengths(at, value)
      const length = at.at(-1)!
      expect(found.at.length).toBe(3)
      const scores = Array.from({ length: 3 }, (_, k) => {
        const inside = (d: number) => d <= ((k + 1) * length) / 3 && (k === 0 || d > (k * length) / 3)
        return scoresAgain(at.filter(inside), value.filter((_, i) => inside(at[i]!))) // prettier-ignore
      })
      found.wavelength.forEach((wavelength, k) => {
        near(found.at[k]!, ((k + 0.5) * length) / 3, 1e-6)
        const own = scores[k]!
        const sums = own.map((score, i) => score + ((scores[k - 1] ?? own)[i]! + (scores[k + 1] ?? own)[i]!) / 2)
        const best = lowest(sums)
        const expected = 200 * 1.6 ** best * (best === 0 || best === 5 ? 1 : 1.4)
        within(wavelength, expected, 1e-6, `window ${k}, seed ${seed}`)
      })
    }
  })

  it('is one for all where there are fewer than a hundred points, and the shortest where there are hardly any', () => {
    const { at, value } = hills(40_000, 420, 8, 1)
    expect(at.length).toBeLessThan(100)
    const found = elevationWavelengths(at, value)
    expect(found.at.length).toBe(1)
    const best = lowest(scoresAgain(at, value))
    within(found.wavelength[0]!, 200 * 1.6 ** best * (best === 0 || best === 5 ? 1 : 1.4), 1e-6)
    const few = elevationWavelengths(at.subarray(0, 7), value.subarray(0, 7))
    expect([...few.wavelength]).toEqual([200])
  })

  it('lies between those that are tried, by the parabola through the lowest and its neighbours', () => {
    // (x − 1.3)² + 2 at 0, 1, 2, 3.
    near(lowest([3.69, 2.09, 2.49, 4.89]), 1.3, 1e-9)
    expect([lowest([1, 2, 3]), lowest([3, 2, 1]), lowest([2, 2, 2]), lowest([3, 1, 1])]).toEqual([0, 2, 0, 1.5])
  })
})

/** Least expected error of height by bias and noise about each place (Mallows 1973), written out. */
function keptAgain(at: Float64Array, value: Float64Array, given: number): { at: number[]; wavelength: number[] } {
  const length = at.at(-1)!
  const steps = Array.from(at.subarray(1), (d, i) => d - at[i]!)
  const shortest = Math.max(60, (2.5 * steps.reduce((sum, step) => sum + step * Math.min(step, 200), 0)) / length)
  const tried: number[] = []
  for (let wavelength = 1.5 * shortest; wavelength < 2100; wavelength *= 1.4) tried.push(wavelength)
  const nodes = Math.max(2, Math.round(length / 20)) + 1
  const grid = { nodes, spacing: length / (nodes - 1) }
  const observations = { at, value, weight: weightsOf(at, grid.spacing) }
  const line = (wavelength: number) => lineOf(observations, grid, lambdaOf(grid, wavelength))
  const fine = line(shortest)
  const count = Math.max(1, Math.round(length / 500))
  const places = Array.from({ length: count + 1 }, (_, k) => (k * length) / count)
  const lost = (wavelength: number) => {
    const other = line(wavelength)
    return places.map((_, k) => {
      const middle = Math.round((k * (nodes - 1)) / count)
      const reach = Math.round(2000 / grid.spacing)
      const about = fine
        .map((z, i) => (z - other[i]!) ** 2)
        .slice(Math.max(0, middle - reach), Math.min(nodes - 1, middle + reach) + 1)
      return about.reduce((sum, square) => sum + square, 0) / about.length
    })
  }
  const noise = lost(2 * shortest).map((square) => square / noiseBetween(shortest, 2 * shortest))
  const losses = tried.map(lost)
  const wavelength = places.map((_, k) => {
    const shorter = tried.filter((one) => one < given).length
    const next = Math.min(shorter, tried.length - 1)
    if (shorter === 0 || losses[next]![k]! < Math.max(1.5, 6 * noise[k]! * noiseBetween(shortest, tried[next]!)))
      return given
    const errors = tried
      .slice(0, next + 1)
      .map((one, j) =>
        Math.log(
          Math.max(0, losses[j]![k]! - noise[k]! * noiseBetween(shortest, one)) + noise[k]! * noiseLeft(one) + 0.01,
        ),
      )
    return Math.min(given, tried[0]! * 1.4 ** lowest(errors))
  })
  return { at: places, wavelength }
}

describe('waves of a road', () => {
  const wave = (d: number) => (d > 6000 && d < 13_000 ? 4 * Math.sin(d / 40) : 0)

  it.each([
    ['survive where they stand out from noise', hills(18_000, 14, 3, 0.3, wave), 700, true],
    ['survive between points farther apart', hills(18_000, 55, 3, 0.3, (d) => 2 * wave(d)), 900, true],
    ['are none where there is noise alone', hills(18_000, 14, 3, 1.5), 300, false],
    ['are hills where points lie far apart', hills(12_000, 500, 3, 0.3), 2000, true],
  ])('%s', (_, { at, value }, given, shorter) => {
    const found = keepWaves(at, value, { at: Float64Array.of(0), wavelength: Float64Array.of(given) })
    const expected = keptAgain(at, value, given)
    expect(found.at.length).toBe(expected.at.length)
    expected.at.forEach((place, k) => {
      near(found.at[k]!, place, 1e-6)
      within(found.wavelength[k]!, expected.wavelength[k]!, 1e-6, `at ${place} m`)
    })
    expect(Math.min(...found.wavelength) < given).toBe(shorter)
  })

  it('are not looked for where points are too far apart to tell them from noise', () => {
    const { at, value } = hills(40_000, 700, 3, 1)
    const chosen = { at: Float64Array.of(0), wavelength: Float64Array.of(900) }
    const kept = keepWaves(at, value, chosen)
    // 200 m at most count: 2.5 of them are 500 m, and one and a half times that are 750 m.
    expect(Math.min(...kept.wavelength)).toBeGreaterThanOrEqual(750)
  })
})

describe('the way of a section', () => {
  it('is smoothed in each kilometre by the jitter that lies across it between 30 and 60 m', () => {
    const { north, east } = scaleAt(46)
    const deviate = normal(9)
    const { at } = hills(3400, 9, 5, 0)
    // Jitter of 0.2 m in the first kilometre, of 2 m in the second, of none in the third.
    const jitter = (d: number) => (d < 1100 ? 0.2 : d < 2200 ? 2 : 0) * deviate()
    const latitude = at.map((d) => 46 + (0.8 * d + 60 * Math.sin(d / 130) + jitter(d)) / north)
    const longitude = at.map((d) => 11 + (0.6 * d + 30 * Math.cos(d / 90) + jitter(d)) / east)
    const length = at.at(-1)!
    const nodes = Math.round(length / 6) + 1
    const grid = { nodes, spacing: length / (nodes - 1) }
    const weight = weightsOf(at, grid.spacing)
    const way = (lambda: ArrayLike<number>) =>
      [latitude, longitude].map((value) =>
        lineOf({ at, value: value.map((degrees) => degrees - value[0]!), weight }, grid, lambda),
      ) as [number[], number[]]
    const [coarse, fine] = [way(lambdaOf(grid, 60)), way(lambdaOf(grid, 30))]
    const beside: number[] = []
    for (let i = 0; i + 1 < nodes; i += 2) {
      const scale = scaleAt(46 + coarse[0][i]!)
      const along = [
        (coarse[0][i + 1]! - coarse[0][i]!) * scale.north,
        (coarse[1][i + 1]! - coarse[1][i]!) * scale.east,
      ]
      const off = [(fine[0][i]! - coarse[0][i]!) * scale.north, (fine[1][i]! - coarse[1][i]!) * scale.east]
      beside.push((off[0]! * along[1]! - off[1]! * along[0]!) / Math.hypot(along[0]!, along[1]!))
    }
    const count = Math.floor(length / 1000)
    expect(count).toBe(3)
    const wavelengths = Array.from({ length: count }, (_, k) => {
      const share = Math.floor(nodes / 2) / count
      const sizes = beside
        .slice(Math.floor(k * share), Math.floor((k + 1) * share))
        .map(Math.abs)
        .sort((a, b) => a - b)
      // A quarter of normal deviates are smaller than 0.3186 standard deviations; 0.003 1/m may be left in curvature.
      const density = (sizes[sizes.length >> 2]! / 0.3186) ** 2 / noiseBetween(30, 60)
      return Math.min(200, Math.max(30, wavelengthForCurvature(density, 0.003)))
    })
    expect(wavelengths[1]! / wavelengths[0]!).toBeGreaterThan(1.5)
    const middle = wavelengths.map((_, k) => ((k + 0.5) * length) / count)
    const lambda = Array.from({ length: nodes }, (_, i) => {
      const place = (i + 1) * grid.spacing
      const k = middle.findLastIndex((one) => one <= place)
      const share = k < 0 ? 0 : (place - middle[k]!) / ((middle[k + 1] ?? Infinity) - middle[k]!)
      const here = wavelengths[Math.max(0, k)]!
      return lambdaOf(grid, here + share * ((wavelengths[Math.min(k + 1, count - 1)] ?? here) - here))[0]!
    })
    const [toNorth, toEast] = way(lambda)
    const path = smoothPath({ at, latitude, longitude }, 6)
    near(path.spacing, grid.spacing, 1e-9)
    expect(path.direction.length).toBe(nodes - 1)
    let before = 0
    for (let i = 0; i < nodes; i++) {
      near((path.latitude[i]! - 46 - (latitude[0]! - 46) - toNorth[i]!) * north, 0, 1e-4, `north at node ${i}`)
      near((path.longitude[i]! - longitude[0]! - toEast[i]!) * east, 0, 1e-4, `east at node ${i}`)
      if (i + 1 === nodes) break
      const scale = scaleAt(path.latitude[i]!)
      const angle = Math.atan2(
        (toEast[i + 1]! - toEast[i]!) * scale.east,
        (toNorth[i + 1]! - toNorth[i]!) * scale.north,
      )
      near(Math.sin(path.direction[i]! - angle), 0, 1e-5, `direction of step ${i}`)
      // Continuous: never half a turn from the step before.
      expect(Math.abs(path.direction[i]! - before)).toBeLessThan(Math.PI)
      before = path.direction[i]!
    }
  })

  /** A path of steps of 5 m with given directions. */
  const turning = (direction: (middle: number) => number): Path => ({
    spacing: 5,
    latitude: Float64Array.from({ length: 21 }, (_, i) => 50 + i / 1000),
    longitude: Float64Array.from({ length: 21 }, (_, i) => 8 + i / 500),
    direction: Float64Array.from({ length: 20 }, (_, i) => direction(5 * (i + 0.5))),
  })

  it('is as curved as it turns over 15 m about a place', () => {
    for (const radius of [30, -80]) {
      const path = turning((place) => 1 + place / radius)
      for (const place of [12, 20, 33.3, 50, 88]) within(curvatureAt(path, place), 1 / Math.abs(radius), 1e-9)
      // At its ends a third of that is left: from the middle of the first step to that of the second.
      within(curvatureAt(path, 0), 1 / Math.abs(radius) / 3, 1e-9)
      within(curvatureAt(path, 100), 1 / Math.abs(radius) / 3, 1e-9)
    }
    // A bend back and forth turns the shorter way: 4 rad to the one side are 2 π − 4 to the other.
    within(
      curvatureAt(
        turning((place) => (place < 50 ? 0 : 4)),
        50,
      ),
      (2 * Math.PI - 4) / 15,
      1e-9,
    )
    within(
      curvatureAt(
        turning((place) => (place < 50 ? 0 : 2 * Math.PI + 0.3)),
        50,
      ),
      0.3 / 15,
      1e-9,
    )
  })

  it('heads from place to place between its nodes, and not beyond its ends', () => {
    const path = turning(() => 0)
    const { north, east } = scaleAt(50.01)
    const angle = Math.atan2(2 * east, north)
    near(headingBetween(path, 10, 15), angle, 1e-3)
    near(headingBetween(path, 12, 13), angle, 1e-3)
    near(headingBetween(path, 60, 20), angle + Math.PI, 2e-3)
    near(headingBetween(path, -20, 200), headingBetween(path, 0, 100), 1e-12)
  })
})
