/** How a lithium pack may travel by air with a passenger. */
export type AirTravel = 'allowed' | 'withApproval' | 'notAllowed'

/** Rated energy up to which a pack may be carried, and up to which with the operator's approval, Wh. */
const freeWh = 100
const approvalWh = 160

/**
 * Whether a lithium pack may go on a plane with a passenger, by its rated energy: exactly 100 Wh still freely, exactly 160 Wh with approval.
 *
 * @param ratedWh of one pack, nominal voltage times rated capacity; blocks that come apart count one by one
 * @see IATA passenger provisions for lithium batteries, 2018; 49 CFR 173.185 for shipments
 */
export function airTravel(ratedWh: number): AirTravel {
  // Volts times ampere-hours of a label come out a rounding beside the whole number.
  const rounding = 1e-6
  if (ratedWh <= freeWh + rounding) return 'allowed'
  return ratedWh <= approvalWh + rounding ? 'withApproval' : 'notAllowed'
}
