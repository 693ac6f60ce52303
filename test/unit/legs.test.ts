import { describe, expect, it } from 'vitest'
import type { Halt } from '../../src/model/forecast/outcome'
import { defaultMains, defaultPack, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { readingAt } from '../../src/model/readings/at'
import { drainAlong, meanDrain } from '../../src/model/readings/drain'
import { factsOf, timesOf } from '../../src/model/readings/facts'
import { legNotes } from '../../src/model/readings/leg-notes'
import { legsOf, totalsBetween } from '../../src/model/readings/legs'
import { windBetween, windRose } from '../../src/model/readings/wind'
import { near, within } from '../asserts'
import { hourly, plainPlan, rideOver } from '../rides'
import { pieces, type Course } from '../routes'

const assisted = (change: (plan: Plan) => void = () => {}) =>
  plainPlan((plan) => {
    plan.assist.ratio = plan.assist.climbRatio = 1
    plan.legs.length = 10_000
    change(plan)
  })
const stop = (name: string, distance: number) => defaultStop(`stop-${distance}`, name, distance, null)

describe('legs by length', () => {
  const ends = (course: Course, change: (plan: Plan) => void = () => {}) =>
    legsOf(rideOver(course, assisted(change))).map(({ end }) => end)

  it('end at each multiple of it, but none shorter than a twentieth at either end', () => {
    expect(ends({ length: 30_500 })).toEqual([10_000, 20_000, 30_500])
    expect(ends({ length: 30_510 })).toEqual([10_000, 20_000, 30_000, 30_510])
    expect(ends({ length: 40_000, crossings: [9500] })).toEqual([9500, 20_000, 30_000, 40_000])
    expect(ends({ length: 40_000, crossings: [9490] })).toEqual([9490, 10_000, 20_000, 30_000, 40_000])
    expect(ends({ length: 40_000, crossings: [20_490] })).toEqual([10_000, 20_490, 30_000, 40_000])
  })

  it('end at stops too, which name them; one without a name, or at an end of the road, does not', () => {
    const legs = legsOf(
      rideOver(
        { length: 30_000, crossings: [15_000] },
        assisted((plan) => (plan.stops = [stop('Inn', 4000), stop('', 24_000), stop('Start', 0), stop('End', 30_000)])),
      ),
    )
    expect(legs.map(({ from, to }) => [from, to])).toEqual([
      [{ code: 'start' }, { code: 'given', name: 'Inn' }],
      [
        { code: 'given', name: 'Inn' },
        { code: 'at', distance: 10_000 },
      ],
      [
        { code: 'at', distance: 10_000 },
        { code: 'crossing', number: 1 },
      ],
      [
        { code: 'afterCrossing', number: 1 },
        { code: 'at', distance: 20_000 },
      ],
      [
        { code: 'at', distance: 20_000 },
        { code: 'at', distance: 24_000 },
      ],
      [{ code: 'at', distance: 24_000 }, { code: 'finish' }],
    ])
    expect(legs.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6])
    expect(legs.map(({ terrain }) => terrain)).toEqual(Array(6).fill(undefined))
  })

  it('tell the halts at their end and on the way, and when one leaves', () => {
    const outcome = rideOver(
      { length: 30_000 },
      assisted((plan) => (plan.stops = [{ ...stop('Inn', 15_000), duration: 600 }])),
    )
    const legs = legsOf(outcome)
    expect(legs.map(({ halts }) => halts.map((halt) => halt.stop))).toEqual([[], ['stop-15000'], [], []])
    near(legs[1]!.depart - legs[1]!.arrive, 600, 1e-9)
    expect(legs[0]!.depart).toBe(legs[0]!.arrive)
  })

  it('add up to the ride, each with the sums between its ends', () => {
    const outcome = rideOver(
      pieces([6000, 0.02], [6000, -0.03], [13_000, 0.01]),
      assisted((plan) => (plan.stops = [stop('Inn', 8000)])),
    )
    const legs = legsOf(outcome)
    const sum = (of: (leg: (typeof legs)[number]) => number) => legs.reduce((total, leg) => total + of(leg), 0)
    near(
      sum(({ length }) => length),
      25_000,
      1e-6,
    )
    near(
      sum(({ ascent }) => ascent),
      6000 * 0.02 + 13_000 * 0.01,
      1e-6,
    )
    near(
      sum(({ descent }) => descent),
      6000 * 0.03,
      1e-6,
    )
    within(
      sum(({ riderWork }) => riderWork),
      outcome.books.riderWork,
      1e-12,
    )
    within(
      sum(({ motorWork }) => motorWork),
      outcome.books.motorWork,
      1e-12,
    )
    within(
      sum(({ drained }) => drained),
      outcome.electric.drained,
      1e-12,
    )
    for (const { length, ridingTime, meanSpeed, drained, drain, leftAtStart, leftAtEnd } of legs) {
      within(meanSpeed * ridingTime, length, 1e-12)
      within(drain * length, drained, 1e-12)
      within(leftAtStart - leftAtEnd, drained, 1e-9)
    }
    // The first 6 km rise and the next 2 km fall.
    near(legs[0]!.meanGradient, (6000 * 0.02 - 2000 * 0.03) / 8000, 1e-9)
    near(legs[0]!.steepestGradient, -0.03, 1e-9)
    expect(totalsBetween(outcome, 5, 5)).toMatchObject({ length: 0, meanSpeed: 0, drain: 0 })
  })

  it('have the steepest 100 m, up or down, however the gradient changes within it', () => {
    const steepest = (...parts: Parameters<typeof pieces>) =>
      legsOf(rideOver(pieces(...parts), assisted())).map(({ steepestGradient }) => steepestGradient)
    near(steepest([1000, 0], [50, 0.2], [1000, 0])[0]!, 0.1, 1e-9)
    near(steepest([1000, 0.01], [100, -0.08], [1000, 0.02])[0]!, -0.08, 1e-9)
    near(steepest([1000, 0], [60, 0.1])[0]!, 0.06, 1e-9)
    near(steepest([60, 0.1])[0]!, 0.1, 1e-9)
    expect(steepest([1000, 0])).toEqual([0])
  })
})

