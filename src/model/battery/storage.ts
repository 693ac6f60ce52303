import { coulombsPerAmpereHour, secondsPerHour } from '../units'
import type { ChemistryId } from './chemistry'

/** What a pack loses by in store. */
export interface Stored {
  chemistry: ChemistryId
  /** Rated, new, of what one protection board watches over. */
  capacityAh: number
  /** Present capacity over rated capacity, above 0, at most 1. */
  health: number
  /** Charge when it was last looked at, 0 to 1. */
  charge: number
  /** Time in store since then, s. */
  storage: number
  /** What the protection board draws in store, A. */
  boardCurrent: number
}

/** Mean month: a twelfth of a year of 365.25 days, h. */
const hoursPerMonth = 730.5

/**
 * Share of its capacity that a cell loses by itself in a month at 25 °C. Judgement, within the usual 1 to 3 %: measured NMC cells lose 0.2 to
 * 0.4 % (Zilberman et al. 2019), data sheets allow 5 %. For LFP no measured figure was read, so it stands at the upper end.
 */
export const selfDischargePerMonth: Readonly<Record<ChemistryId, number>> = { nmc: 0.02, lfp: 0.03 }

/**
 * Charge left after the time in store, 0 to 1: self-discharge of the cells and the draw of the protection board, both steady, at about 25 °C
 * (self-discharge about doubles with each 10 °C).
 */
export function chargeAfter({ chemistry, capacityAh, health, charge, storage, boardCurrent }: Stored): number {
  const board = boardCurrent / (capacityAh * health * coulombsPerAmpereHour)
  const loss = selfDischargePerMonth[chemistry] / (hoursPerMonth * secondsPerHour) + board
  return Math.max(0, charge - loss * storage)
}

/** Whether a pack went flat in store: its cells may be below the voltage from which they must not be charged again. */
export const wentFlat = (stored: Stored): boolean => stored.storage > 0 && chargeAfter(stored) === 0
