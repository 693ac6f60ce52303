import { describe, expect, it } from 'vitest'
import { reachAtStop } from '../../src/model/readings/reach'
import { simulate } from '../../src/model/forecast/simulate'
import { stationNear } from '../../src/model/route/nearest'
import { walking } from '../../src/model/ride/motion'
import { near } from '../asserts'
import { variants } from './plans'
import { sampleNames, sampleRoute } from './samples'
import { violations } from './violations'

const routes = await Promise.all(sampleNames.map(async (name) => ({ name, route: await sampleRoute(name) })))
const outcomes = routes.flatMap(({ name, route }) =>
  Object.entries(variants).map(([variant, plan]) => ({ name, variant, outcome: simulate(route, plan(route.length)) })),
)

describe('the laws of every ride hold', () => {
  it.each(outcomes.map((one) => [one.name, one.variant, one.outcome] as const))(
    '%s, %s',
    (_name, _variant, outcome) => {
      expect(violations(outcome)).toEqual([])
    },
  )
})

describe('the variants reach what they are for', () => {
  const some = (variant: string, holds: (outcome: (typeof outcomes)[number]['outcome']) => boolean) =>
    outcomes.filter((one) => one.variant === variant).some(({ outcome }) => holds(outcome))

  it('walking, running empty, a weak pack, swaps, a crossing, charging by time and by charge', () => {
    expect(some('too heavy for the hills', ({ columns }) => columns.state.some((bits) => (bits & walking) !== 0))).toBe(
      true,
    )
    expect(some('one weak old cold pack', ({ emptyAt }) => emptyAt !== undefined)).toBe(true)
    expect(some('one weak old cold pack', ({ packLimited }) => packLimited > 0)).toBe(true)
    expect(
      some('four small packs to swap', ({ halts }) => halts.filter(({ kind }) => kind === 'swap').length === 3),
    ).toBe(true)
    expect(some('default', ({ halts }) => halts.some(({ kind }) => kind === 'crossing'))).toBe(true)
    expect(some('no assist', ({ books }) => books.motorWork === 0)).toBe(true)
    const charged = (stop: string) =>
      some('three stops with charges', ({ halts }) =>
        halts.some((halt) => halt.stop === stop && halt.charges.length > 0),
      )
    expect(['stop-1', 'stop-2', 'stop-3'].filter(charged)).toHaveLength(3)
  })
})

describe('reach from a stop without its charge is that of a plan without it', () => {
  const plan = variants['three stops with charges']!
  const pairs = routes.flatMap(({ name, route }) =>
    plan(route.length).stops.map((stop) => ({ name, route, stop: stop.name, id: stop.id, distance: stop.distance })),
  )
  it.each(pairs)('$name, $stop: within 1 % of the length', ({ route, id, distance }) => {
    const whole = plan(route.length)
    const without = {
      ...whole,
      stops: whole.stops.map((stop) => (stop.id === id ? { ...stop, source: null, goal: 'duration' as const } : stop)),
    }
    const station = stationNear(route, distance)
    const { before } = reachAtStop(simulate(route, whole), station)
    const full = simulate(route, without)
    const at = full.reserveAt
    const expected = at === undefined ? route.length : Math.max(at, route.stations.distance[station]!)
    near(before.until ?? route.length, expected, 0.01 * route.length, 'reach')
  })
})
