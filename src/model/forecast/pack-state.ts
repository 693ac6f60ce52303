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
  /** Power that the pack can give at its terminals now, W. */
  most = 0
  /** Nothing left for the motor: at the charge at which it stops, or so close to the cut-off voltage that it could not be driven. */
  spent = false
  /** Energy taken from inside so far, J, and what of it became heat in the resistance. */
  drained = 0
  loss = 0
  private voltage = 0
  private ohm = 0
  private aboveFloor = 0
  /** The straight piece of the open-circuit curve on which the charge lies: its ends, and of the whole pack voltage and energy at its lower end, V and J, and the slope of the voltage, V. */
  private from = 1
  private to = 0
  private foot = 0
  private energy = 0
  private slope = 0
  /** Charge of the pack, C, and energy of a full one from the charge at which the motor stops down to nought, J. */
  private readonly capacity: number
  private readonly belowFloor: number
  /** Resistance, ohm, but below this charge, where it is higher. */
  private readonly usualOhm: number
  private readonly higherBelow: number
  /** As in the pack, by its side. */
  private readonly currentLimit: number
  private readonly cutOff: number
  private readonly floor: number

  /**
   * @param charge 0 to 1
   * @param least power up to which nothing is left for the motor, W
   */
  constructor(
    readonly pack: Pack,
    charge: number,
    private readonly least: number,
  ) {
    this.capacity = pack.capacity
    this.belowFloor = pack.series * pack.capacity * openCircuitIntegral(pack.chemistry, pack.floor)
    this.currentLimit = pack.dischargeCurrent
    this.cutOff = pack.cutOffVoltage
    this.floor = pack.floor
    this.usualOhm = resistance(pack, 1)
    this.higherBelow = pack.chemistry.lowChargeAbove
    this.hold(charge)
  }

  /** Sets the charge, 0 to 1. */
  hold(charge: number): void {
    if (charge < this.from || charge > this.to) this.lookUp(charge)
    const above = charge - this.from
    const rise = this.slope * above
    const voltage = this.foot + rise
    const ohm = charge < this.higherBelow ? resistance(this.pack, charge) : this.usualOhm
    this.charge = charge
    this.voltage = voltage
    this.ohm = ohm
    const limit = this.currentLimit
    const held = voltage - limit * ohm
    const current = held >= this.cutOff && held >= 0.5 * voltage ? limit : mostCurrent(this.pack, voltage, ohm)
    this.most = current * (voltage - ohm * current)
    this.aboveFloor = this.energy + this.capacity * above * (this.foot + 0.5 * rise) - this.belowFloor
    this.left = this.aboveFloor > 0 ? this.aboveFloor : 0
    this.spent = charge <= this.floor || this.most <= this.least
  }

  /** Finds the piece of the curve for a charge. */
  private lookUp(charge: number): void {
    const { series, chemistry } = this.pack
    const { charge: at, voltage, slope, area } = chemistry.openCircuit
    let k = slope.length - 1
    while (k > 0 && at[k]! > charge) k--
    this.from = at[k]!
    this.to = at[k + 1]!
    this.foot = series * voltage[k]!
    this.slope = series * slope[k]!
    this.energy = series * this.capacity * area[k]!
  }

  /**
   * Takes a load; what lies beyond the cut-off is not given. The voltage falls meanwhile: half of its fall counts as a resistance, so that the mean is
   * right to second order.
   */
  draw(load: Load): void {
    const { power, time } = load
    const given = power < this.most ? power : this.most
    const perCharge = time / this.capacity
    const current = given <= 0 ? 0 : currentAt(this.voltage, this.ohm + 0.5 * this.slope * perCharge, given)
    const before = this.aboveFloor
    this.loss += current * current * this.ohm * time
    const after = this.charge - current * perCharge
    this.hold(after > 0 ? after : 0)
    this.drained += before - this.aboveFloor
    load.given = given
  }
}
