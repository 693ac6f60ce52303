import type { StepConditions } from './forces'
import type { Motion } from './motion'

/** The energy account of a ride at the wheel, J. The first three are put in, the rest is where it went. */
export interface Books {
  riderWork: number
  motorWork: number
  /** Pushed while walking. */
  walkingWork: number
  air: number
  rolling: number
  bearings: number
  drivetrain: number
  /** m g times the height gained; negative for a ride that ends lower. */
  climbing: number
  /** Kinetic energy at the end, of mass and wheels. */
  kinetic: number
  braking: number
}

export const emptyBooks = (): Books => ({
  riderWork: 0,
  motorWork: 0,
  walkingWork: 0,
  air: 0,
  rolling: 0,
  bearings: 0,
  drivetrain: 0,
  climbing: 0,
  kinetic: 0,
  braking: 0,
})

/** Enters a step. */
export function enter(books: Books, step: StepConditions, motion: Motion): void {
  const { riderWork, motorWork, to } = motion
  books.riderWork += riderWork
  books.motorWork += motorWork
  books.walkingWork += motion.walkingWork
  books.air += motion.air
  books.rolling += step.rolling * step.length
  books.bearings += motion.bearings
  books.drivetrain += (1 - step.riderEfficiency) * riderWork + (1 - step.motorEfficiency) * motorWork
  books.climbing += step.weightAlong * step.length
  books.braking += motion.braking
  books.kinetic = 0.5 * step.inertialMass * to * to
}

/** All work put in, J. */
export const workIn = (books: Books): number => books.riderWork + books.motorWork + books.walkingWork

/**
 * What is put in less what is accounted for, J; nought but for rounding if the integration is right.
 *
 * @see conservation of energy
 */
export const imbalance = (books: Books): number =>
  workIn(books) -
  (books.air + books.rolling + books.bearings + books.drivetrain + books.climbing + books.kinetic + books.braking)
