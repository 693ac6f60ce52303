import { openCircuitIntegral, restAt, type RestingCell } from '../battery/chemistry'
import { chargeAfter, currentAt, mostCurrent, resistance, type Pack } from '../battery/pack'
import type { Plan } from '../plan/schema'
import { idlePower } from '../ride/motor'

/** A pack with its charge as the ride goes on; what follows from the charge is worked out once for each charge. */
export class PackState {
  /** Usable energy left, J. */
  left = 0
  /** Power that the pack can give at its terminals now, W. */
  most = 0
  /** Nothing left for the motor: at the charge at which it stops, or so close to the cut-off voltage that only its own loss could be given. */
  spent = false
  /** Energy taken from inside so far, J, and what of it became heat in the resistance. */
  drained = 0
  loss = 0
  private voltage = 0
  private ohm = 0
  private aboveFloor = 0
  private readonly cell: RestingCell = { voltage: 0, integral: 0 }
  /** Coulomb of all cells, and the integral of one at the floor: open-circuit energy is the one times what lies above the other. */
  private readonly coulombs: number
  private readonly floorIntegral: number
  /** Power up to which nothing is left for the motor, W. */
  private readonly least: number

  constructor(
    readonly pack: Pack,
    public charge: number,
    assist: Plan['assist'],
  ) {
    this.coulombs = pack.series * pack.capacity
    this.floorIntegral = openCircuitIntegral(pack.chemistry, pack.floor)
    this.least = assist.electronics + assist.lights + idlePower(assist.lossFactor)
    this.hold(charge)
  }

  /** Sets the charge, 0 to 1. */
  hold(charge: number): void {
    const { pack, cell } = this
    restAt(pack.chemistry, charge, cell)
    this.charge = charge
    this.voltage = pack.series * cell.voltage
    this.ohm = resistance(pack, charge)
    const current = mostCurrent(pack, this.voltage, this.ohm)
    this.most = current * (this.voltage - this.ohm * current)
    this.aboveFloor = this.coulombs * (cell.integral - this.floorIntegral)
    this.left = this.aboveFloor > 0 ? this.aboveFloor : 0
    this.spent = charge <= pack.floor || this.most <= this.least
  }

  /** Takes a mean power, W, for a time, s; what lies beyond the cut-off is not given. Returns the power that was. */
  draw(power: number, time: number): number {
    const given = power < this.most ? power : this.most
    const current = given <= 0 ? 0 : currentAt(this.voltage, this.ohm, given)
    const before = this.aboveFloor
    this.loss += current * current * this.ohm * time
    this.hold(chargeAfter(this.pack, this.charge, current, time))
    this.drained += before - this.aboveFloor
    return given
  }
}
