import { describe, expect, it } from 'vitest'
import type { Outcome } from '../../src/model/forecast/outcome'
import { rideOver } from '../rides'
import { variants } from './plans'
import { violations } from './violations'

const course = {
  length: 12_000,
  elevation: (d: number) => 40 * Math.sin(d / 800) + 5 * Math.sin(d / 130),
  curvature: (d: number) => (d % 3000 < 50 ? 1 / 15 : 0),
  crossings: [7000],
}
const sound = () => rideOver(course, variants['three stops with charges']!(course.length))

/** What is spoilt, and what must be said of it. */
const spoilt: [string, RegExp, (outcome: Outcome) => void][] = [
  ['a NaN', /speed is no number/, ({ columns }) => (columns.speed[40] = NaN)],
  ['work from nowhere', /books are off/, ({ books }) => (books.riderWork *= 1.001)],
  ['a loss left out', /electric books are off/, ({ electric }) => (electric.packLoss = 0)],
  ['a clock that stands', /time stands still/, ({ columns }) => (columns.time[41] = columns.time[40]!)],
  ['a halt not counted', /time is not riding and halts/, ({ halts }) => halts.splice(0, 1)],
  ['a speed above the cap', /speed passes its cap/, ({ columns }) => (columns.speed[40] = 12)],
  ['a bend taken at full speed', /a bend is too fast/, ({ columns }) => (columns.speed[302] = 8)],
  ['a stop ridden through', /no standstill/, ({ columns, halts }) => (columns.speed[halts[0]!.station] = 3)],
  [
    'a motor above its limit',
    /motor above the legal limit/,
    ({ columns }) => {
      columns.speed.fill(7, 30, 40)
      columns.motorWork.fill(columns.motorWork[35]!, 30, 36)
      columns.motorWork.fill(columns.motorWork[35]! + 200, 36)
    },
  ],
  [
    'a motor of 600 W',
    /motor passes its peak/,
    ({ columns }) => columns.motorWork.fill(columns.motorWork[40]! + 2000, 41),
  ],
  [
    'a motor without the rider',
    /more than its share/,
    ({ columns }) => (columns.riderWork[41] = columns.riderWork[40]!),
  ],
  ['a charge from nowhere', /charge rises by itself/, ({ columns }) => (columns.left[41] = columns.left[40]! + 100)],
  ['a charge below nothing', /charge is out of bounds/, ({ columns }) => (columns.left[1000] = -1)],
  ['a drain that falls', /drained falls/, ({ columns }) => (columns.drained[40] = columns.drained[42]! + 1)],
  ['a reserve that is elsewhere', /the reserve is reached at/, (outcome) => (outcome.reserveAt = 5000)],
  ['a route longer than its legs', /not the length of the route/, ({ route }) => (route.length += 1)],
]

describe('violations', () => {
  it('finds none in a sound ride', () => {
    expect(violations(sound())).toEqual([])
  })
  it.each(spoilt)('finds %s', (_, sentence, spoil) => {
    const outcome = sound()
    spoil(outcome)
    expect(violations(outcome).join('\n')).toMatch(sentence)
  })
})
