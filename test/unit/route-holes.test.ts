import { describe, expect, it } from 'vitest'
import { clean } from '../../src/model/route/clean'
import type { Part } from '../../src/model/route/parts'
import { near, within } from '../asserts'
import { ferry, recorded, roads, standing, train, unseen, type Piece } from '../recordings'

const read = (...parts: Part[]) => {
  const { gaps, distance, proposals } = clean(parts, [])
  return {
    ridden: distance.at(-1)!,
    gaps: gaps.map(({ from, to, why, ridden }) => ({ from, to, why: why.code, ridden })),
    proposals: proposals.length,
  }
}

const hour = roads(3600)
/** An hour of road, a quarter of an hour at the quay, an hour and a half at sea, and on. */
const voyage: Piece[] = [hour, standing(900), ferry(5400, 8.5), standing(120), hour]
const seaBegins = 3600 + 900

describe('a ferry recorded with holes of reception', () => {
  const whole = clean([recorded(voyage)], [])
  const [sea] = whole.proposals

  it.each([
    ['of 12 minutes', 720],
    ['of 5 minutes, which by themselves would be ridden', 300],
  ])('%s is one crossing from quay to quay', (_, long) => {
    const part = unseen(
      recorded(voyage),
      [seaBegins + 1200, seaBegins + 1200 + long],
      [seaBegins + 3300, seaBegins + 3300 + long],
    )
    const { gaps, ridden, proposals } = read(part)
    expect(gaps.map(({ why, ridden }) => [why, ridden])).toEqual([['travelled', false]])
    near(gaps[0]!.from, sea!.from, 1, 'quay')
    near(gaps[0]!.to, sea!.to, 60, 'landing')
    within(ridden, whole.distance.at(-1)! - (sea!.to - sea!.from), 0.005, 'ridden')
    expect(proposals).toBe(0)
  })

  it('is one from the first hole to the last where no one stood still before', () => {
    const part = unseen(recorded([hour, ferry(5400, 8.5), standing(120), hour]), [4800, 5520], [6900, 7620])
    const { gaps } = read(part)
    expect(gaps.map(({ why, ridden }) => [why, ridden])).toEqual([['silent', false]])
    within(gaps[0]!.to - gaps[0]!.from, 8.5 * (7620 - 4800), 0.01)
  })

  it('is two, with what was ridden between, where someone rode from one ferry to the next', () => {
    const part = unseen(
      recorded([hour, standing(900), ferry(2400, 8.5), standing(120), hour, standing(900), ferry(2400, 8.5), hour]),
      [5000, 5800],
      [11_700, 12_500],
    )
    const { gaps, ridden } = read(part)
    expect(gaps.map(({ why, ridden }) => [why, ridden])).toEqual([
      ['travelled', false],
      ['silent', false],
    ])
    expect(ridden).toBeGreaterThan(3 * 5.7 * 3600)
  })

  it('is ridden as a whole if the rider says so', () => {
    const part = unseen(recorded(voyage), [seaBegins + 1200, seaBegins + 1920], [seaBegins + 3300, seaBegins + 4020])
    const { gaps, distance } = clean([part], [])
    const said = clean([part], gaps[0]!.numbers)
    expect(said.gaps.map(({ ridden, isCrossing }) => [ridden, isCrossing])).toEqual([[true, true]])
    within(said.distance.at(-1)!, distance.at(-1)! + gaps[0]!.to - gaps[0]!.from, 1e-6)
    expect(said.travelled).toEqual([])
  })
})

describe('a train through a tunnel', () => {
  const line: Piece[] = [hour, standing(400), train(900, 22), standing(100), hour]

  it('in two steps, with a stray position between, is one crossing', () => {
    const { gaps, proposals } = read(unseen(recorded(line), [4020, 4300], [4306, 4880]))
    expect(gaps.map(({ why, ridden }) => [why, ridden])).toEqual([['tooFast', false]])
    within(gaps[0]!.to - gaps[0]!.from, 22 * 840, 0.01)
    expect(proposals).toBe(0)
  })

  it('joins up with what was recorded of it before and behind', () => {
    const { gaps } = read(unseen(recorded(line), [4200, 4500]))
    expect(gaps.map(({ why, ridden }) => [why, ridden])).toEqual([['travelled', false]])
    within(gaps[0]!.to - gaps[0]!.from, 22 * 840, 0.02)
  })
})

describe('a hole in a ride', () => {
  const ride = recorded([roads(9000)])

  it.each([
    [180, []],
    [360, []],
    [540, [['rideable', true]]],
    [900, [['silent', false]]],
  ])('of %i s', (long, expected) => {
    const { gaps } = read(unseen(ride, [3000, 3000 + long]))
    expect(gaps.map(({ why, ridden }) => [why, ridden])).toEqual(expected)
  })

  /** The part up to a point, and from there on. */
  const cutAt = ({ latitude, longitude, elevation, time }: Part, at: number): Part[] =>
    [
      [0, at],
      [at, time.length],
    ].map(([from, to]) => ({
      latitude: latitude.slice(from, to),
      longitude: longitude.slice(from, to),
      elevation: elevation.slice(from, to),
      time: time.slice(from, to),
    }))

  it('is ridden up to 1 km, however long it took: a rest, not a passage', () => {
    const rest = unseen(recorded([hour, standing(3600), hour]), [3560, 7300])
    expect(read(rest).gaps).toEqual([])
    const [gap] = read(...cutAt(rest, 3560 / 5 + 1)).gaps
    expect([gap!.why, gap!.ridden]).toEqual(['rideable', true])
    within(gap!.to - gap!.from, 140 * 5.8, 0.2)
  })

  it('without times is ridden within a part, and a crossing between parts', () => {
    const part = unseen(ride, [3000, 3540])
    part.time.fill(NaN)
    expect(read(part).gaps.map(({ why, ridden }) => [why, ridden])).toEqual([['drawn', true]])
    const halves = cutAt(part, 3000 / 5 + 1)
    expect(read(...halves).gaps.map(({ why, ridden }) => [why, ridden])).toEqual([['brokenOff', false]])
  })
})