describe('what is worth saying of a leg', () => {
  const notes = (course: Course, change: (plan: Plan) => void) => {
    const outcome = rideOver(course, assisted(change))
    return { outcome, notes: legsOf(outcome).map((leg) => legNotes(outcome, leg)) }
  }

  it('is each halt in order, with its time and what it charged', () => {
    const { outcome, notes: said } = notes({ length: 40_000, crossings: [25_000] }, (plan) => {
      plan.start = '2027-06-19T06:00'
      plan.sources = [defaultMains('source-1', 'Socket')]
      plan.stops = [{ ...stop('Inn', 10_000), source: 'source-1', duration: 900 }]
      plan.controls = [
        { id: 'c1', name: 'Gate', distance: 20_000, opens: { by: 'clock', time: '10:00', day: 0 }, closes: null },
        { id: 'c2', name: 'Ford', distance: 30_000, opens: null, closes: null },
      ] as Plan['controls']
      plan.crossings = [{ timetable: { kind: 'duration', duration: 1200 }, source: null, fillFirst: 'most' }]
    })
    const [inn, gate] = outcome.halts
    expect(said).toEqual([
      [{ code: 'stop', stop: 'Inn', time: inn!.depart - inn!.arrive, added: inn!.leftAfter - inn!.leftBefore }],
      [{ code: 'untilOpen', control: 'Gate', time: gate!.depart - gate!.arrive }],
      [{ code: 'crossing', time: expect.closeTo(1200, 6) as number, added: 0 }],
      [],
      [],
    ])
    near(inn!.depart - inn!.arrive, 900, 1e-9)
    expect(inn!.leftAfter).toBeGreaterThan(inn!.leftBefore + 1000)
    near(gate!.depart, 4 * 3600, 1e-6)
  })

  it('is where the reserve is reached, the motor stops and a pack is changed', () => {
    const small = (battery: Plan['battery'], packs: number) => {
      battery.packs = Array.from({ length: packs }, (_, k) => ({
        ...defaultPack(`pack-${k + 1}`, 'Small'),
        capacityAh: 2.5,
      }))
    }
    const { outcome, notes: said } = notes({ length: 60_000 }, ({ battery }) => small(battery, 2))
    const legOf = (at: number) => Math.ceil(at / 10_000) - 1
    const swap = outcome.halts.find(({ kind }) => kind === 'swap')!
    expect(outcome.emptyAt).toBeLessThan(60_000)
    expect(said[legOf(outcome.emptyAt!)]).toContainEqual({ code: 'motorOff', at: outcome.emptyAt })
    expect(said[legOf(outcome.reserveAt!)]).toContainEqual({ code: 'reserveReached', at: outcome.reserveAt })
    expect(said[legOf(swap.distance)]).toContainEqual({ code: 'nextPack', at: swap.distance })
    expect(said.flat()).toHaveLength(3)
  })

  it('is why one walks, and why a stop did not charge', () => {
    const { notes: said } = notes(pieces([3000, 0], [300, 0.25], [3000, 0]), (plan) => {
      plan.sources = [{ ...defaultMains('source-1', 'Too high'), voltage: 58.8 }]
      plan.stops = [{ ...stop('Inn', 3000), source: 'source-1' }]
    })
    expect(said[0]!.map(({ code }) => code)).toEqual(['stop', 'notCharged'])
    expect(said[1]).toEqual([{ code: 'walking', cause: 'tooSteep' }])
  })
})

