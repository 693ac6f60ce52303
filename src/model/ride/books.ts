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

/** Enters a step, but for what `close` knows at the end. */
export function enter(books: Books, step: StepConditions, motion: Motion): void {
  const { length } = step
  const { to } = motion
  books.air += motion.air
  books.rolling += step.rolling * length
  books.bearings += motion.bearings
  books.climbing += step.weightAlong * length
  books.kinetic = 0.5 * step.inertialMass * to * to
  books.braking += motion.braking
  books.walkingWork += motion.walkingWork
}

/** The rider stands still. */
export function stand(books: Books): void {
  books.braking += books.kinetic
  books.kinetic = 0
}

/**
 * Enters what rider and motor did in all.
 *
 * @param step any of the ride
 */
export function close(
  books: Books,
  step: StepConditions,
  { riderWork, motorWork }: Pick<Books, 'riderWork' | 'motorWork'>,
): void {
  books.riderWork = riderWork
  books.motorWork = motorWork
  books.drivetrain = (1 - step.riderEfficiency) * riderWork + (1 - step.motorEfficiency) * motorWork
}
