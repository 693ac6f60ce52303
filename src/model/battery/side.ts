import { resistance, type Pack } from './pack'

/** A knot of an open-circuit table that is closer than this share of charge is stepped over. */
const atKnot = 5e-4

/** One pack of a transfer, read thousands of times at charges close to one another: a look-up begins where the last one ended. */
export class Side {
  /** Of the open-circuit table: charge at the knots, voltage of the whole pack there, V, and its rise to the next, V per unit of charge. */
  private readonly knots: Float64Array
  private readonly voltage: Float64Array
  private readonly slope: Float64Array
  private readonly last: number
  private k = 0
  /** Resistance above the charge from which it no longer changes, ohm. */
  private readonly ohm: number
  private readonly lowChargeAbove: number

  constructor(private readonly pack: Pack) {
    const { openCircuit, lowChargeAbove } = pack.chemistry
    this.knots = openCircuit.charge
    this.voltage = openCircuit.voltage.map((cell) => pack.series * cell)
    this.slope = openCircuit.slope.map((cell) => pack.series * cell)
    this.last = openCircuit.slope.length - 1
    this.ohm = resistance(pack, 1)
    this.lowChargeAbove = lowChargeAbove
  }

  /** Open-circuit voltage, V. @param charge 0 to 1; held at the ends beyond */
  voltageAt(charge: number): number {
    const { knots, last } = this
    const z = charge <= 0 ? 0 : charge >= 1 ? 1 : charge
    let { k } = this
    while (k < last && z > knots[k + 1]!) k++
    while (z < knots[k]!) k--
    this.k = k
    return this.voltage[k]! + this.slope[k]! * (z - knots[k]!)
  }

  /** Resistance while it is discharged, ohm. @param charge 0 to 1 */
  resistanceAt(charge: number): number {
    return charge >= this.lowChargeAbove ? this.ohm : resistance(this.pack, charge)
  }

  /** Time until the charge rises, or falls, at a rate, 1/s, to the next knot, s. */
  timeToKnot(charge: number, rate: number): number {
    const { knots, last } = this
    let { k } = this
    if (rate >= 0) {
      while (k <= last && knots[k]! < charge + atKnot) k++
      return Math.max(knots[k]! - charge, atKnot) / rate
    }
    while (k > 0 && knots[k]! > charge - atKnot) k--
    return Math.max(charge - knots[k]!, atKnot) / -rate
  }
}