describe('a reading of a place', () => {
  const outcome = rideOver(
    pieces([10_000, 0], [2000, 0.03], [8000, -0.005]),
    assisted((plan) => {
      plan.sources = [defaultMains('source-1', 'Socket')]
      plan.stops = [{ ...stop('Inn', 5000), source: 'source-1', duration: 1800 }]
    }),
  )
  const { columns, route } = outcome
  const last = route.stations.distance.length - 1

  it('is at the finish, and beyond it, what the last step brought', () => {
    const finish = readingAt(outcome, 20_000)
    expect(finish).toMatchObject({
      distance: 20_000,
      speed: 0,
      time: columns.time[last],
      left: columns.left[last],
      drained: columns.drained[last],
      elevation: route.stations.elevation[last],
      gradient: route.stations.gradient[last - 1],
    })
    near(finish.gradient, -0.005, 1e-9)
    const power = (column: Float64Array) =>
      (column[last]! - column[last - 1]!) / (columns.ridingTime[last]! - columns.ridingTime[last - 1]!)
    near(finish.riderPower, power(columns.riderWork), 1e-9)
    near(finish.motorPower, power(columns.motorWork), 1e-9)
    near(finish.drain, (columns.drained[last]! - columns.drained[last - 1]!) / 10, 1e-9)
    expect(readingAt(outcome, 99_999)).toEqual(finish)
    expect(readingAt(outcome, -5)).toEqual(readingAt(outcome, 0))
  })

  it('is half-way between two stations the mean of what is continuous, and the power of the step', () => {
    const at = 1100
    const [low, high] = [columns.speed[at]!, columns.speed[at + 1]!]
    const reading = readingAt(outcome, 11_005)
    near(reading.speed, (low + high) / 2, 1e-9)
    near(reading.time, (columns.time[at]! + columns.time[at + 1]!) / 2, 1e-9)
    near(reading.left, (columns.left[at]! + columns.left[at + 1]!) / 2, 1e-6)
    near(reading.elevation, route.stations.elevation[at]! + 0.15, 1e-9)
    near(reading.drain, (columns.drained[at + 1]! - columns.drained[at]!) / 10, 1e-9)
    expect(reading.motorPower).toBeGreaterThan(10)
  })

  it('is at a halt that on arrival, and right behind it that on leaving', () => {
    const [halt] = outcome.halts as [Halt]
    expect(readingAt(outcome, 5000)).toMatchObject({ time: halt.arrive, left: halt.leftBefore })
    near(readingAt(outcome, 5000 + 1e-6).time, halt.depart, 1e-3)
    near(readingAt(outcome, 5000 + 1e-6).left, halt.leftAfter, 1)
    near(readingAt(outcome, 5005).left, (halt.leftAfter + columns.left[501]!) / 2, 1e-6)
    near(readingAt(outcome, 8005).left, (columns.left[800]! + columns.left[801]!) / 2, 1e-6)
  })
})

