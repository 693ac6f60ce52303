import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { addStretch, changeStretch, moveStretchEnd } from '../../src/model/plan/edit-stretches'
import type { Plan, PlanStretch } from '../../src/model/plan/schema'
import { freeStretch, shortestStretch } from '../../src/model/plan/stretches'
import { stretchesOnWay } from '../../src/model/readings/stretches'
import { kilometresPerHour } from '../../src/model/units'
import { wordsIn } from '../../src/view/words/words'
import { courseRoute } from '../routes'

const length = 60_000
const marked = (...spans: readonly (readonly [number, number])[]): Plan =>
  spans.reduce((plan, [start, end]) => addStretch(plan, start, end).plan, defaultPlan())
const ends = ({ stretches }: Plan) => stretches.map(({ start, end }) => [start, end])

describe('an end of a stretch that is moved', () => {
  const plan = marked([10_000, 20_000], [30_000, 40_000], [50_000, 55_000])
  const moved = (end: 'start' | 'end', to: number) =>
    ends(moveStretchEnd(plan, 'stretch-2', end, to, length))[1]!.map((at) => Math.round(at))

  it('goes where it is led', () => {
    expect(moved('start', 25_000)).toEqual([25_000, 40_000])
    expect(moved('end', 33_000)).toEqual([30_000, 33_000])
  })

  it('stops at the neighbours, which it may touch', () => {
    expect(moved('start', 5000)).toEqual([20_000, 40_000])
    expect(moved('end', 90_000)).toEqual([30_000, 50_000])
  })

  it('stops before its other end', () => {
    expect(moved('start', 41_000)).toEqual([40_000 - shortestStretch, 40_000])
    expect(moved('end', -Infinity)).toEqual([30_000, 30_000 + shortestStretch])
  })

  it('stops at both ends of the route', () => {
    const alone = marked([30_000, 40_000])
    expect(ends(moveStretchEnd(alone, 'stretch-1', 'start', -Infinity, length))).toEqual([[0, 40_000]])
    expect(ends(moveStretchEnd(alone, 'stretch-1', 'end', Infinity, length))).toEqual([[30_000, length]])
  })

  it('between neighbours with less room than a hand can mark stays as it is', () => {
    const tight = marked([0, 1000], [1000, 1005], [1005, 2000])
    expect(moveStretchEnd(tight, 'stretch-2', 'end', 1500, length)).toBe(tight)
    expect(moveStretchEnd(tight, 'stretch-2', 'start', 0, length)).toBe(tight)
  })
})

describe('where a new stretch is laid', () => {
  const free = (plan: Plan, at: number | undefined) => freeStretch(plan.stretches, at, length)

  it('is from the place on, up to the next', () => {
    expect(free(marked(), 10_000)).toEqual({ start: 10_000, end: 15_000 })
    expect(free(marked([12_000, 20_000]), 10_000)).toEqual({ start: 10_000, end: 12_000 })
  })

  it('ends where the free part does, if the place is close before that', () => {
    expect(free(marked(), length)).toEqual({ start: length - 5000, end: length })
    expect(free(marked([12_000, 20_000]), 11_950)).toEqual({ start: 7000, end: 12_000 })
  })

  it('is else in the middle of the longest free part, and nowhere where all is taken', () => {
    expect(free(marked([20_000, 30_000]), 25_000)).toEqual({ start: 42_500, end: 47_500 })
    expect(free(marked([0, 30_050], [30_100, 60_000]), undefined)).toBeUndefined()
  })
})

describe('the stretches of a day', () => {
  const route = courseRoute({ length, crossings: [48_000] })
  route.waypoints = [{ name: 'Ford', latitude: 0, longitude: 0, distance: 30_100 }]
  const own = (plan: Plan, id: string, change: Partial<PlanStretch>) => changeStretch(plan, id, change)
  const sentences = (plan: Plan, units: 'metric' | 'imperial' = 'metric') =>
    stretchesOnWay(simulate(route, plan)).map(wordsIn(units).stretches.sentence)

  const plan = own(
    own(
      own(
        own(marked([0, 20_000], [20_000, 30_000], [41_000, 48_050], [55_000, 70_000], [50_000, 51_000]), 'stretch-1', {
          surface: 'rough asphalt',
        }),
        'stretch-2',
        { surface: 'gravel', speedLimit: 15 * kilometresPerHour },
      ),
      'stretch-3',
      { name: 'Canal', shelter: 0.4 },
    ),
    'stretch-4',
    { assistRatio: 0 },
  )
  plan.stops = [defaultStop('stop-1', 'the mill', 20_100, null)]

  it('are said from place to place, those without anything of their own not at all', () => {
    expect(sentences(plan)).toEqual([
      'Rough asphalt from the start to the mill.',
      'Gravel, no faster than 15.0 km/h from the mill to Ford.',
      'Canal: 40 % of the wind from km 41.0 to crossing 1.',
      'Assist 0 % from km 55.0 to the finish.',
    ])
  })

  it('are said in miles', () => {
    expect(sentences(plan, 'imperial')[2]).toBe('Canal: 40 % of the wind from mile 25.5 to crossing 1.')
  })

  it('that lie all at one place are said by distance, those beyond the finish not at all', () => {
    const short = own(
      own(marked([20_000, 20_200], [61_000, 62_000]), 'stretch-1', { surface: 'cobbles' }),
      'stretch-2',
      {
        surface: 'gravel',
      },
    )
    short.stops = plan.stops
    expect(sentences(short)).toEqual(['Cobbles from km 20.0 to km 20.2.'])
  })

  it('have a title and a span', () => {
    const { title, span } = wordsIn('metric').stretches
    expect(plan.stretches.map(title)).toEqual([
      'Rough asphalt',
      'Gravel, no faster than 15.0 km/h',
      'Canal',
      'Nothing of its own yet',
      'Assist 0 %',
    ])
    expect(span(plan.stretches[2]!)).toBe('km 41.0 to 48.1')
  })
})
