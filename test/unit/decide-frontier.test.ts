import { describe, expect, it } from 'vitest'
import { allot, type Link } from '../../src/model/decide/chain'
import { Frontier, type AssistTable } from '../../src/model/decide/frontier'
import { likeTerrain } from '../../src/model/decide/like-terrain'
import { near } from '../asserts'
import { seeded } from '../bench/big-gpx'

const ratios = [0, 1, 2, 3]

/** Stretches in which more energy mostly saves time, ever less, by a seed. */
function anyTable(stretches: number, seed: number): AssistTable {
  const random = seeded(seed)
  const time: number[] = []
  const energy: number[] = []
  for (let k = 0; k < stretches; k++) {
    let [t, e] = [100 + 50 * random(), 5 * random()]
    for (let l = 0; l < ratios.length; l++) {
      time.push(t)
      energy.push(e)
      t -= 20 * random() ** 2 - 1
      e += 10 * random()
    }
  }
  return { ratios, time: Float64Array.from(time), energy: Float64Array.from(energy) }
}

const sumOf = ({ time, energy }: AssistTable, choice: ArrayLike<number>) => {
  let [t, e] = [0, 0]
  for (let k = 0; k < choice.length; k++) {
    t += time[4 * k + choice[k]!]!
    e += energy[4 * k + choice[k]!]!
  }
  return { time: t, energy: e }
}

/** Of all choices the quickest with no more than so much energy. */
function quickest(table: AssistTable, stretches: number, energy: number): number {
  let best = Infinity
  for (let code = 0; code < 4 ** stretches; code++) {
    const sum = sumOf(
      table,
      Array.from({ length: stretches }, (_, k) => (code >> (2 * k)) & 3),
    )
    if (sum.energy <= energy) best = Math.min(best, sum.time)
  }
  return best
}

describe('the frontier of energy and time', () => {
  it('bounds what any choice can do, and its own choice is within 0.1 % of the best of 4,096', () => {
    let equal = 0
    for (let seed = 1; seed <= 30; seed++) {
      const table = anyTable(6, seed)
      const frontier = new Frontier(table, 0, 6)
      for (const share of [0, 0.2, 0.5, 0.8, 1]) {
        const energy = frontier.leastEnergy + share * (frontier.mostEnergy - frontier.leastEnergy) + 1e-9
        const choice = new Int32Array(6)
        const taken = frontier.choose(energy, choice)
        const sum = sumOf(table, choice)
        near(taken, sum.energy, 1e-9)
        expect(sum.energy).toBeLessThanOrEqual(energy)
        const best = quickest(table, 6, energy)
        expect(frontier.time(energy)).toBeLessThanOrEqual(best + 1e-9)
        expect(sum.time).toBeLessThanOrEqual(1.001 * best)
        if (sum.time < best + 1e-9) equal++
      }
    }
    expect(equal).toBeGreaterThan(130)
  })

  it('gives stretches that are alike the same: where ever less is saved, an equal split is best (convexity)', () => {
    const time = [100, 80, 70, 65]
    const energy = [0, 10, 20, 30]
    const table = {
      ratios,
      time: Float64Array.from([...time, ...time, ...time]),
      energy: Float64Array.from([...energy, ...energy, ...energy]),
    }
    const frontier = new Frontier(table, 0, 3)
    const choice = new Int32Array(3)
    frontier.choose(60, choice)
    expect([...choice]).toEqual([2, 2, 2])
    expect(frontier.time(60)).toBe(210)
    // Half of the way to a third step in one of them.
    expect(frontier.time(65)).toBe(207.5)
    expect(frontier.price(65)).toBe(0.5)
    expect(frontier.time(29)).toBe(300 - 20 - 20 - 0.9 * 20)
    expect(frontier.time(-1)).toBe(Infinity)
  })

  it('has no price where there is enough', () => {
    const frontier = new Frontier(anyTable(4, 9), 0, 4)
    expect(frontier.price(frontier.mostEnergy)).toBe(0)
    expect(frontier.price(frontier.mostEnergy - 1)).toBeGreaterThan(0)
    expect(frontier.time(frontier.mostEnergy + 1000)).toBe(frontier.time(frontier.mostEnergy))
  })
})

