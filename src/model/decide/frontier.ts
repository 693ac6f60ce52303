/** Time and energy of each stretch at each ratio, `ratios` entries a stretch, one stretch behind the other. SI. */
export interface AssistTable {
  ratios: readonly number[]
  /** Riding time, s. */
  time: Float64Array
  /** Usable energy taken, J. */
  energy: Float64Array
}

/** Into so many even parts the energies of a frontier are cut, to find a step at once. */
const parts = 256

/** So few stretches are searched whole; of more these, on whose steps the energy runs out. */
const few = 12
const toldApart = 1500

/** A step up in one stretch: the next ratio worth its energy, with what it costs and saves. */
interface StepUp {
  stretch: number
  /** Index of the ratio. */
  to: number
  energy: number
  saves: number
  /** Seconds for each joule. */
  price: number
}

/**
 * The quickest way over some stretches with so much energy. Each stretch stands for itself, so the best is to buy the steps up that save most for each
 * joule, whatever the stretch: one price holds everywhere. Between whole steps the time is a straight line, the dual bound: no choice of ratios is quicker.
 *
 * @see Fox 1966, Operations Research 14:210-216, for steps bought by price; Everett 1963, same journal 11:399-417, for the bound by a multiplier
 */
export class Frontier {
  /** With the least energy that will do, J and s. */
  readonly leastEnergy: number
  readonly longestTime: number
  private readonly steps: StepUp[]
  /** After each step in turn, of all. */
  private readonly energies: Float64Array
  private readonly times: Float64Array
  private readonly cheapest: number[]
  /** Of even parts of the energies the step at which each begins. */
  private readonly steady = new Int32Array(parts)
  private readonly perPart: number

  /** @param from index of the first stretch @param to one beyond the last */
  constructor(
    private readonly table: AssistTable,
    private readonly from: number,
    to: number,
  ) {
    this.steps = []
    this.cheapest = []
    let energy = 0
    let time = 0
    for (let k = from; k < to; k++) {
      const hull = hullOf(table, k)
      const at = table.ratios.length * k
      this.cheapest.push(hull[0]!)
      energy += table.energy[at + hull[0]!]!
      time += table.time[at + hull[0]!]!
      for (let h = 1; h < hull.length; h++) {
        const more = table.energy[at + hull[h]!]! - table.energy[at + hull[h - 1]!]!
        const saves = table.time[at + hull[h - 1]!]! - table.time[at + hull[h]!]!
        this.steps.push({ stretch: k, to: hull[h]!, energy: more, saves, price: saves / more })
      }
    }
    this.steps.sort((a, b) => b.price - a.price || a.stretch - b.stretch)
    this.leastEnergy = energy
    this.longestTime = time
    this.energies = new Float64Array(this.steps.length + 1)
    this.times = new Float64Array(this.steps.length + 1)
    this.energies[0] = energy
    this.times[0] = time
    this.steps.forEach((step, i) => {
      this.energies[i + 1] = this.energies[i]! + step.energy
      this.times[i + 1] = this.times[i]! - step.saves
    })
    this.perPart = (this.mostEnergy - this.leastEnergy) / parts
    for (let part = 0, i = 0; part < parts; part++) {
      while (i < this.steps.length && this.energies[i + 1]! <= this.leastEnergy + part * this.perPart) i++
      this.steady[part] = i
    }
  }

  /** With all energy that is of use, J. */
  get mostEnergy(): number {
    return this.energies[this.steps.length]!
  }

  /** Index of the last step that is bought whole, plus one. @param energy no less than the least */
  private bought(energy: number): number {
    const { energies } = this
    const last = this.steps.length
    if (energy >= energies[last]!) return last
    let i = this.steady[Math.floor((energy - this.leastEnergy) / this.perPart)] ?? 0
    while (i > 0 && energies[i]! > energy) i--
    while (energies[i + 1]! <= energy) i++
    return i
  }

  /** Least time with so much energy, s; Infinity where it does not suffice. @param energy J */
  time(energy: number): number {
    if (energy < this.leastEnergy) return Infinity
    const i = this.bought(energy)
    const next = this.steps[i]
    return this.times[i]! - (next === undefined ? 0 : next.price * (energy - this.energies[i]!))
  }

  /** What one more joule saves, s/J: 0 where there is enough. */
  price(energy: number): number {
    return energy < this.leastEnergy ? Infinity : (this.steps[this.bought(energy)]?.price ?? 0)
  }

