/** What a rider must have confirmed before a carried pack is joined to a bike's. */
export interface Confirmed {
  /** Plus and minus of both ends and of every lead were measured. */
  polarityMeasured: boolean
  /** The full voltage of the bike's pack was read from its label or charger. */
  fullVoltageKnown: boolean
}

/** What is still to be asked before a transfer. Nothing should be planned as safe while one is open. */
export const openQuestions = (confirmed: Confirmed): (keyof Confirmed)[] =>
  (['polarityMeasured', 'fullVoltageKnown'] as const).filter((question) => !confirmed[question])