describe('charge spread over the parts of a day', () => {
  const tables = [anyTable(4, 21), anyTable(4, 22)] as const
  const frontiers = tables.map((table) => new Frontier(table, 0, 4))
  const [first, second] = frontiers as [Frontier, Frontier]
  const link = (frontier: Frontier, passage?: Link['passage']): Link => ({
    ...{ frontier, energy: 0, time: 0, passage, clocked: passage !== undefined },
  })
  const all = first.mostEnergy + second.mostEnergy

  /** The earliest finish over a thousand ways to part the charge. */
  const earliest = (start: number, least: number, passage: NonNullable<Link['passage']>) => {
    let best = Infinity
    for (let k = 0; k <= 1000; k++) {
      const left = least + ((start - least) * k) / 1000
      const leave = passage(left, first.time(start - left))
      best = Math.min(best, leave.time + second.time(leave.left - least))
    }
    return best
  }

  it('ends as early as the best of a thousand ways, past a boat each 50 s, and one that charges what there is room for', () => {
    const boats: Link['passage'] = (left, time) => ({ left, time: 50 * Math.ceil(time / 50) })
    const charger: Link['passage'] = (left, time) => ({ left: Math.min(20, left + 15), time: time + 30 })
    for (const passage of [boats, charger])
      for (const share of [0.5, 0.7, 0.9]) {
        const start = share * all
        const found = allot([link(first, passage), link(second)], { left: start, time: 0 }, 1, all, { for: 'soonest' })!
        near(found.time, earliest(start, 1, passage), 0.15)
      }
  })

  it('keeps as much charge as can be kept by a time', () => {
    const start = { left: 0.9 * all, time: 0 }
    const by = first.longestTime + second.longestTime - 60
    const none: Link['passage'] = (left, time) => ({ left, time })
    const { time, targets } = allot([link(first, none), link(second)], start, 1, all, { for: 'charge', by })!
    expect(time).toBeLessThanOrEqual(by)
    // One joule more can't be kept: the least time of the whole with what is left to spend is beyond.
    const whole = new Frontier(
      {
        ratios,
        time: Float64Array.from([...tables[0].time, ...tables[1].time]),
        energy: Float64Array.from([...tables[0].energy, ...tables[1].energy]),
      },
      0,
      8,
    )
    near(whole.time(start.left - targets[1]!), by, 0.5)
  })

  it('is not to be had where the least charge can’t be kept', () => {
    const start = { left: first.leastEnergy + second.leastEnergy, time: 0 }
    const none: Link['passage'] = (left, time) => ({ left, time })
    expect(allot([link(first, none), link(second)], start, 1, all, { for: 'soonest' })).toBeUndefined()
  })
})

describe('stretches of like terrain', () => {
  const distance = Float64Array.from({ length: 3001 }, (_, i) => 10 * i)
  const parted = (resistance: (at: number) => number, ends = [0, 3000], mostWork = 1e9) =>
    likeTerrain({ distance, resistance: distance.map(resistance), ends, mostWork })

  it('end at the foot and the top of a hill, are 100 m to 2 km long, and end where they must', () => {
    const ends = parted((at) => (at >= 10_000 && at < 14_000 ? 60 : 8) + Math.sin(at / 70), [0, 777, 3000])
    const at = ends.map((end) => distance[end]!)
    for (const place of [7770, 10_000, 14_000])
      expect(
        at.some((one) => Math.abs(one - place) <= 50),
        `${place}`,
      ).toBe(true)
    expect(at).toContain(7770)
    const lengths = at.slice(1).map((end, k) => end - at[k]!)
    expect(Math.min(...lengths)).toBeGreaterThanOrEqual(100)
    expect(Math.max(...lengths)).toBeLessThanOrEqual(2000)
    expect(lengths.length).toBeLessThanOrEqual(120)
    expect(ends[0]).toBe(0)
    expect(ends.at(-1)).toBe(3000)
  })

  it('are long where the road is even', () => {
    const lengths = parted(() => 8).length
    expect(lengths).toBeLessThan(40)
  })

  it('stay parted where they would take too much work', () => {
    const at = parted(() => 8, [0, 3000], 8000).map((end) => distance[end]!)
    expect(Math.max(...at.slice(1).map((end, k) => end - at[k]!))).toBe(1000)
  })
})
