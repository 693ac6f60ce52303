import { openCircuitIntegral } from '../battery/chemistry'
import { currentAt, mostCurrent, resistance, type Pack } from '../battery/pack'

/** What is asked of a pack, and what it gives: mean power, W, over a time, s. */
export interface Load {
  power: number
  time: number
  given: number
}

/** A pack with its charge as the ride goes on; what follows from the charge is worked out once for each charge. */
export class PackState {
  charge = 0
  /** Usable energy left, J. */
  left = 0
  /** Greatest power at the terminals now, W; Infinity, and not worked out, where it is more than is ever asked. */
  most = 0
  /** Nothing left for the motor: at the charge at which it stops, or so close to the cut-off voltage that it could not be driven. */
  spent = false
  /** Energy taken from inside so far, J, and what of it became heat in the resistance. */
  drained = 0
  loss = 0
  private voltage = 0
  private ohm = 0
  private aboveFloor = 0
  /** The straight piece of the open-circuit curve on which the charge lies: its ends, and of the whole pack at its lower end the voltage, V, and the energy above the charge at which the motor stops, J, and the slope of the voltage, V. */
  private from = 1
  private to = 0
  private foot = 0
  private energy = 0
  private slope = 0
  // Set once below; begun as numbers, since the engine is slower with fields that were empty first.
  /** Charge of the pack, C, its reciprocal, and energy of a full one from the charge at which the motor stops down to nought, J. */
  private capacity = 0
  private perCapacity = 0
  private belowFloor = 0
  /** Resistance where it is not raised, ohm. */
  private usualOhm = 0
  /** Charge from which on it is not, and all that is asked can be given. */
  private plenty = 1

  /**
   * @param charge 0 to 1
   * @param least power up to which nothing is left for the motor, W
   * @param asked greatest power that will be asked, W
   */
  constructor(
    readonly pack: Pack,
    charge: number,
    private readonly least: number,
    private readonly asked: number,
  ) {
    this.capacity = pack.capacity
    this.perCapacity = 1 / pack.capacity
    this.belowFloor = pack.series * pack.capacity * openCircuitIntegral(pack.chemistry, pack.floor)
    this.usualOhm = resistance(pack, 1)
    this.plenty = this.plentyFrom()
    this.hold(charge)
  }

  /** Sets the charge, 0 to 1. */
  hold(charge: number): void {
    this.charge = charge
    this.settle()
  }

  /** All that follows from the charge. */
  private settle(): void {
    const { charge } = this
    if (charge < this.from || charge > this.to) this.lookUp()
    const above = charge - this.from
    const rise = this.slope * above
    this.voltage = this.foot + rise
    this.aboveFloor = this.energy + this.capacity * above * (this.foot + 0.5 * rise)
    this.left = this.aboveFloor > 0 ? this.aboveFloor : 0
    if (charge >= this.plenty) {
      this.ohm = this.usualOhm
      this.most = Infinity
      this.spent = false
    } else {
      const ohm = resistance(this.pack, charge)
      const current = mostCurrent(this.pack, this.voltage, ohm)
      this.ohm = ohm
      this.most = current * (this.voltage - ohm * current)
      this.spent = charge <= this.pack.floor || this.most <= this.least
    }
  }

  /** Finds the piece of the curve for the charge. */
  private lookUp(): void {
    const { charge } = this
    const { series, chemistry } = this.pack
    const { charge: at, voltage, slope, area } = chemistry.openCircuit
    let k = slope.length - 1
    while (k > 0 && at[k]! > charge) k--
    this.from = at[k]!
    this.to = at[k + 1]!
    this.foot = series * voltage[k]!
    this.slope = series * slope[k]!
    this.energy = series * this.capacity * area[k]! - this.belowFloor
  }

  /** The charge from which on all that is asked can be given, and nothing is near its end; above 1 where it never can. */
  private plentyFrom(): number {
    const { pack, asked } = this
    let low = Math.max(pack.floor, pack.chemistry.lowChargeAbove)
    let high = 1
    this.plenty = Infinity
    const enough = (charge: number) => {
      this.hold(charge)
      return charge > pack.floor && this.most >= asked && this.most > this.least
    }
    if (enough(low)) return low
    if (!enough(high)) return Infinity
    while (high - low > 1e-6) {
      const middle = 0.5 * (low + high)
      if (enough(middle)) high = middle
      else low = middle
    }
    return high
  }

  /**
   * Takes a load; what lies beyond the cut-off is not given. The voltage falls meanwhile: half of its fall counts as a resistance, so that the mean is
   * right to second order.
   */
  draw(load: Load): void {
    const { power, time } = load
    const given = power < this.most ? power : this.most
    const perCharge = time * this.perCapacity
    const current = given <= 0 ? 0 : currentAt(this.voltage, this.ohm + 0.5 * this.slope * perCharge, given)
    const before = this.aboveFloor
    this.loss += current * current * this.ohm * time
    const after = this.charge - current * perCharge
    this.charge = after > 0 ? after : 0
    this.settle()
    this.drained += before - this.aboveFloor
    load.given = given
  }
}
