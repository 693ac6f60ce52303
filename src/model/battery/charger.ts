/** A charger on the mains: constant current up to its voltage, then that voltage held. */
export interface MainsCharger {
  /** The voltage it holds, V. */
  voltage: number
  /** Greatest current out of it, A. */
  current: number
  /** Energy into the pack over energy from the mains, above 0, at most 1. */
  efficiency: number
}
