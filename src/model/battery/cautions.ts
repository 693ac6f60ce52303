/** What a rider must have confirmed before a carried pack is joined to a bike's. */
export interface Confirmed {
  /** Plus and minus of both ends and of every lead were measured. */
  polarity: boolean
  /** The full voltage of the bike's pack was read from its label or charger. */
  fullVoltage: boolean
}

/** What is still to be asked before a transfer, each one sentence. Nothing should be planned as safe while one is open. */
export function openQuestions({ polarity, fullVoltage }: Confirmed): string[] {
  const questions: string[] = []
  if (!polarity)
    questions.push(
      'Have you measured plus and minus at both ends of every lead? The same plug may be wired either way.',
    )
  if (!fullVoltage)
    questions.push('What is the pack’s full voltage? Read it from its label or its charger; do not guess.')
  return questions
}

/**
 * Said plainly of every charge from a carried pack.
 *
 * @see advice of fire services on e-bike batteries (London Fire Brigade; NFPA)
 */
export const againstAdvice =
  'Fire services advise to charge with the maker’s charger only. A carried pack and a general-purpose converter go against that, so this stop is planned as attended: stay with it.'

/** The usual cautions beside the bench, one sentence each. */
export const transferCautions: readonly string[] = [
  'Set the voltage with a meter before you connect; the right voltage and polarity first, current after.',
  'Fuse the lead at the source’s terminal; keep live plugs covered.',
  'Never leave it alone, never below 0 °C or above 45 °C; let packs cool after riding.',
  'In the open, on something that does not burn, away from the way out.',
  'Do not open or change a pack; follow the maker’s instructions.',
  'Local code and a qualified person decide.',
]
