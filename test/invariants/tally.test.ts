import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { forecast } from '../../src/model/forecast/forecast'
import { leftAtFinish } from '../../src/model/forecast/outcome'
import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import { simulate } from '../../src/model/forecast/simulate'
import { startState } from '../../src/model/forecast/start'
import { Tally } from '../../src/model/forecast/tally'
import { courseRoute } from '../routes'
import { anyRide } from './any-ride'

const seed = 20270621

describe('a tally says of a ride what its outcome says', () => {
  it(`to the bit, from the start and from half-way, with one ride used again, seed ${seed}`, () => {
    let halted = 0
    fc.assert(
      fc.property(anyRide, ({ course, plan }) => {
        const route = courseRoute(course)
        const outcome = simulate(route, plan)
        const { columns, halts } = outcome
        const last = columns.time.length - 1
        const stations = [...new Set([0, ...halts.map(({ station }) => station), last >> 1, last])].sort(
          (a, b) => a - b,
        )
        const of = () => new Float64Array(stations.length)
        const tally = new Tally(stations, of(), of(), of())
        const prepared = prepare(route, plan)
        const ride = new Ride(prepared)
        const start = startState(prepared)
        const half = forecast(prepared, start, { station: last >> 1, leaving: false }, new Tally([], of(), of(), of()))
        for (const from of [start, half, start]) {
          tally.run(prepared, ride, from)
          expect(tally.time).toBe(halts.findLast(({ station }) => station === last)?.depart ?? columns.time[last])
          expect(tally.ridingTime).toBe(columns.ridingTime[last])
          expect(tally.riderWork).toBe(columns.riderWork[last])
          expect(tally.drained).toBe(columns.drained[last])
          expect(tally.left).toBe(leftAtFinish(outcome))
          const seen = columns.left.subarray(from.station)
          expect(tally.least).toBe(seen.reduce((least, left) => Math.min(least, left), Infinity))
          expect(tally.leastAt).toBe(from.station + seen.indexOf(tally.least))
          stations.forEach((station, k) => {
            expect(tally.arriveTime[k]).toBe(columns.time[station])
            expect(tally.charge[k]).toBe(columns.left[station])
            expect(tally.departTime[k]).toBe(
              halts.findLast((halt) => halt.station === station)?.depart ?? columns.time[station],
            )
          })
          halted += halts.length
        }
      }),
      { seed, numRuns: 60 },
    )
    expect(halted).toBeGreaterThan(50)
  })
})
