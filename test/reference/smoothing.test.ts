import { describe, expect, it } from 'vitest'
import { penalties, smoothOver, smoothRobustly } from '../../src/model/route/smooth'
import { makeRandom, smoothNoise } from '../../sample-routes/random'
import { near, within } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { normal, profiles, routeOf, straightRoad } from '../profiles'
import { smoothingChecks, whittaker } from './smoothing'

const LENGTH = 60_000

describe('whittaker', () => {
  it('gives the exact solutions of four small systems, and those of larger ones by elimination', () => {
    expect(smoothingChecks.length).toBe(21 + 600)
    for (const { quantity, sample, expected, ours, tolerance } of smoothingChecks)
      near(ours(), expected, tolerance, `${quantity}, ${sample}`)
  })

  it('lets a straight line pass, keeps the sum and the first moment, and returns y where λ is 0 (Eilers 2003)', () => {
    const line = Float64Array.from({ length: 40 }, (_, i) => 3 + 0.7 * i)
    whittaker(line, 1e4).forEach((z, i) => near(z, line[i]!, 1e-8))
    const noise = normal(3)
    const y = line.map((v) => v + noise())
    const z = whittaker(y, 100)
    near(z.reduce((a, b) => a + b), y.reduce((a, b) => a + b), 1e-9) // prettier-ignore
    const moment = (values: Float64Array) => values.reduce((total, v, i) => total + i * v, 0)
    near(moment(z), moment(y), 1e-7)
    whittaker(y, 0).forEach((v, i) => near(v, y[i]!, 1e-12))
  })

  it('does not see what has no weight', () => {
    const y = Float64Array.from([1, 2, 99, 4, 5])
    whittaker(y, 1, Float64Array.from([1, 1, 0, 1, 1])).forEach((z, i) => near(z, i + 1, 1e-9))
  })
})

describe('smoothOver', () => {
  it('keeps half of a wave of the stated wavelength, nearly all of one twice as long, little of one half as long', () => {
    const grid = { nodes: 4001, spacing: 10 }
    const at = Float64Array.from({ length: grid.nodes }, (_, i) => i * 10)
    const weight = new Float64Array(grid.nodes).fill(1)
    for (const [share, length] of [
      [0.5, 400],
      [16 / 17, 800],
      [1 / 17, 200],
    ] as const) {
      // prettier-ignore
      const value = at.map((d) => Math.sin((2 * Math.PI * d) / length))
      const line = smoothOver({ at, value, weight }, grid, penalties(grid, 400))
      near(Math.max(...line.subarray(1500, 2500)), share, 0.01, `gain at ${length} m`)
    }
  })
})

describe('smoothRobustly', () => {
  it('is not pulled by errors of 8 m at 3 % of the places, which a plain fit is', () => {
    const grid = { nodes: 2001, spacing: 10 }
    const [noise, random] = [normal(5), seeded(6)]
    const at = Float64Array.from({ length: grid.nodes }, (_, i) => i * 10)
    const value = at.map(() => 0.3 * noise() + (random() < 0.03 ? 8 : 0))
    const observations = { at, value, weight: new Float64Array(grid.nodes).fill(1) }
    const lambda = penalties(grid, 300)
    const size = (line: Float64Array) => Math.sqrt(line.reduce((total, z) => total + z * z, 0) / line.length)
    const plain = size(smoothOver(observations, grid, lambda))
    const robust = size(smoothRobustly(observations, grid, lambda))
    expect(plain).toBeGreaterThan(0.4)
    expect(robust).toBeLessThan(0.15)
  })
})

/** What is done to the true elevation of point i. */
type Fault = (elevation: number, i: number) => number

const faults: { name: string; make: (seed: number) => Fault }[] = [
  {
    name: 'noise of 3 m',
    make: (seed) => {
      const noise = normal(seed)
      return (e) => e + 3 * noise()
    },
  },
  { name: 'steps of 1 m', make: () => (e) => Math.round(e) },
  {
    name: '1 % spikes of 30 m',
    make: (seed) => {
      const random = seeded(seed)
      return (e) => (random() < 0.01 ? e + (random() < 0.5 ? 30 : -30) : e)
    },
  },
]

function pointsOf(truth: (at: number) => number, spacing: number, fault: Fault = (e) => e): Float64Array {
  return Float64Array.from({ length: LENGTH / spacing + 1 }, (_, i) => fault(truth(i * spacing), i))
}

/** Rises of the truth over the stations, and the root mean square of the errors of gradient. */
function against({ stations }: ReturnType<typeof routeOf>, truth: (at: number) => number) {
  let ascent = 0
  let square = 0
  const last = stations.distance.length - 1
  for (let i = 0; i < last; i++) {
    const rise = truth(stations.distance[i + 1]!) - truth(stations.distance[i]!)
    ascent += Math.max(0, rise)
    square += (stations.gradient[i]! - rise / (stations.distance[i + 1]! - stations.distance[i]!)) ** 2
  }
  return { ascent, gradientError: Math.sqrt(square / last) }
}

