/** Rated currents of blade fuses up to 40 A (ISO 8820-3; the list from memory). */
const sizes = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40] as const

/** Rated voltages of blade fuses, V (ISO 8820-3). */
const bladeVoltages = [32, 58] as const

/** A continuous load takes a fuse of at least this times its current (NEC 210.20(A)). */
const continuousLoad = 1.25

/** A fuse at the source's end of its lead, or why there is none: currents in A, voltages in V. */
export type FuseProposal =
  /**
   * @param blade rated voltage of the blade fuse that may be used; undefined where none is rated for the pack's full voltage, and another d.c. fuse is needed
   */
  | { code: 'fuse'; current: number; blade: number | undefined; full: number }
  /** @param least current that a fuse would need to be rated for */
  | { code: 'noFuse'; load: number; least: number; cableRating: number }

/**
 * The smallest standard fuse of at least 1.25 times the load that does not exceed the cable's rating: I_B ≤ I_n ≤ I_z.
 *
 * @param load greatest steady current, A
 * @param cableRating current the cable carries for hours, A
 * @param full voltage of the pack at whose terminals the fuse sits, V
 * @see IEC 60364-4-43; NEC 210.20(A)
 */
export function proposeFuse(load: number, cableRating: number, full: number): FuseProposal {
  const least = continuousLoad * load
  const current = sizes.find((rated) => rated >= least)
  return current !== undefined && current <= cableRating
    ? { code: 'fuse', current, blade: bladeVoltages.find((rated) => rated >= full), full }
    : { code: 'noFuse', load, least, cableRating }
}
