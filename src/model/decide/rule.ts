import type { Aim, Link } from './chain'
import { foretoldAim, isBetter, type DayParts } from './day-parts'
import { foretell, type Foretold } from './foretell'
import type { AssistTable } from './frontier'
import type { AssistedRide, Ridden } from './held'

/** A part of the route at one ratio. */
export interface Place {
  /** Ridden distances, m. */
  start: number
  end: number
  /** Motor power for each watt of the rider. */
  ratio: number
}

/** A rule that a rider can keep: a few places one behind the other, each with a ratio, and the day ridden so. */
export interface Rule {
  places: Place[]
  ridden: Ridden
}

/** Places by the stretches at which they begin, the number of stretches last, and the index of each one's ratio. */
interface Draft {
  bounds: number[]
  levels: number[]
}

const mostPlaces = 6
/** By how many steps of the display a ratio is changed at once. */
const reach = 4
const rounds = 3
/** A place is first parted at so many bounds of the whole day at most; they are moved afterwards. */
const mostParted = 48
/** Kept back, as a share of all usable energy, where a ride fell below the reserve. */
const margin = 0.002

/**
 * Good rules of two to six places: each is made of the one before by parting one of its places where that is foretold to help most, then its bounds and
 * ratios are moved as long as that helps. The rule is ridden; where the charge does not last, again with some kept back.
 *
 * @param constant index of the best ratio for the whole route
 * @returns fewest places first, each better than those before
 */
export function goodRules(
  day: DayParts,
  table: AssistTable,
  links: readonly Link[],
  held: AssistedRide,
  constant: number,
  aim: Aim,
): Rule[] {
  const sums = sumsOf(day, table)
  const rules: Rule[] = []
  let draft: Draft = { bounds: [0, day.stretches], levels: [constant] }
  for (let places = 2; places <= mostPlaces; places++) {
    let found: { draft: Draft; ridden: Ridden } | undefined
    for (let round = 0, least = day.reserve; round < rounds; round++, least += margin * day.planned.usable) {
      const search = new Search(day, table, links, held, sums, least, foretoldAim(aim))
      const next = search.polished(search.parted(draft))
      const ridden = day.ride((stretch) => table.ratios[next.levels[next.bounds.findLastIndex((b) => b <= stretch)]!]!)
      if (!ridden.lasts) continue
      found = { draft: next, ridden }
      break
    }
    if (found === undefined) break
    draft = found.draft
    const { bounds, levels } = draft
    if (new Set(levels).size > 1 && isBetter(found.ridden, rules.at(-1)?.ridden, aim))
      rules.push({
        places: placesOf(
          bounds.map((bound) => day.ends[bound]!),
          day.route.stations.distance,
          (k) => table.ratios[levels[k]!]!,
        ),
        ridden: found.ridden,
      })
  }
  return rules
}

/** Times and energies of all stretches before one, by ratio: `stretches + 1` entries a ratio. */
interface Sums {
  time: Float64Array[]
  energy: Float64Array[]
}

function sumsOf({ stretches }: DayParts, { ratios, time, energy }: AssistTable): Sums {
  const sums = (column: Float64Array) =>
    ratios.map((_, l) => {
      const sum = new Float64Array(stretches + 1)
      for (let k = 0; k < stretches; k++) sum[k + 1] = sum[k]! + column[ratios.length * k + l]!
      return sum
    })
  return { time: sums(time), energy: sums(energy) }
}

/** Looks for rules by what a table foretells of them. */
class Search {
  private readonly times: Float64Array
  private readonly energies: Float64Array

  /** @param least charge to keep, J */
  constructor(
    private readonly day: DayParts,
    private readonly table: AssistTable,
    private readonly links: readonly Link[],
    private readonly held: AssistedRide,
    private readonly sums: Sums,
    private readonly least: number,
    private readonly aim: Aim,
  ) {
    this.times = new Float64Array(links.length)
    this.energies = new Float64Array(links.length)
  }

