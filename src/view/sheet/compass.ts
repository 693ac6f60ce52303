import { plainWords } from '../words/words'

/** The nearest of the 16 points of the compass. */
export const compassPoint = (degrees: number): string => plainWords().compass[Math.round(degrees / 22.5) % 16]!

/** Degrees of one of the 16 points; undefined for anything else. */
export function degreesOf(point: string): number | undefined {
  const index = plainWords().compass.indexOf(point.toUpperCase())
  return index < 0 ? undefined : index * 22.5
}