  /**
   * Ratios that take no more than so much energy: steps by price as long as they can be paid, then cheaper ones for what is left; and of the stretches
   * where it runs out the best of all choices.
   *
   * @see Pisinger 1995, European Journal of Operational Research 83:394-410, for such a core of few
   * @param into takes an index of a ratio for each stretch, from the first of these
   * @returns energy that they take, J
   */
  choose(energy: number, into: Int32Array): number {
    let left = energy - this.leastEnergy
    this.cheapest.forEach((ratio, k) => (into[this.from + k] = ratio))
    const closed = new Set<number>()
    for (const { stretch, to, energy: costs } of this.steps) {
      if (closed.has(stretch)) continue
      if (costs <= left) {
        into[stretch] = to
        left -= costs
      } else closed.add(stretch)
    }
    if (energy < this.leastEnergy || energy >= this.mostEnergy) return energy - left
    return energy - this.searched(this.core(energy), left, into)
  }

  /** The stretches whose steps are nearest in price to the one at which so much energy runs out. */
  private core(energy: number): number[] {
    const core = new Set<number>()
    const at = this.bought(energy)
    for (let away = 0; core.size < few && away <= this.steps.length; away++)
      for (const step of [this.steps[at + away], this.steps[at - 1 - away]])
        if (step !== undefined && core.size < few) core.add(step.stretch)
    return [...core]
  }

  /**
   * The best of all choices for some stretches, one by one, of which those are kept that are quicker than all that take no more (Bellman's dynamic
   * programming; energies told apart by a share of the whole).
   *
   * @param unspent by what `into` holds, J
   * @returns energy left, J
   */
  private searched(core: readonly number[], unspent: number, into: Int32Array): number {
    const { ratios, time, energy: costs } = this.table
    const count = ratios.length
    const stretches = core.length
    const now = core.map((stretch) => count * stretch + into[stretch]!)
    const energy = now.reduce((sum, at) => sum + costs[at]!, unspent)
    /** Of each stretch and bin: time and energy up to there, the ratio, and the bin before. */
    const stages = Array.from({ length: stretches + 1 }, () => ({
      time: new Float64Array(toldApart + 1).fill(Infinity),
      energy: new Float64Array(toldApart + 1),
      ratio: new Int16Array(toldApart + 1),
      from: new Int16Array(toldApart + 1),
    }))
    stages[0]!.time[0] = 0
    for (let k = 0; k < stretches; k++) {
      const at = count * core[k]!
      const [before, after] = [stages[k]!, stages[k + 1]!]
      let quickest = Infinity
      for (let from = 0; from <= toldApart; from++) {
        // What is no quicker than one that took less is left.
        if (!(before.time[from]! < quickest)) continue
        quickest = before.time[from]!
        for (let l = 0; l < count; l++) {
          const spent = before.energy[from]! + costs[at + l]!
          if (spent > energy) continue
          const bin = Math.max(0, Math.floor((toldApart * spent) / energy))
          const took = quickest + time[at + l]!
          if (!(took < after.time[bin]!)) continue
          after.time[bin] = took
          after.energy[bin] = spent
          after.ratio[bin] = l
          after.from[bin] = from
        }
      }
    }
    const last = stages[stretches]!
    let bin = last.time.reduce((best, one, k) => (one < last.time[best]! ? k : best), 0)
    const chosen = now.reduce((sum, at) => sum + time[at]!, 0)
    if (!(last.time[bin]! < chosen)) return unspent
    const left = energy - last.energy[bin]!
    for (let k = stretches; k > 0; k--) {
      into[core[k - 1]!] = stages[k]!.ratio[bin]!
      bin = stages[k]!.from[bin]!
    }
    return left
  }
}

/** Ratios of a stretch on the lower convex hull of energy and time, from the least energy to the least time. */
function hullOf({ ratios, time, energy }: AssistTable, stretch: number): number[] {
  const at = ratios.length * stretch
  const order = ratios
    .map((_, l) => l)
    .sort((a, b) => energy[at + a]! - energy[at + b]! || time[at + a]! - time[at + b]!)
  const hull: number[] = []
  for (const l of order) {
    if (hull.length > 0 && time[at + l]! >= time[at + hull.at(-1)!]!) continue
    while (hull.length > 1) {
      const [a, b] = [at + hull.at(-2)!, at + hull.at(-1)!]
      const [before, after] = [
        (time[a]! - time[b]!) * (energy[at + l]! - energy[b]!),
        (time[b]! - time[at + l]!) * (energy[b]! - energy[a]!),
      ]
      if (before > after) break
      hull.pop()
    }
    // Of equal energy the quicker, which stands later in no order.
    if (hull.length === 1 && energy[at + hull[0]!] === energy[at + l]) hull.pop()
    hull.push(l)
  }
  return hull
}
