import type { Outcome } from '../../model/forecast/outcome'
import type { Words } from '../words/words'

export interface Part {
  key: keyof Words['answer']['reasons']['parts']
  /** J */
  energy: number
}

/** Parts worth a line: at least half a percent of the whole, largest first. */
function worthALine(parts: Part[]): Part[] {
  const whole = parts.reduce((sum, { energy }) => sum + Math.max(0, energy), 0)
  return parts.filter(({ energy }) => energy > whole / 200).sort((a, b) => b.energy - a.energy)
}

/** Where the work of rider and motor goes; what lies higher at the finish than at the start is climbing. */
export function workParts({ books }: Outcome): Part[] {
  return worthALine([
    { key: 'air', energy: books.air },
    { key: 'rolling', energy: books.rolling },
    { key: 'brakes', energy: books.braking },
    { key: 'chain', energy: books.drivetrain },
    { key: 'gained', energy: books.climbing },
    { key: 'bearings', energy: books.bearings },
  ])
}

/** Who does it. */
export function sourceParts({ books }: Outcome): Part[] {
  return worthALine([
    { key: 'rider', energy: books.riderWork + books.walkingWork },
    { key: 'motor', energy: books.motorWork },
    { key: 'descent', energy: Math.max(0, -books.climbing) },
  ])
}

/** What the packs' energy becomes. */
export function packParts({ electric }: Outcome): Part[] {
  return worthALine([
    { key: 'motorWork', energy: electric.motorWork },
    { key: 'motorLoss', energy: electric.motorLoss },
    { key: 'electronics', energy: electric.electronics },
    { key: 'packLoss', energy: electric.packLoss },
  ])
}
