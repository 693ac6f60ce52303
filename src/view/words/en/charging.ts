import type { Format } from '../../format'

/** Cautions of a charge from a carried pack, for the bench and for paper. */
export const chargingIn = ({ measure }: Format) => ({
  /**
   * Said plainly of every charge from a carried pack.
   *
   * @see advice of fire services on e-bike batteries (London Fire Brigade; NFPA)
   */
  againstAdvice:
    'Fire services advise to charge with the maker’s charger only. A carried pack and a general-purpose converter go against that, so this stop is planned as attended: stay with it.',
  carried: [
    'Set the voltage with a meter before you connect; the right voltage and polarity first, current after.',
    'Fuse the lead at the source’s terminal; keep live plugs covered.',
    `Never leave it alone, never below ${measure(0, 'temperature')} or above ${measure(45, 'temperature')}; let packs cool after riding.`,
    'In the open, on something that does not burn, away from the way out.',
    'Do not open or change a pack; follow the maker’s instructions.',
    'Local code and a qualified person decide.',
  ],
})
