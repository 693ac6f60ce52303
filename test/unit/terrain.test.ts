import { describe, expect, it } from 'vitest'
import { climbsOf } from '../../src/model/readings/climbs'
import { totalMass } from '../../src/model/forecast/mass'
import { liftingOf } from '../../src/model/readings/lifting'
import { legsOf } from '../../src/model/readings/legs'
import { wBalance } from '../../src/model/readings/rider'
import { terrainRuns } from '../../src/model/readings/terrain'
import { ascentBetween } from '../../src/model/route/ascent'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { courseRoute, pieces } from '../routes'

/** Flat, a climb with a short flat in it, a descent, a hump too low and a ramp too short. */
const hills = pieces(
  [3000, 0],
  [1000, 0.05],
  [700, 0],
  [1000, 0.05],
  [2000, -0.04],
  [3000, 0],
  [1150, 0.02],
  [2000, 0],
  [200, 0.06],
  [3000, 0],
)

describe('climbs, descents and rolling ground', () => {
  const route = courseRoute(hills)
  const all = (route: ReturnType<typeof courseRoute>) =>
    route.sections.flatMap(({ first, last }) => terrainRuns(route, first, last))

  it('are told apart once, a short flat belonging to its climb, and what is too low or too short to rolling ground', () => {
    const runs = all(route)
    expect(runs.map(({ terrain }) => terrain)).toEqual(['rolling', 'climb', 'descent', 'rolling'])
    const at = (station: number) => route.stations.distance[station]!
    near(at(runs[1]!.first), 3000, 200, 'foot of the climb')
    expect(at(runs[1]!.last)).toBe(5700)
    near(at(runs[2]!.last), 7700, 200, 'foot of the descent')
    runs.slice(1).forEach(({ first }, k) => expect(first).toBe(runs[k]!.last))
    expect(runs[0]!.first).toBe(0)
    expect(runs.at(-1)!.last).toBe(route.stations.distance.length - 1)
  })

  it.each([
    ['as steep as 1.5 % over 500 m', [3000, 0.0151], true],
    ['less steep', [3000, 0.0149], false],
    ['20 m high', [670, 0.03], true],
    ['lower', [660, 0.03], false],
    ['600 m long', [360, 0.06], true],
    ['shorter, by the 125 m to either side that 500 m at 1.5 % take in', [340, 0.06], false],
  ] as const)('are such where %s', (_, [length, gradient], found) => {
    for (const [terrain, sign] of [
      ['climb', 1],
      ['descent', -1],
    ] as const) {
      const runs = all(courseRoute(pieces([3000, 0], [length, sign * gradient], [3000, 0])))
      expect(runs.map(({ terrain }) => terrain)).toEqual(found ? ['rolling', terrain, 'rolling'] : ['rolling'])
    }
  })

  it('meet at the top where a crest between them is short, and not where it is long', () => {
    const over = (crest: number) =>
      all(
        courseRoute(pieces([2000, 0], [2000, 0.04], [crest / 2, 0.004], [crest / 2, -0.004], [2000, -0.04], [2000, 0])),
      )
    const short = over(600)
    expect(short.map(({ terrain }) => terrain)).toEqual(['rolling', 'climb', 'descent', 'rolling'])
    expect([short[1]!.last, short[2]!.first]).toEqual([430, 430])
    expect(over(1200).map(({ terrain }) => terrain)).toEqual(['rolling', 'climb', 'rolling', 'descent', 'rolling'])
    const trough = all(
      courseRoute(pieces([2000, 0], [2000, -0.04], [300, -0.004], [300, 0.004], [2000, 0.04], [2000, 0])),
    )
    expect(trough.map(({ terrain }) => terrain)).toEqual(['rolling', 'descent', 'climb', 'rolling'])
    expect([trough[1]!.last, trough[2]!.first]).toEqual([430, 430])
  })

  it('keep a flat of 300 m at an end of the section, and one of 600 m between two climbs', () => {
    const kinds = (...parts: Parameters<typeof pieces>) =>
      all(courseRoute(pieces(...parts))).map(({ terrain }) => terrain)
    // At 5 % the run of a climb begins 100 m before it.
    expect(kinds([410, 0], [2000, 0.05], [410, 0])).toEqual(['rolling', 'climb', 'rolling'])
    expect(kinds([390, 0], [2000, 0.05], [390, 0])).toEqual(['climb'])
    expect(kinds([2000, 0.05], [780, 0], [2000, 0.05])).toEqual(['climb'])
    expect(kinds([2000, 0.05], [820, 0], [2000, 0.05])).toEqual(['climb', 'rolling', 'climb'])
  })

  it('are the same in the leg table and in what is told of climbs', () => {
    const plan = plainPlan((plan) => {
      plan.legs.by = 'terrain'
      plan.assist.ratio = plan.assist.climbRatio = 1
    })
    const outcome = rideOver(hills, plan)
    const capacity = { criticalPower: 1000, wPrime: 15_000 }
    const [climb, none] = climbsOf(outcome, capacity, wBalance(outcome, capacity))
    expect(none).toBeUndefined()
    const leg = legsOf(outcome).find(({ terrain }) => terrain === 'climb')!
    expect(leg).toMatchObject({ first: climb!.first, last: climb!.last, ascent: climb!.ascent })
  })

  it('lose a piece too short at either end of the section to its neighbour', () => {
    const runs = all(courseRoute(pieces([300, 0], [2000, 0.05], [300, 0])))
    expect(runs.map(({ terrain }) => terrain)).toEqual(['climb'])
    expect(runs[0]).toMatchObject({ first: 0, last: 260 })
  })
})

describe('what the climbs ask for', () => {
  it('is m g h of all ascent, as the forecast books it on a road that only climbs', () => {
    const plan = plainPlan(({ kit }) => {
      kit.push({
        id: 'k',
        name: 'Water',
        mass: 3,
        count: 1,
        place: 'bike',
        mark: 'comes',
        use: { by: 'distance', rate: 3 / 8000 },
      })
    })
    const up = rideOver(pieces([1000, 0], [6000, 0.03], [1000, 0.01]), plan)
    near(liftingOf(up).work / up.books.climbing, 1, 1e-9)
    const wave = rideOver(pieces([2000, 0.02], [2000, -0.02], [4000, 0]), plan)
    near(liftingOf(wave).work / (liftingOf(wave).mass * 9.806 * 40), 1, 1e-3)
    near(liftingOf(wave).mass, totalMass(plan) - 1.5, 0.01, 'half of the water is drunk half-way')
  })
})

describe('ascent between stations', () => {
  it('sums rises and falls apart, and counts nothing over a crossing', () => {
    const elevation = Float64Array.from([0, 10, 5, 200, 203])
    const distance = Float64Array.from([0, 10, 20, 20, 30])
    expect(ascentBetween({ distance, elevation }, 0, 4)).toEqual({ ascent: 13, descent: 5 })
    expect(ascentBetween({ distance, elevation }, 1, 2)).toEqual({ ascent: 0, descent: 5 })
    expect(ascentBetween({ distance, elevation }, 2, 2)).toEqual({ ascent: 0, descent: 0 })
  })
})
