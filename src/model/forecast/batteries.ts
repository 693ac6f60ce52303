import { fillOrders, type FillFirst } from '../battery/fill-order'
import { electricalPower } from '../ride/motor'
import type { Refusal } from '../battery/refusal'
import type { TransferRun } from '../battery/transfer-run'
import { chargeAfter } from '../battery/storage'
import { usableLeft, type Pack } from '../battery/pack'
import type { Draws } from '../plan/draws'
import type { Plan, PlanSource } from '../plan/schema'
import type { PackCharge, Swap } from './outcome'
import { PackState } from './pack-state'
import type { Sources } from './sources'
import type { PackLevel } from './state'

/** A stop that charges up to a share ends here at the latest, s. */
const longestStop = 24 * 3600

const onlyOne = [0]

type ChargingSource = Exclude<PlanSource, { kind: 'swap' }>

/** When a charge ends: after a time at the stop, s, and at a share of all usable charge; either may be left out. */
interface Goal {
  time?: number
  share?: number
}

/** What a charge did: how long it took, s, and why not if a pack refused the source. */
interface Charged {
  time: number
  refusal?: Refusal
}

/** What a day begins with. */
export interface Packed {
  plan: Plan
  draws: Draws
  /** In their order, and their usable energy when full, J. */
  packs: Pack[]
  usable: number
}

/** The plan's packs in their order, one in use at a time. */
export class Batteries {
  readonly packs: PackState[]
  /** Usable energy of all packs when full, J. */
  readonly usable: number
  active = 0
  inUse: PackState
  /** Whether a pack beside the one in use has charge left. */
  hasAnother = false
  /** Usable energy of the packs not in use, J, and what was taken from inside them so far. */
  private others = 0
  private othersDrained = 0

  constructor({ plan: { battery, assist }, draws, packs, usable }: Packed) {
    const least = draws.always + draws.dark
    const asked = least + electricalPower(assist.peakPower, assist.lossFactor)
    this.packs = packs.map((pack, k) => new PackState(pack, chargeAfter(battery.packs[k]!), least, asked))
    this.usable = usable
    this.active = Math.max(0, this.nextFrom(0))
    this.inUse = this.packs[this.active]!
    this.count()
  }

  /** Goes on from other charges. @param charges one a pack @param active index of the pack in use */
  restore(charges: readonly PackLevel[], active: number): void {
    this.packs.forEach((pack, k) => {
      const { charge, drained, loss } = charges[k]!
      pack.hold(charge)
      pack.drained = drained
      pack.loss = loss
    })
    this.active = active
    this.inUse = this.packs[active]!
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

  /** Sets the usable energy in all packs, J: the pack in use takes the difference as far as it can, then the others in turn. */
  holdLeft(energy: number): void {
    let missing = energy - this.left()
    for (let k = 0; k < this.packs.length && missing !== 0; k++) {
      const state = this.packs[(this.active + k) % this.packs.length]!
      const before = state.left
      state.hold(chargeWith(state.pack, before + missing))
      missing -= state.left - before
    }
    this.count()
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
   * @param fillFirst which: the order that brings most energy, beginning with the pack in use, or emptiest first
   * @param charges where is noted what went into each pack
   */
  chargeBy(
    source: ChargingSource,
    sources: Sources,
    goal: Goal,
    fillFirst: FillFirst,
    charges: PackCharge[] | undefined,
  ): Charged {
    return this.fill(source, sources, goal, this.orderOf(source, sources, goal, fillFirst), charges)
  }

  private orderOf(source: ChargingSource, sources: Sources, goal: Goal, fillFirst: FillFirst): readonly number[] {
    const { packs, active } = this
    if (packs.length === 1) return onlyOne
    if (fillFirst === 'emptiest') return this.emptiestFirst()
    const orders = fillOrders(
      packs.map(({ pack, charge }) => ({ pack, charge })),
      active,
    )
    return fillFirst === 'in use' || orders.length === 1 ? orders[0]! : this.bestOrder(source, sources, goal, orders)
  }

  /** The order that brings most, or reaches the goal soonest where several bring the same; of equals the first. Leaves all as it was. */
  private bestOrder(source: ChargingSource, sources: Sources, goal: Goal, orders: readonly number[][]): number[] {
    const charges = this.packs.map(({ charge }) => charge)
    const sourceCharge = sources.left(source.id)
    const before = this.left()
    let best = orders[0]!
    let most = -Infinity
    let soonest = Infinity
    for (const order of orders) {
      const { time } = this.fill(source, sources, goal, order, undefined)
      const brought = this.left() - before
      const same = 1e-6 * this.usable
      if (brought > most + same || (brought > most - same && time < soonest - 1)) {
        best = order
        most = brought
        soonest = time
      }
      this.packs.forEach((pack, k) => pack.hold(charges[k]!))
      sources.hold(source.id, sourceCharge)
      this.count()
    }
    return best
  }

  private emptiestFirst(): number[] {
    const order = this.packs.map((_, k) => (this.active + k) % this.packs.length)
    return order.sort((a, b) => this.packs[a]!.charge - this.packs[b]!.charge)
  }

  private fill(
    source: ChargingSource,
    sources: Sources,
    goal: Goal,
    order: readonly number[],
    charges: PackCharge[] | undefined,
  ): Charged {
    const longest = goal.time ?? longestStop
    let time = 0
    let refusal: Refusal | undefined
    for (const index of order) {
      const state = this.packs[index]!
      const fault = sources.refusal(source, state.pack)
      if (fault !== undefined) {
        refusal ??= fault
        continue
      }
      this.count()
      const missing = (goal.share ?? Infinity) * this.usable - this.left()
      if (missing <= 0 || time >= longest) break
      const charge = chargeWith(state.pack, state.left + missing)
      const note = charges && ((run: TransferRun) => run.time > 0 && charges.push({ pack: index, run }))
      time += sources.fill(source, state, longest - time, charge, note)
    }
    this.count()
    return refusal === undefined ? { time } : { time, refusal }
  }

  private nextFrom(first: number): number {
    for (let k = 0; k < this.packs.length; k++) {
      const index = (first + k) % this.packs.length
      if (!this.packs[index]!.spent) return index
    }
    return -1
  }

  private count(): void {
    this.others = 0
    this.othersDrained = 0
    this.hasAnother = false
    for (const pack of this.packs) {
      if (pack === this.inUse) continue
      this.others += pack.left
      this.othersDrained += pack.drained
      this.hasAnother ||= !pack.spent
    }
  }
}

/** What rounding leaves of energies, J: as good as none. */
const rounding = 1e-6

/** The charge at which a pack holds a usable energy, J; 1 if it never does. */
function chargeWith(pack: Pack, energy: number): number {
  if (energy < rounding) return pack.floor
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
