import { chargeAfter, currentAt, energyBetween, mostCurrent, openCircuit, resistance, type Pack } from '../battery/pack'
import type { Plan } from '../plan/schema'
import { mechanicalPower } from '../ride/motor'

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

  constructor(
    readonly pack: Pack,
    public charge: number,
    private readonly assist: Plan['assist'],
  ) {
    this.hold(charge)
  }

  /** Sets the charge, 0 to 1. */
  hold(charge: number): void {
    const { pack, assist } = this
    this.charge = charge
    this.voltage = openCircuit(pack, charge)
    this.ohm = resistance(pack, charge)
    const current = mostCurrent(pack, this.voltage, this.ohm)
    this.most = current * (this.voltage - this.ohm * current)
    this.aboveFloor = energyBetween(pack, pack.floor, charge)
    this.left = this.aboveFloor > 0 ? this.aboveFloor : 0
    this.spent =
      charge <= pack.floor || mechanicalPower(this.most - assist.electronics - assist.lights, assist.lossFactor) === 0
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
