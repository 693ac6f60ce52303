/** How a lithium pack may travel by air with a passenger. */
export interface TravelNote {
  air: 'allowed' | 'with approval' | 'not allowed'
  sentence: string
}

/** Rated energy up to which a pack may be carried, and up to which with the operator's approval, Wh. */
const freeWh = 100
const approvalWh = 160

/**
 * Whether a lithium pack may go on a plane with a passenger, by its rated energy: exactly 100 Wh still freely, exactly 160 Wh with approval.
 *
 * @param ratedWh of one pack, nominal voltage times rated capacity; blocks that come apart count one by one
 * @see IATA passenger provisions for lithium batteries, 2018; 49 CFR 173.185 for shipments
 */
export function travelNote(ratedWh: number): TravelNote {
  const wattHours = `${ratedWh.toFixed(ratedWh < 200 ? 1 : 0)} Wh`
  const check = 'check the carrier’s current rules'
  // Volts times ampere-hours of a label come out a rounding beside the whole number.
  const rounding = 1e-6
  if (ratedWh <= freeWh + rounding) {
    return {
      air: 'allowed',
      sentence: `${wattHours}: by air in hand luggage up to 100 Wh, terminals covered; ${check}, also for post.`,
    }
  }
  if (ratedWh <= approvalWh + rounding) {
    return {
      air: 'with approval',
      sentence: `${wattHours}: by air only with the airline’s approval, at most two spares, in hand luggage; ${check}, also for post.`,
    }
  }
  return {
    air: 'not allowed',
    sentence: `${wattHours}: above 160 Wh, not on a passenger plane; by post or freight as dangerous goods only; ${check}.`,
  }
}
