/** Why a file gives no route: a code with what it is about; lines count from 1, lengths in m. */
export type RouteFault =
  | { code: 'empty' | 'zip' | 'damagedGzip' | 'notXml' | 'noRoot' | 'nothingRidden' | 'programMissing' }
  | { code: 'tooLarge'; most: number }
  | { code: 'tooManyPoints'; most: number }
  | { code: 'encoding'; encoding: string }
  | { code: 'otherRoot'; root: string }
  | { code: 'entities'; line: number }
  | { code: 'cutOff'; line: number }
  | { code: 'notClosed'; tag: string; opened: number; line: number }
  | { code: 'notWellFormed'; line: number }
  | { code: 'noPoints'; places: number }
  | { code: 'onlyZeros' | 'noCoordinates' | 'onePlace'; points: number }
  | { code: 'noOrder'; length: number }
  | { code: 'noSuchLine'; lines: number; asked: number }

/** Thrown inside the reader and caught at its door. */
export class Refusal extends Error {
  constructor(readonly fault: RouteFault) {
    super(fault.code)
  }
}
