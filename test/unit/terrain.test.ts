import { describe, expect, it } from 'vitest'
import { climbsOf } from '../../src/model/readings/climbs'
import { legsOf } from '../../src/model/readings/legs'
import { wBalance } from '../../src/model/readings/rider'
import { terrainRuns } from '../../src/model/readings/terrain'
import { ascentBetween } from '../../src/model/route/ascent'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { courseRoute, type Course } from '../routes'

/** A course from lengths, m, and gradients. */
const pieces = (...parts: [length: number, gradient: number][]): Course => ({
  length: parts.reduce((sum, [length]) => sum + length, 0),
  elevation: (d) =>
    parts.reduce(
      ([at, height], [length, gradient]): [number, number] => [
        at + length,
        height + gradient * Math.min(length, Math.max(0, d - at)),
      ],
      [0, 100],
    )[1],
})
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

describe('ascent between stations', () => {
  it('sums rises and falls apart, and counts nothing over a crossing', () => {
    const elevation = Float64Array.from([0, 10, 5, 200, 203])
    const distance = Float64Array.from([0, 10, 20, 20, 30])
    expect(ascentBetween({ distance, elevation }, 0, 4)).toEqual({ ascent: 13, descent: 5 })
    expect(ascentBetween({ distance, elevation }, 1, 2)).toEqual({ ascent: 0, descent: 5 })
    expect(ascentBetween({ distance, elevation }, 2, 2)).toEqual({ ascent: 0, descent: 0 })
  })
})
