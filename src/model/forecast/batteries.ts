import { packAt, usableEnergy, usableLeft, type Pack } from '../battery/pack'
import type { FillFirst, Plan, PlanSource } from '../plan/schema'
import type { PackCharge, Swap } from './outcome'
import { PackState } from './pack-state'
import { sourceRefusal, type Sources } from './sources'

/** A stop that charges up to a share ends here at the latest, s. */
const longestStop = 24 * 3600

/** The plan's packs in their order, one in use at a time. */
export class Batteries {
  readonly packs: PackState[]
  /** Usable energy of all packs when full, J. */
  readonly usable: number
  active = 0
  inUse: PackState
  /** Usable energy of the packs not in use, J, and what was taken from inside them so far. */
  private others = 0
  private othersDrained = 0

  constructor(plan: Plan) {
    const { battery, assist } = plan
    this.packs = battery.packs.map(
      (spec) => new PackState(packAt(spec, battery.temperatureCelsius), spec.charge, assist),
    )
    this.usable = this.packs.reduce((sum, { pack }) => sum + usableEnergy(pack), 0)
    this.active = Math.max(0, this.nextFrom(0))
    this.inUse = this.packs[this.active]!
    this.count()
  }

  /** Usable energy in all packs, J. */
  left(): number {
    return this.others + this.inUse.left
  }

  /** Energy taken from inside the packs so far, J. */
  drained(): number {
    return this.othersDrained + this.inUse.drained
  }

  /** Of that, heat in the packs' resistance, J. */
  packLoss(): number {
    return this.packs.reduce((sum, { loss }) => sum + loss, 0)
  }

  /** Takes the next pack that is not spent into use; the same stays where there is none. */
  swap(): Swap {
    const off = this.active
    const next = this.nextFrom(off + 1)
    if (next >= 0) {
      this.active = next
      this.inUse = this.packs[next]!
      this.count()
    }
    return { off, on: this.active }
  }

  /**
   * Charges the packs one after the other by a source.
   *
   * @param fillFirst which pack; 'most' is not worked out yet and is that in use
   * @param goal time at the stop, s, and the share of all usable charge at which to end; either may be left out
   * @returns what went into each pack, the time, and why not if refused
   */
  chargeBy(
    source: Exclude<PlanSource, { kind: 'swap' }>,
    sources: Sources,
    fillFirst: FillFirst,
    goal: { time?: number; share?: number },
  ): { charges: PackCharge[]; time: number; refusal?: string } {
    const charges: PackCharge[] = []
    const longest = goal.time ?? longestStop
    let time = 0
    let refusal: string | undefined
    for (const index of this.fillOrder(fillFirst)) {
      const state = this.packs[index]!
      const fault = sourceRefusal(source, state.pack)
      if (fault !== undefined) {
        refusal ??= fault
        continue
      }
      this.count()
      const missing = (goal.share ?? Infinity) * this.usable - this.left()
      if (missing <= 0 || time >= longest) break
      const charge = chargeWith(state.pack, state.left + missing)
      const run = sources.fill(source, state, { time: longest - time, charge })
      time += run.time
      if (run.time > 0) charges.push({ pack: index, run })
    }
    this.count()
    return refusal === undefined ? { charges, time } : { charges, time, refusal }
  }

  /** Indices of the packs in the order in which they are filled. */
  private fillOrder(first: FillFirst): number[] {
    const order = this.packs.map((_, k) => (this.active + k) % this.packs.length)
    if (first !== 'emptiest') return order
    return order.sort((a, b) => this.packs[a]!.charge - this.packs[b]!.charge)
  }

  private nextFrom(first: number): number {
    for (let k = 0; k < this.packs.length; k++) {
      const index = (first + k) % this.packs.length
      if (!this.packs[index]!.spent) return index
    }
    return -1
  }

  private count(): void {
    const others = this.packs.filter((pack) => pack !== this.inUse)
    this.others = others.reduce((sum, { left }) => sum + left, 0)
    this.othersDrained = others.reduce((sum, { drained }) => sum + drained, 0)
  }
}

/** The charge at which a pack holds a usable energy, J; 1 if it never does. */
function chargeWith(pack: Pack, energy: number): number {
  if (usableLeft(pack, 1) <= energy) return 1
  let low = pack.floor
  let high = 1
  for (let k = 0; k < 40; k++) {
    const middle = 0.5 * (low + high)
    if (usableLeft(pack, middle) < energy) low = middle
    else high = middle
  }
  return high
}