describe('a route with a known profile', () => {
  for (const name of ['rolling', 'alpine', 'near flat'] as const) {
    const truth = profiles[name]
    for (const { name: faultName, make } of faults) {
      for (const [spacing, seed] of [
        [5, 11],
        [10, 12],
        [10, 13],
      ] as const) {
        // prettier-ignore
        it(`${name}, ${faultName}, a point every ${spacing} m (seed ${seed}): ascent within 5 %, gradient within 0.5 points`, () => {
          const points = pointsOf(truth, spacing, make(seed))
          const route = routeOf([straightRoad(points, spacing)])
          const { ascent, gradientError } = against(route, truth)
          within(route.ascent, ascent, 0.05, 'ascent')
          expect(gradientError).toBeLessThan(0.005)
          // A check that the fault is there at all.
          const raw = points.reduce((total, e, i) => total + Math.max(0, e - (points[i - 1] ?? e)), 0)
          if (faultName !== 'steps of 1 m') expect(raw).toBeGreaterThan(1.5 * ascent)
        })
      }
    }

    it(`${name}: thinning the track to every second point moves the ascent by under 3 %`, () => {
      for (const { name: faultName, make } of faults) {
        const points = pointsOf(truth, 10, make(21))
        const whole = routeOf([straightRoad(points, 10)])
        const thin = routeOf([straightRoad(points.filter((_, i) => i % 2 === 0), 20)]) // prettier-ignore
        within(thin.ascent, whole.ascent, 0.03, faultName)
      }
    })

    it(`${name}, without noise: hardly smoothed`, () => {
      const route = routeOf([straightRoad(pointsOf(truth, 20), 20)])
      const { ascent, gradientError } = against(route, truth)
      within(route.ascent, ascent, 0.002)
      expect(gradientError).toBeLessThan(0.0005)
    })
  }

  it('hills of 500 m keep 97 % of their height', () => {
    const truth = (at: number) => 100 + 10 * Math.sin((2 * Math.PI * at) / 500)
    const route = routeOf([straightRoad(pointsOf(truth, 10), 10)])
    within(route.ascent, against(route, truth).ascent, 0.03)
  })

  it('flat, noise of 3 m: less than 0.5 m of ascent per km is left of 169 m per km', () => {
    for (const seed of [31, 32, 33]) {
      const noise = normal(seed)
      const points = pointsOf(profiles.flat, 10, (e) => e + 3 * noise())
      // White noise of deviation s on flat ground rises s/√π a step.
      const raw = points.reduce((total, e, i) => total + Math.max(0, e - (points[i - 1] ?? e)), 0)
      within(raw, ((3 / Math.sqrt(Math.PI)) * LENGTH) / 10, 0.03)
      expect(routeOf([straightRoad(points, 10)]).ascent).toBeLessThan((0.5 * LENGTH) / 1000)
    }
  })

  it('is hardly bent by a bridge of 150 m over a gorge of 40 m and a tunnel of 1 km under a mountain of 120 m', () => {
    const truth = profiles.alpine
    const fault: Fault = (e, i) => {
      const at = i * 10
      if (at > 8000 && at < 8150) return e - 40
      if (at > 34_000 && at < 35_000) return e + 40 + 80 * Math.sin((Math.PI * (at - 34_000)) / 1000)
      return e
    }
    const route = routeOf([straightRoad(pointsOf(truth, 10, fault), 10)])
    const { ascent, gradientError } = against(route, truth)
    within(route.ascent, ascent, 0.005)
    // Drawn straight through the tunnel, which misses waves of 1.7 km there; left in, the mountain makes it 0.05.
    expect(gradientError).toBeLessThan(0.006)
    expect(route.counts.elevationSpikes).toBe(14 + 99)
  })

  it('ascent and descent are sums over the smoothed line, and their difference that of its ends', () => {
    const noise = normal(41)
    const route = routeOf([straightRoad(pointsOf(profiles.rolling, 10, (e) => e + noise()), 10)]) // prettier-ignore
    const { elevation } = route.stations
    near(route.ascent - route.descent, elevation[elevation.length - 1]! - elevation[0]!, 1e-9)
    let rises = 0
    for (let i = 1; i < elevation.length; i++) rises += Math.max(0, elevation[i]! - elevation[i - 1]!)
    near(route.ascent, rises, 1e-9)
  })
})

const wave = (height: number, length: number) => (at: number) => height * Math.sin((2 * Math.PI * at) / length)

