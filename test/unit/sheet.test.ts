import { describe, expect, it } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import { addStop, changeStop } from '../../src/model/plan/edit'
import { legsOf, type Leg } from '../../src/model/readings/legs'
import { reachAtStop, type Reach } from '../../src/model/readings/reach'
import { simulate } from '../../src/model/forecast/simulate'
import { columnsFor, sorted, totalsOf } from '../../src/view/legs/columns'
import { compassPoint } from '../../src/view/sheet/compass'
import { middleOfLongestStretch } from '../../src/view/sheet/pinPlace'
import { chargeSentences } from '../../src/view/sheet/stopReport'
import { summaries } from '../../src/view/sheet/summaries'
import { batteryWordsIn } from '../../src/view/words/battery'
import { sheetWordsIn } from '../../src/view/words/sheet'
import { wordsIn } from '../../src/view/words/words'
import { courseRoute } from '../routes'

const { names } = wordsIn('metric')

describe('compassPoint', () => {
  // The 16 points, 22.5° apart, clockwise from north.
  it.each([
    [0, 'N'],
    [11, 'N'],
    [12, 'NNE'],
    [90, 'E'],
    [180, 'S'],
    [250, 'WSW'],
    [270, 'W'],
    [349, 'N'],
    [360, 'N'],
  ])('of %i° is %s', (degrees, point) => {
    expect(compassPoint(degrees)).toBe(point)
  })
})

describe('middleOfLongestStretch', () => {
  it.each([
    [[], 50],
    [[50], 25],
    [[10], 55],
    [[90], 45],
    [[20, 30, 90], 60],
    [[0], 50],
    [[100], 50],
    [[50, 50], 25],
  ])('with stops at %j of 100 is %i', (places, middle) => {
    expect(middleOfLongestStretch(places, 100)).toBe(middle)
  })
})

describe('how far a charge reaches', () => {
  const reach: Reach = { left: 0, until: undefined, length: 1000, spare: 118 * 3600, spareLength: 24_300 }

  it('says how far it is and to where, in both systems of units', () => {
    const ends = { ...reach, until: 124_500, length: 42_100, spare: 0 }
    expect(wordsIn('metric').reach(ends, 1e6)).toBe('42.1 km, to km 124.5')
    expect(wordsIn('imperial').reach(ends, 1e6)).toBe('26.2 mi, to mile 77.4')
  })
  it('says what is to spare at the finish', () => {
    expect(wordsIn('metric').reach(reach, 1000 * 3600)).toBe('to the finish, 118 Wh (12 %) to spare, about 24 km more')
    expect(wordsIn('metric').reach({ ...reach, spareLength: undefined }, 1000 * 3600)).toBe(
      'to the finish, 118 Wh (12 %) to spare',
    )
  })
  it('says where there is none', () => {
    expect(wordsIn('metric').reach({ ...reach, until: 500, length: 0, spare: 0 }, 1e6)).toBe(
      'none: already below the reserve',
    )
  })
})

const hilly = courseRoute({ length: 60_000, elevation: (d) => 100 + 80 * Math.sin(d / 2000), crossings: [40_000] })
const { plan, id } = addStop(defaultPlan(names), 25_000, names.stop)
const outcome = simulate(hilly, changeStop(plan, id!, { name: 'Mill', duration: 3 * 3600 }))
const legs = legsOf(outcome)

describe('chargeSentences', () => {
  it('tell what went into each pack, one after the other, with what set the current', () => {
    const halt = outcome.halts.find(({ stop }) => stop === id)!
    const sentences = chargeSentences(
      outcome,
      halt,
      wordsIn('metric'),
      batteryWordsIn('metric'),
      sheetWordsIn('metric').halt,
    )
    expect(sentences).toHaveLength(halt.charges.length)
    expect(sentences.length).toBeGreaterThan(0)
    expect(sentences[0]).toMatch(
      /^Pack 1: \d+ Wh in .*; the charger’s current from \d\d:\d\d, constant voltage from \d\d:\d\d, then full\.$/,
    )
    expect(reachAtStop(outcome, halt.station).after.spare).toBeGreaterThan(0)
  })
})

describe('summaries', () => {
  it('say the state of each group in one line', () => {
    expect(summaries(outcome, 'metric')).toMatchObject({
      rider: '85 kg, 120 W',
      batteries: '2 packs, 962 Wh of 1,001 when new',
      stops: '1 stop',
      // 80 m to the first crest, 160 m to each of four more, 1 m after the last trough.
      route: '60.0 km, 721 m up',
    })
    expect(summaries(outcome, 'metric').weather).toBe('15 °C, wind 3.0 m/s from WSW')
    const flat = { ...outcome, route: { ...outcome.route, elevationKnown: 'none' as const } }
    expect(summaries(flat, 'metric').route).toBe('60.0 km, climbs unknown')
    expect(summaries(outcome, 'imperial').rider).toBe('187 lb, 120 W')
  })
})

describe('columns of the leg table', () => {
  const columns = columnsFor(outcome, 'metric')
  const numbers = (rows: readonly Leg[]) => rows.map(({ number }) => number)

  it('have keys of their own and a text for each leg', () => {
    expect(new Set(columns.map(({ key }) => key)).size).toBe(columns.length)
    for (const { text, key } of columns)
      for (const leg of legs) expect(text(leg), key).not.toMatch(/NaN|undefined|Infinity/)
  })

  it('sort by value, both ways, in order of the route where equal', () => {
    for (const { key, order } of columns) {
      const up = sorted(legs, columns, { key, ascending: true })
      const down = sorted(legs, columns, { key, ascending: false })
      expect([...numbers(up)].sort((a, b) => a - b)).toEqual(numbers(legs))
      for (let i = 1; i < up.length; i++) {
        expect(order(up[i - 1]!) <= order(up[i]!), key).toBe(true)
        expect(order(down[i - 1]!) >= order(down[i]!), key).toBe(true)
        if (order(up[i - 1]!) === order(up[i]!)) expect(up[i - 1]!.number).toBeLessThan(up[i]!.number)
      }
    }
    expect(sorted(legs, columns, undefined)).toBe(legs)
  })

  it('total what the legs add up to', () => {
    const totals = totalsOf(outcome)
    for (const key of ['length', 'ascent', 'descent', 'ridingTime', 'riderWork', 'motorWork', 'drained'] as const)
      expect(legs.reduce((sum, leg) => sum + leg[key], 0) / totals[key]).toBeCloseTo(1, 9)
  })
})
