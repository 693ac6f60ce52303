import type { Frontier } from './frontier'

/** What happens between two parts of a day: charge and clock on arrival become those on leaving. J and s. */
export type Passage = (left: number, time: number) => { left: number; time: number }

/** A part of a day between two places at which the packs are charged or the clock decides. */
export interface Link {
  frontier: Frontier
  /** Beside what the frontier has: standing, small halts, and what it is known to be off by, J and s. */
  energy: number
  time: number
  /** At the end of the part; undefined at the finish. */
  passage: Passage | undefined
}

/** What the day is for: the finish as soon as can be, or as much charge as can be by a time, s since the start. */
export type Aim = { for: 'soonest' } | { for: 'charge'; by: number }

/** Charge with which to arrive at the end of each part at least, J, and when the finish is then reached, s since the start. */
export interface Allotment {
  targets: number[]
  time: number
}

const coarse = 60
const fine = 31
const usualPasses = 3

/**
 * How a day's charge is best spread over its parts, none of them ended below the least charge: of each charge on arrival the earliest time, part by part
 * (Bellman's dynamic programming, forward in time since sailings and controls wait for nobody), on a grid of charges that is laid closer around the best.
 *
 * @param start on leaving the start
 * @param least charge at the end of any part, J
 * @param most that all packs hold, J
 * @param passes so many grids, each closer than the one before
 * @returns undefined where no way ends all parts with the least charge
 */
export function allot(
  links: readonly Link[],
  start: { left: number; time: number },
  least: number,
  most: number,
  aim: Aim,
  passes = usualPasses,
): Allotment | undefined {
  let cell = (most - least) / (coarse - 1)
  let grids = links.map(() => Array.from({ length: coarse }, (_, j) => least + j * cell))
  let best: Allotment | undefined
  for (let pass = 0; pass < passes; pass++) {
    const next = onGrid(links, start, grids, aim)
    if (next === undefined) break
    best = next
    const around = (3 * cell) / (fine - 1)
    grids = next.targets.map((target) =>
      Array.from({ length: fine }, (_, j) => target + (j - (fine >> 1)) * around).filter((left) => left >= least),
    )
    grids.forEach((grid) => grid[0]! > least + 1e-9 && grid[0]! - least < around && grid.unshift(least))
    cell = around
  }
  return best
}

function onGrid(
  links: readonly Link[],
  start: { left: number; time: number },
  grids: readonly (readonly number[])[],
  aim: Aim,
): Allotment | undefined {
  let lefts = Float64Array.of(start.left)
  let times = Float64Array.of(start.time)
  /** For each part and charge on its grid, the index of the charge on the grid before. */
  const came: Int32Array[] = []
  const arriving: Float64Array[] = []
  links.forEach(({ frontier, energy, time, passage }, s) => {
    const grid = grids[s]!
    const earliest = new Float64Array(grid.length).fill(Infinity)
    const from = new Int32Array(grid.length).fill(-1)
    for (let i = 0; i < lefts.length; i++) {
      const leave = times[i]! + time
      if (leave === Infinity) continue
      const spare = lefts[i]! - energy
      for (let j = 0; j < grid.length; j++) {
        const arrive = leave + frontier.time(spare - grid[j]!)
        if (arrive < earliest[j]!) {
          earliest[j] = arrive
          from[j] = i
        }
      }
    }
    came.push(from)
    arriving.push(earliest)
    if (passage === undefined) return
    lefts = new Float64Array(grid.length)
    times = new Float64Array(grid.length).fill(Infinity)
    for (let j = 0; j < grid.length; j++) {
      if (earliest[j] === Infinity) continue
      const on = passage(grid[j]!, earliest[j]!)
      lefts[j] = on.left
      times[j] = on.time
    }
  })
  const last = arriving.at(-1)!
  let at = -1
  // From the fullest, so that of equal times the one with more charge is taken.
  for (let j = last.length - 1; j >= 0; j--) {
    if (last[j] === Infinity) continue
    if (aim.for === 'charge' && last[j]! <= aim.by) {
      at = j
      break
    }
    if (at < 0 || last[j]! < last[at]!) at = j
  }
  if (at < 0) return undefined
  const time = last[at]!
  const targets: number[] = []
  for (let s = links.length - 1; s >= 0; s--) {
    targets.unshift(grids[s]![at]!)
    at = came[s]![at]!
  }
  return { targets, time }
}