describe('waves of the road', () => {
  for (const length of [300, 375, 450]) {
    for (const [name, hill] of [
      ['on hills of 5 km', wave(50, 5000)],
      ['alone', () => 0],
    ] as const) {
      const truth = (at: number) => 200 + hill(at) + wave(3, length)(at)
      for (const whole of [5000, 60_000]) {
        const points = (spacing: number, fault: Fault = (e) => e) =>
          Float64Array.from({ length: whole / spacing + 1 }, (_, i) => fault(truth(i * spacing), i))
        it(`of ±3 m and ${length} m, ${name}, over ${whole / 1000} km: ascent within 5 %`, () => {
          for (const spacing of [10, 20]) {
            const route = routeOf([straightRoad(points(spacing), spacing)])
            within(route.ascent, against(route, truth).ascent, 0.05, `a point every ${spacing} m`)
          }
        })
        it(`the same under noise of 1 m: ascent within 12 %`, () => {
          for (const [spacing, seed] of [
            [5, 51],
            [10, 52],
            [10, 53],
            [20, 54],
          ] as const) {
            const noise = normal(seed)
            const route = routeOf([straightRoad(points(spacing, (e) => e + noise()), spacing)]) // prettier-ignore
            within(route.ascent, against(route, truth).ascent, 0.12, `a point every ${spacing} m`)
          }
        })
      }
    }
  }

  it('on one hill of 5 km in a flat of 60 km under noise of 1 m survive there, and the flat stays flat', () => {
    const noise = normal(61)
    const on = (at: number) => at > 27_000 && at < 32_000
    const truth = (at: number) => 50 + (on(at) ? wave(3, 300)(at - 27_000) : 0)
    const route = routeOf([
      straightRoad(
        pointsOf(truth, 10, (e) => e + noise()),
        10,
      ),
    ])
    const { distance, elevation } = route.stations
    const climbed = (from: number, to: number) =>
      distance.reduce(
        (sum, d, i) => (d > from && d <= to ? sum + Math.max(0, elevation[i]! - elevation[i - 1]!) : sum),
        0,
      )
    within(climbed(27_000, 32_000), 100, 0.12, 'ascent of the waves')
    expect(climbed(0, 24_000) / 24).toBeLessThan(0.5)
    expect(climbed(35_000, 60_000) / 25).toBeLessThan(0.5)
  })

  it('are not made of wander of 2 m that is correlated over 60 m, on rolling land', () => {
    for (const seed of [31, 32, 72, 73]) {
      const noise = normal(seed)
      const keep = Math.exp(-10 / 60)
      let wander = 2 * noise()
      const fault: Fault = (e) => {
        wander = keep * wander + 2 * Math.sqrt(1 - keep * keep) * noise()
        return e + wander
      }
      const route = routeOf([straightRoad(pointsOf(profiles.rolling, 10, fault), 10)])
      within(route.ascent, against(route, profiles.rolling).ascent, 0.02)
    }
  })
})

describe('drift of 0.8 m in some 200 m, without other noise,', () => {
  it('makes no waves of a flat road', () => {
    for (const seed of [101, 102]) {
      const drift = smoothNoise(makeRandom(seed, 'drift'), 0.8, 120, LENGTH)
      const points = pointsOf((at) => 10 + drift(at), 10)
      const raw = points.reduce((total, e, i) => total + Math.max(0, e - (points[i - 1] ?? e)), 0)
      expect(raw).toBeGreaterThan((3 * LENGTH) / 1000)
      expect(routeOf([straightRoad(points, 10)]).ascent).toBeLessThan((1 * LENGTH) / 1000)
    }
  })
})

describe('a route that goes on at another height after a train', () => {
  it('is smoothed as if there were no step', () => {
    const ascent = (step: number) => {
      const noise = normal(81)
      const heights = pointsOf(profiles['near flat'], 10, (e) => e + 3 * noise())
      const [before, after] = [heights.slice(0, 3000), heights.slice(3200).map((e) => e + step)]
      const north = straightRoad(new Float64Array(heights.length), 10)
      const part = (elevation: Float64Array, from: number) => ({
        latitude: north.latitude.slice(from, from + elevation.length),
        longitude: north.longitude.slice(from, from + elevation.length),
        elevation,
        time: north.time.slice(from, from + elevation.length),
      })
      return routeOf([part(before, 0), part(after, 3200)]).ascent
    }
    within(ascent(800), ascent(0), 0.01)
  })
})

describe('the spread of the ascent', () => {
  it('takes in the truth under noise of 3 m, and is small where hills are clear', () => {
    for (const name of ['rolling', 'near flat'] as const) {
      for (const seed of [91, 92, 93]) {
        const noise = normal(seed)
        const route = routeOf([straightRoad(pointsOf(profiles[name], 10, (e) => e + 3 * noise()), 10)]) // prettier-ignore
        near(route.ascent, against(route, profiles[name]).ascent, route.ascentSpread, name)
        expect(route.ascentSpread / route.ascent).toBeLessThan(0.12)
      }
    }
    const clear = routeOf([straightRoad(pointsOf(profiles.alpine, 10), 10)])
    expect(clear.ascentSpread / clear.ascent).toBeLessThan(0.001)
  })
})
