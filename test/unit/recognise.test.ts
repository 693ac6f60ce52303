import { describe, expect, it } from 'vitest'
import { clean } from '../../src/model/route/clean'
import { near, within } from '../asserts'
import { ferry, recorded, roads, standing, towpath, train, type Piece } from '../recordings'

const proposals = (pieces: Piece[], every?: number) => clean([recorded(pieces, every)], []).proposals

describe('a ferry recorded through within one segment', () => {
  const pieces = [roads(1800), standing(720), ferry(41 * 60, 4.72), standing(90), roads(1800)]

  it.each([1, 5, 15])('is proposed, with points every %i s', (every) => {
    const found = proposals(pieces, every)
    expect(found.map(({ kind }) => kind)).toEqual(['level'])
    const [{ from, to, time, speed, halt }] = found as [(typeof found)[0]]
    // 4.72 m/s for 41 min, less half of the 4 minutes of casting off and landing.
    within(to - from, 4.72 * (41 * 60 - 120), 0.02, 'length')
    near(time, 41 * 60, 60, 'time')
    within(speed, 4.72, 0.01, 'speed')
    near(halt, 720, 60, 'halt')
  })

  it('is proposed where the elevation is of a lake, and where some is missing', () => {
    const part = recorded(pieces.map((piece) => ({ ...piece, elevation: () => 395 })))
    part.elevation.forEach((_, i) => i % 3 === 0 && (part.elevation[i] = NaN))
    expect(clean([part], []).proposals.map(({ kind }) => kind)).toEqual(['level'])
  })

  it('is not without a halt before, nor without any elevation, which could have been the level of a road', () => {
    expect(proposals([roads(1800), ferry(41 * 60, 4.72), standing(90), roads(1800)])).toEqual([])
    const part = recorded(pieces)
    part.elevation.fill(NaN)
    expect(clean([part], []).proposals).toEqual([])
  })

  it('is not without times', () => {
    const part = recorded(pieces)
    part.time.fill(NaN)
    expect(clean([part], []).proposals).toEqual([])
  })

  it('is not where the receiver was silent on the way, for then nothing is known of its speed', () => {
    const part = recorded(pieces)
    const sea = (i: number) => part.time[i]! - part.time[0]! > 3000 && part.time[i]! - part.time[0]! < 3300
    const kept = (column: Float64Array) => Float64Array.from(column).filter((_, i) => !sea(i))
    const { latitude, longitude, elevation, time } = part
    const silent = {
      latitude: kept(latitude),
      longitude: kept(longitude),
      elevation: kept(elevation),
      time: kept(time),
    }
    expect(silent.time.length).toBe(time.length - 59)
    expect(clean([silent], []).proposals).toEqual([])
  })

  it('is not proposed again where it is marked', () => {
    const part = recorded(pieces)
    const found = clean([part], []).proposals
    expect(found).toHaveLength(1)
    const { proposals, crossings } = clean([part], [], found)
    expect(proposals).toEqual([])
    expect(crossings).toHaveLength(1)
    near(crossings[0]!.recordedTime!, 41 * 60, 60)
  })
})

describe('a ride is not proposed', () => {
  it('on a level, straight towpath after half an hour at a café', () => {
    expect(proposals([roads(1800), standing(1800), towpath(40 * 60, 6), standing(60), roads(600)])).toEqual([])
  })

  it('at the steadiest on a road that climbs 1 in 200', () => {
    const even = { ...ferry(40 * 60, 6), elevation: (d: number) => d / 200 }
    expect(proposals([standing(600), even, standing(60)])).toEqual([])
  })

  it('at the steadiest on level bends', () => {
    const even = { ...ferry(40 * 60, 6), heading: (d: number) => Math.sin(d / 150) + 0.8 * Math.sin(d / 410) }
    expect(proposals([standing(600), even, standing(60)])).toEqual([])
  })

  it('for eight minutes, however steady', () => {
    expect(proposals([standing(600), ferry(8 * 60, 6), standing(60)])).toEqual([])
  })

  it('down a pass at 65 km/h', () => {
    const descent = { ...train(15 * 60, 18), elevation: (d: number) => 2000 - 0.08 * d }
    expect(proposals([standing(600), descent, standing(60), roads(600)])).toEqual([])
  })

  it('at 40 km/h on the level, which a fast group rides', () => {
    expect(proposals([standing(600), towpath(30 * 60, 11), standing(60)])).toEqual([])
  })
})

it('times of years between points far apart are no work', () => {
  const n = 2000
  const column = (of: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => of(i))
  const part = {
    latitude: column((i) => (i % 2 === 0 ? -40 : 40)),
    longitude: column(() => 8),
    elevation: column(() => 3),
    time: column((i) => 1e7 * i),
  }
  expect(clean([part], []).proposals).toEqual([])
})

describe('a train', () => {
  it('is proposed as one from where it was boarded to where it was left, over its stops', () => {
    const found = proposals([
      roads(1800),
      standing(300),
      train(600, 25),
      standing(60),
      train(720, 30),
      standing(120),
      roads(1800),
    ])
    expect(found.map(({ kind }) => kind)).toEqual(['fast'])
    // Half of the minutes of speeding up and braking is lost.
    within(found[0]!.to - found[0]!.from, 25 * 540 + 30 * 660, 0.02, 'length')
    near(found[0]!.time, 600 + 60 + 720, 60, 'time')
  })

  it('up a mountain is found at a speed that a rider has on the level', () => {
    const up = { ...train(1200, 9), elevation: (d: number) => 500 + 0.1 * d }
    expect(proposals([roads(600), standing(300), up, standing(120), roads(600)]).map(({ kind }) => kind)).toEqual([
      'fast',
    ])
  })
})
