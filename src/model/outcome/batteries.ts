import { checkCharger, chargePack, type ChargeRun } from '../battery/charge'
import {
  chargeAfter,
  currentFor,
  energyBetween,
  mostPower,
  packAt,
  resistance,
  usableEnergy,
  usableLeft,
  type Pack,
} from '../battery/pack'
import type { Plan, PlanSource, PlanStop } from '../plan/schema'
import { mechanicalPower } from '../ride/motor'
import type { PackCharge } from './outcome'

/** A stop that charges up to a share ends here at the latest, s. */
const longestStop = 24 * 3600

/** The plan's packs in their order, one in use at a time. */
export class Batteries {
  readonly packs: Pack[]
  readonly usable: number
  /** Charge of each pack, 0 to 1 of all it holds. */
  readonly charge: Float64Array
  active = 0
  /** Energy taken from inside the packs so far, J, and what of it became heat in their resistance. */
  drained = 0
  packLoss = 0
  /** Usable energy of the packs not in use, J. */
  private others = 0

  constructor(private readonly plan: Plan) {
    const { packs, temperatureCelsius } = plan.battery
    this.packs = packs.map((spec) => packAt(spec, temperatureCelsius))
    this.charge = Float64Array.from(packs, ({ charge }) => charge)
    this.usable = this.packs.reduce((sum, pack) => sum + usableEnergy(pack), 0)
    this.active = Math.max(0, this.nextFrom(0))
    this.count()
  }

  /** Usable energy in all packs, J. */
  left(): number {
    return this.others + usableLeft(this.packs[this.active]!, this.charge[this.active]!)
  }

  /** The pack in use has nothing left for the motor. */
  spent(): boolean {
    return this.isSpent(this.active)
  }

  /** At the charge at which the motor stops, or so close to the cut-off voltage that nothing beyond the motor's own loss is given. */
  private isSpent(index: number): boolean {
    const { electronics, lights, lossFactor } = this.plan.assist
    const pack = this.packs[index]!
    const charge = this.charge[index]!
    return charge <= pack.floor || mechanicalPower(mostPower(pack, charge) - electronics - lights, lossFactor) === 0
  }

  /** Electrical power that the pack in use can give the motor and the rest, W; 0 once it is spent. */
  available(): number {
    return this.spent() ? 0 : mostPower(this.packs[this.active]!, this.charge[this.active]!)
  }

  /** Takes a mean power, W, for a time, s; what lies beyond the cut-off is not given. Returns the power that was. */
  draw(power: number, time: number): number {
    const pack = this.packs[this.active]!
    const charge = this.charge[this.active]!
    const most = mostPower(pack, charge)
    const given = power < most ? power : most
    const current = given <= 0 ? 0 : currentFor(pack, charge, given)
    const after = chargeAfter(pack, charge, current, time)
    this.packLoss += current * current * resistance(pack, charge) * time
    this.drained += energyBetween(pack, after, charge)
    this.charge[this.active] = after
    return given
  }

  /** Takes the next pack that is not spent into use; false if there is none. */
  swap(): boolean {
    const next = this.nextFrom(this.active + 1)
    if (next < 0) return false
    this.active = next
    this.count()
    return true
  }

  /** Charges the packs one after the other, the one in use first. Gives what went into each, the time, and why not if refused. */
  chargeAt(stop: PlanStop, source: PlanSource): { charges: PackCharge[]; time: number; refusal?: string } {
    const { packs, temperatureCelsius } = this.plan.battery
    const charges: PackCharge[] = []
    let time = 0
    let refusal: string | undefined
    for (let k = 0; k < packs.length; k++) {
      const index = (this.active + k) % packs.length
      const fault = checkCharger(packs[index]!, source, temperatureCelsius)
      if (fault !== undefined) {
        refusal ??= fault
        continue
      }
      const goal = this.goal(stop, index, time)
      if (goal === undefined) break
      const run: ChargeRun = chargePack(this.packs[index]!, this.charge[index]!, source, goal)
      time += run.time
      this.charge[index] = run.charge
      if (run.time > 0) charges.push({ pack: index, run })
    }
    this.count()
    return refusal === undefined ? { charges, time } : { charges, time, refusal }
  }

  /** What the next pack may take; undefined if the stop is over. */
  private goal(stop: PlanStop, index: number, spentTime: number): { time: number; charge?: number } | undefined {
    if (stop.goal === 'duration') return stop.duration > spentTime ? { time: stop.duration - spentTime } : undefined
    this.count()
    const missing = stop.chargeTo * this.usable - this.left()
    if (missing <= 0) return undefined
    const pack = this.packs[index]!
    const target = usableLeft(pack, this.charge[index]!) + missing
    return { time: longestStop - spentTime, charge: chargeWith(pack, target) }
  }

  private nextFrom(first: number): number {
    for (let k = 0; k < this.packs.length; k++) {
      const index = (first + k) % this.packs.length
      if (!this.isSpent(index)) return index
    }
    return -1
  }

  private count(): void {
    this.others = this.packs.reduce(
      (sum, pack, i) => (i === this.active ? sum : sum + usableLeft(pack, this.charge[i]!)),
      0,
    )
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
