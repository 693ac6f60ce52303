import { describe, expect, it } from 'vitest'
import {
  areaOfGauge,
  cableLoad,
  cableRating,
  gaugeOf,
  resistancePerMetre,
  type Cable,
} from '../../src/model/battery/cable'
import { proposeFuse, type FuseProposal } from '../../src/model/battery/fuse'
import { readNumber } from '../../src/view/fields/typed'
import { near, within } from '../asserts'

const cable: Cable = { areaMm2: 2.5, length: 1, temperature: 20 }

describe('a lead', () => {
  it('resists less the thicker it is, at the standard’s sizes, between and beyond them', () => {
    let before = Infinity
    for (let area = 0.2; area < 60; area *= 1.03) {
      const ohm = resistancePerMetre(area)
      expect(ohm).toBeLessThan(before)
      // Above solid copper of the same cross-section (1.7241e-8 Ω m), by no more than a quarter.
      expect((ohm * area) / 0.017241).toBeGreaterThan(1)
      expect((ohm * area) / 0.017241).toBeLessThan(1.25)
      before = ohm
    }
  })

  it('is rated as the next smaller size, less when warm', () => {
    expect([0.4, 0.5, 2.4, 2.5, 2.08, 25].map((areaMm2) => cableRating({ ...cable, areaMm2 }))).toEqual([
      0, 3, 13, 17, 13, 40,
    ])
    // Each size by its own: the lowest of VDE 0298-4, IEC 60364-5-52, IEC 60204-1, household cords and an automotive guide (`cable.ts`).
    const sizes = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10]
    expect(sizes.map((areaMm2) => cableRating({ ...cable, areaMm2 }))).toEqual([3, 6, 10, 13, 17, 23, 30, 40])
    near(cableRating({ ...cable, temperature: 50 }) / 17, 0.71 / 0.87, 0.001)
    expect(cableRating({ ...cable, temperature: 70 })).toBe(0)
  })

  it('speaks up about current, drop and connectors', () => {
    expect(cableLoad(cable, 5, 40, 15).cautions).toEqual([])
    expect(cableLoad(cable, 10, 40, 15).cautions).toEqual([{ code: 'connectors', rating: 15, most: 9, current: 10 }])
    expect(cableLoad(cable, 18, 40, 45).cautions).toEqual([{ code: 'current', current: 18, rating: 17 }])
    const [caution] = cableLoad({ ...cable, length: 4 }, 10, 12, 45).cautions
    expect(caution).toMatchObject({ code: 'drop', sensible: 0.03 })
    near(caution?.code === 'drop' ? caution.share : NaN, 0.053, 0.0005)
  })
})

const rated = (proposal: FuseProposal) => (proposal.code === 'fuse' ? proposal.current : undefined)
const bladeFor = (volts: number) => {
  const proposal = proposeFuse(5, 17, volts)
  return proposal.code === 'fuse' ? proposal.blade : NaN
}

describe('a fuse', () => {
  it('lies between 1.25 times the load and the cable’s rating', () => {
    for (let load = 0.1; load < 30; load += 0.37) {
      for (const rating of [3, 10, 17, 23, 40]) {
        const current = rated(proposeFuse(load, rating, 42))
        if (current === undefined) continue
        expect(current).toBeGreaterThanOrEqual(1.25 * load)
        expect(current).toBeLessThanOrEqual(rating)
      }
    }
    expect(rated(proposeFuse(10, 17, 42))).toBe(15)
    expect(proposeFuse(10, 13, 42)).toEqual({ code: 'noFuse', load: 10, least: 12.5, cableRating: 13 })
    expect(proposeFuse(200, 400, 42).code).toBe('noFuse')
  })

  it('is never one of 32 V on a pack above it', () => {
    expect([29.4, 32, 32.1, 42, 43.8, 54.6, 58, 58.4].map(bladeFor)).toEqual([32, 32, 58, 58, 58, 58, 58, undefined])
  })
})

describe('American wire gauges', () => {
  // ASTM B258, areas in mm² as tables print them.
  it.each([
    [20, 0.518],
    [18, 0.823],
    [14, 2.08],
    [12, 3.31],
    [10, 5.26],
    [6, 13.3],
  ])('%i is %f mm²', (gauge, area) => {
    within(areaOfGauge(gauge), area, 0.002)
    near(gaugeOf(areaOfGauge(gauge)), gauge, 1e-9)
    within(readNumber(`AWG ${gauge}`, 'mm²')!, area, 0.002)
    within(readNumber(`${gauge} awg`, 'mm²')!, area, 0.002)
    expect(readNumber(`AWG ${gauge}`, 'm')).toBeUndefined()
  })
})
