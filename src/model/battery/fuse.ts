import { codeDecides } from './cable'

/** Rated currents of blade fuses up to 40 A (ISO 8820-3; the list from memory). */
const sizes = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40] as const

/** Rated voltages of blade fuses, V (ISO 8820-3). */
const bladeVoltages = [32, 58] as const

/** A continuous load takes a fuse of at least this times its current (NEC 210.20(A)). */
const continuousLoad = 1.25

/** A fuse at the source's end of its lead, or why there is none. */
export interface FuseProposal {
  /** Rated current, A; undefined where no size lies between load and cable. */
  current: number | undefined
  /** Least rated d.c. voltage, V. */
  voltage: number
  /** Kinds that are rated for that voltage. */
  types: string[]
  sentence: string
}

/**
 * Kinds of fuse whose rated voltage is not below a pack's full voltage.
 *
 * @param fullVoltage V
 */
export function fuseTypes(fullVoltage: number): string[] {
  return [
    ...bladeVoltages.filter((rated) => rated >= fullVoltage).map((rated) => `blade fuse rated ${rated} V`),
    `d.c. fuse rated at least ${Math.ceil(fullVoltage)} V`,
  ]
}

/**
 * The smallest standard fuse of at least 1.25 times the load that does not exceed the cable's rating: I_B ≤ I_n ≤ I_z.
 *
 * @param load greatest steady current, A
 * @param cableRating current the cable carries for hours, A
 * @param fullVoltage of the pack at whose terminals the fuse sits, V
 * @see IEC 60364-4-43; NEC 210.20(A)
 */
export function proposeFuse(load: number, cableRating: number, fullVoltage: number): FuseProposal {
  const least = continuousLoad * load
  const size = sizes.find((rated) => rated >= least)
  const types = fuseTypes(fullVoltage)
  const fits = size !== undefined && size <= cableRating
  const sentence = fits
    ? `Fuse the source with ${size} A at its terminal, ${types[0]} (full: ${fullVoltage.toFixed(1)} V). ${codeDecides}`
    : `No fuse fits: ${load.toFixed(1)} A needs one of at least ${least.toFixed(1)} A, the cable allows ${cableRating.toFixed(1)} A; thicker cable or less current. ${codeDecides}`
  return { current: fits ? size : undefined, voltage: fullVoltage, types, sentence }
}
