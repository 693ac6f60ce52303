import type { Outcome } from '../../model/forecast/outcome'

export interface Part {
  name: string
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
    { name: 'Air', energy: books.air },
    { name: 'Rolling', energy: books.rolling },
    { name: 'Brakes', energy: books.braking },
    { name: 'Chain', energy: books.drivetrain },
    { name: 'Height gained', energy: books.climbing },
    { name: 'Bearings', energy: books.bearings },
  ])
}

/** Who does it. */
export function sourceParts({ books }: Outcome): Part[] {
  return worthALine([
    { name: 'You', energy: books.riderWork + books.walkingWork },
    { name: 'Motor', energy: books.motorWork },
    { name: 'Descent', energy: Math.max(0, -books.climbing) },
  ])
}

/** What the packs' energy becomes. */
export function packParts({ electric }: Outcome): Part[] {
  return worthALine([
    { name: 'Work of the motor', energy: electric.motorWork },
    { name: 'Motor losses', energy: electric.motorLoss },
    { name: 'Electronics and lights', energy: electric.electronics },
    { name: 'Heat in the packs', energy: electric.packLoss },
  ])
}