describe('drain along a ride', () => {
  const outcome = rideOver({ ...pieces([5000, 0], [5000, 0.02]), crossings: [3000] }, assisted())
  const { distance } = outcome.route.stations
  const { drained } = outcome.columns

  it('is what the packs gave over the stretch around a place, by its length, and stays on its side of a crossing', () => {
    const along = drainAlong(outcome, 400)
    const at = (place: number) => distance.indexOf(place)
    const mean = (from: number, to: number) => (drained[to]! - drained[from]!) / (distance[to]! - distance[from]!)
    // The columns are of single precision.
    within(along[at(7000)]!, mean(at(6800), at(7200)), 1e-6)
    within(along[at(0)]!, mean(0, at(200)), 1e-6)
    within(along[at(2950)]!, mean(at(2750), at(3000)), 1e-6)
    within(along[at(3000) + 1]!, mean(at(3000) + 1, at(3200)), 1e-6)
    within(along.at(-1)!, mean(at(9800), at(10_000)), 1e-6)
    within(meanDrain(outcome), outcome.electric.drained / 10_000, 1e-12)
    within(drainAlong(outcome, 1e6)[at(9000)]!, mean(at(3000) + 1, at(10_000)), 1e-6)
  })
})

describe('the wind over a ride', () => {
  it('is told by the sixteen directions that a road can have, a sector reaching 11.25° to either side', () => {
    const turn = Math.PI / 180
    const headings = [11, 12, 33, 34, 348, 349, 359]
    const outcome = rideOver(
      { length: 7000, heading: (d) => headings[Math.min(6, Math.floor(d / 1000))]! * turn },
      plainPlan((plan) => Object.assign(plan.weather, { windSpeed: 3, windFromDegrees: 0 })),
    )
    const rose = windRose(outcome)
    expect(rose.map(({ degrees }) => degrees)).toEqual(Array.from({ length: 16 }, (_, k) => 22.5 * k))
    expect(rose.map(({ length }) => Math.round(length))).toEqual([3000, 2000, 1000, ...Array(12).fill(0), 1000])
    // Of a wind from north, the part along the road is its cosine.
    near(rose[1]!.wind.against, 1.5 * (Math.cos(12 * turn) + Math.cos(33 * turn)), 1e-9)
  })

  it('is ahead or behind within 60°, and from the side beyond', () => {
    const over = (degrees: number, speed = 2) => {
      const outcome = rideOver(
        { length: 1000, heading: () => 0 },
        plainPlan((plan) => Object.assign(plan.weather, { windSpeed: speed, windFromDegrees: degrees })),
      )
      const { ahead, behind } = windBetween(outcome)(0, 100)
      return [ahead, behind]
    }
    expect([59, 61, 119, 121, 241, 299, 301].map((degrees) => over(degrees))).toEqual([
      [1, 0],
      [0, 0],
      [0, 0],
      [0, 1],
      [0, 0],
      [0, 0],
      [1, 0],
    ])
    expect([0.49, 0.5].map((speed) => over(0, speed))).toEqual([
      [0, 0],
      [1, 0],
    ])
    const calm = rideOver({ length: 1000 }, plainPlan())
    expect(windBetween(calm)(7, 7)).toEqual({ against: 0, ahead: 0, behind: 0 })
  })
})

describe('where the time of a day goes', () => {
  const outcome = rideOver(
    { length: 100_000, crossings: [60_000] },
    assisted((plan) => {
      plan.rider.smallHalts = 600
      plan.stops = [
        { ...stop('Inn', 20_000), duration: 900 },
        { ...stop('End', 100_000), duration: 700 },
      ]
      plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
    }),
  )

  it('is riding, small halts, stops and crossings, without what is halted at the finish', () => {
    const { riding, smallHalts, stopped, crossing, elapsed } = timesOf(outcome)
    near(smallHalts, 600, 1e-6, 'ten minutes each 100 km')
    near(stopped, 900, 1e-9)
    const ferry = outcome.halts.find(({ kind }) => kind === 'crossing')!
    near(crossing, ferry.depart - ferry.arrive, 1e-9)
    expect(crossing).toBeGreaterThan(2400)
    near(riding + smallHalts + stopped + crossing, elapsed, 1e-6)
    expect(elapsed).toBe(outcome.columns.time.at(-1))
  })

  it('with a timetable has its sailing, and without none', () => {
    const ferry = outcome.halts.find(({ kind }) => kind === 'crossing')!
    expect(factsOf(outcome).sailings).toEqual([ferry.sailing])
    const timed = assisted((plan) => {
      plan.crossings = [{ timetable: { kind: 'duration', duration: 1800 }, source: null, fillFirst: 'most' }]
    })
    expect(factsOf(rideOver({ length: 20_000, crossings: [9000] }, timed)).sailings).toEqual([undefined])
    expect(factsOf(rideOver({ length: 20_000 }, timed)).sailings).toEqual([])
  })
})
