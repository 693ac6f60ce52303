import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rideOver } from '../rides'
import { anyRide } from './any-ride'
import { violations } from './violations'

const seed = 20270619
/** The catalogue allows packs of 0.4 Ah and steps of 40 m, of which a few empty them. */
const smallPacksShare = 0.01

describe('any plan within the catalogue’s bounds on any course', () => {
  it(`obeys the laws of every ride, seed ${seed}`, () => {
    fc.assert(
      fc.property(anyRide, ({ course, plan }) => {
        expect(violations(rideOver(course, plan), smallPacksShare)).toEqual([])
      }),
      { seed, numRuns: 400 },
    )
  })

  it(`gives the same bits twice, seed ${seed}`, () => {
    fc.assert(
      fc.property(anyRide, ({ course, plan }) => {
        const [one, other] = [rideOver(course, plan), rideOver(course, structuredClone(plan))]
        expect(other.columns).toEqual(one.columns)
        expect(other.books).toEqual(one.books)
      }),
      { seed, numRuns: 20 },
    )
  })
})
