import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { forecast } from '../../src/model/forecast/forecast'
import { Frames } from '../../src/model/forecast/frames'
import type { Halt, OutcomeColumns } from '../../src/model/forecast/outcome'
import { prepare, type Prepared } from '../../src/model/forecast/prepare'
import { ColumnsSink, emptyColumns } from '../../src/model/forecast/columns-sink'
import { simulate } from '../../src/model/forecast/simulate'
import { startState } from '../../src/model/forecast/start'
import type { RideState } from '../../src/model/forecast/state'
import { changeStop } from '../../src/model/plan/edit'
import { courseRoute } from '../routes'
import { anyRide } from './any-ride'

const seed = 20270620

interface Ridden {
  columns: OutcomeColumns
  halts: Halt[]
  state: RideState
}

/** The whole ride, in parts that end at the given places, each begun from what `carry` makes of the state before. */
function inParts(
  prepared: Prepared,
  cuts: { station: number; leaving: boolean }[],
  carry: (state: RideState) => RideState,
): Ridden {
  const last = prepared.limits.length - 1
  const sink = new ColumnsSink(emptyColumns(last + 1))
  let state = startState(prepared)
  for (const until of [...cuts, { station: last, leaving: true }]) state = forecast(prepared, carry(state), until, sink)
  return { columns: sink.columns, halts: sink.halts, state }
}

const carries: [string, (state: RideState) => RideState][] = [
  ['as it is', (state) => state],
  ['cloned', (state) => structuredClone(state)],
  ['as JSON', (state) => JSON.parse(JSON.stringify(state)) as RideState],
]

describe('a ride cut anywhere and continued is the uncut ride to the bit', () => {
  it.each(carries)(`the state carried on %s, seed ${seed}`, (_, carry) => {
    let halted = 0
    let swapped = 0
    fc.assert(
      fc.property(
        anyRide,
        fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.boolean()), { minLength: 1, maxLength: 4 }),
        ({ course, plan }, places) => {
          const route = courseRoute(course)
          const prepared = prepare(route, plan)
          const last = prepared.limits.length - 1
          const whole = inParts(prepared, [], carry)
          const stations = [
            ...places.map(([share]) => Math.round(share * last)),
            ...whole.halts.map(({ station }) => station),
          ]
          const cuts = stations
            .flatMap((station, k) =>
              k < places.length
                ? [{ station, leaving: places[k]![1] }]
                : [
                    { station, leaving: false },
                    { station, leaving: true },
                  ],
            )
            .sort((a, b) => a.station - b.station || Number(a.leaving) - Number(b.leaving))
          const cut = inParts(prepared, cuts, carry)
          expect(cut.columns).toEqual(whole.columns)
          expect(cut.halts).toEqual(whole.halts)
          expect(cut.state).toEqual(whole.state)
          halted += whole.halts.length
          swapped += whole.halts.filter(({ swap }) => swap !== undefined).length
        },
      ),
      { seed, numRuns: 60 },
    )
    expect(halted).toBeGreaterThan(50)
    expect(swapped).toBeGreaterThan(5)
  })

  it('is what simulate gives', () => {
    fc.assert(
      fc.property(anyRide, ({ course, plan }) => {
        const route = courseRoute(course)
        const { columns, halts } = simulate(route, plan)
        const parts = inParts(prepare(route, plan), [], (state) => state)
        expect(parts.columns).toEqual(columns)
        expect(parts.halts).toEqual(halts)
      }),
      { seed, numRuns: 20 },
    )
  })
})

describe('a gesture that moves a stop to and fro', () => {
  it(`gives at each place what the whole ride gives, to the bit, seed ${seed}`, () => {
    let moved = 0
    fc.assert(
      fc.property(
        anyRide,
        fc.array(fc.tuple(fc.nat(), fc.double({ min: 0, max: 1, noNaN: true })), { minLength: 3, maxLength: 8 }),
        ({ course, plan: first }, moves) => {
          const route = courseRoute(course)
          const frames = new Frames()
          let plan = first
          for (const [k, share] of moves) {
            const stop = plan.stops[k % Math.max(1, plan.stops.length)]
            if (stop !== undefined) plan = changeStop(plan, stop.id, { distance: share * route.length })
            const whole = simulate(route, plan)
            expect(frames.next(route, plan, [])).toEqual(whole)
            moved += plan.stops.length > 0 ? 1 : 0
          }
        },
      ),
      { seed, numRuns: 60 },
    )
    expect(moved).toBeGreaterThan(100)
  })
})