  /** The rule with one place more that is foretold to be best: parted at some bounds, then around the best of these at each. */
  parted(from: Draft): Draft {
    const { stretches, parts } = this.day
    const stride = Math.ceil(stretches / mostParted)
    const some = this.partedAt(from, (bound) => bound % stride === 0 || parts.includes(bound))
    const added = some.bounds.find((bound) => !from.bounds.includes(bound))
    return added === undefined ? some : this.partedAt(from, (bound) => Math.abs(bound - added) < stride)
  }

  private partedAt(from: Draft, isTried: (bound: number) => boolean): Draft {
    return this.bestOf(from, (tell) => {
      from.levels.forEach((level, i) => {
        for (let bound = from.bounds[i]! + 1; bound < from.bounds[i + 1]!; bound++) {
          if (!isTried(bound)) continue
          for (const before of this.around(level))
            for (const after of this.around(level))
              tell({
                bounds: from.bounds.toSpliced(i + 1, 0, bound),
                levels: from.levels.toSpliced(i, 1, before, after),
              })
        }
      })
    })
  }

  /** The rule with bounds and ratios moved as long as that helps. */
  polished(from: Draft): Draft {
    let draft = from
    for (let round = 0; round < rounds; round++) {
      const before = draft
      draft = this.bestOf(draft, (tell) => {
        for (let i = 1; i < before.levels.length; i++)
          for (let bound = before.bounds[i - 1]! + 1; bound < before.bounds[i + 1]!; bound++)
            tell({ ...before, bounds: before.bounds.map((one, k) => (k === i ? bound : one)) })
      })
      const moved = draft
      draft = this.bestOf(moved, (tell) => {
        moved.levels.forEach((one, i) => {
          for (let j = i + 1; j < moved.levels.length; j++)
            for (const first of this.around(one))
              for (const second of this.around(moved.levels[j]!))
                tell({ ...moved, levels: moved.levels.map((level, k) => (k === i ? first : k === j ? second : level)) })
        })
      })
      if (draft === before) break
    }
    return draft
  }

  private around(level: number): number[] {
    const low = Math.max(0, level - reach)
    const high = Math.min(this.table.ratios.length - 1, level + reach)
    return Array.from({ length: high - low + 1 }, (_, k) => low + k)
  }

  /** Of some drafts the one that is foretold to be best; another where none lasts. */
  private bestOf(other: Draft, all: (tell: (draft: Draft) => void) => void): Draft {
    let best = other
    let told = this.foretold(other)
    all((draft) => {
      const one = this.foretold(draft)
      if (one.lasts && (!told.lasts || isBetter(one, told, this.aim))) {
        best = draft
        told = one
      }
    })
    return best
  }

  private foretold({ bounds, levels }: Draft): Foretold {
    const { day, times, energies, sums } = this
    for (let s = 0, i = 0; s < times.length; s++) {
      const [from, to] = [day.parts[s]!, day.parts[s + 1]!]
      times[s] = 0
      energies[s] = 0
      while (bounds[i + 1]! <= from) i++
      for (let k = i; k < levels.length && bounds[k]! < to; k++) {
        const [first, last] = [Math.max(from, bounds[k]!), Math.min(to, bounds[k + 1]!)]
        times[s]! += sums.time[levels[k]!]![last]! - sums.time[levels[k]!]![first]!
        energies[s]! += sums.energy[levels[k]!]![last]! - sums.energy[levels[k]!]![first]!
      }
    }
    return foretell(this.links, this.held, times, energies, this.least)
  }
}

/** Stretches of one ratio joined. @param ends stations @param distance of each, m */
export function placesOf(
  ends: readonly number[],
  distance: ArrayLike<number>,
  ratioOf: (stretch: number) => number,
): Place[] {
  const places: Place[] = []
  for (let k = 0; k + 1 < ends.length; k++) {
    const [start, end, ratio] = [distance[ends[k]!]!, distance[ends[k + 1]!]!, ratioOf(k)]
    const before = places.at(-1)
    if (before !== undefined && (before.ratio === ratio || start === end)) before.end = end
    else places.push({ start, end, ratio })
  }
  return places
}
