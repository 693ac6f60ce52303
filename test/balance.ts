import type { Books } from '../src/model/ride/books'

/** All work put in, J. */
export const workIn = (books: Books): number => books.riderWork + books.motorWork + books.walkingWork

/**
 * What is put in less what is accounted for, J; nought but for what the solution leaves if the integration is right.
 *
 * @see conservation of energy
 */
export const imbalance = (books: Books): number =>
  workIn(books) -
  (books.air + books.rolling + books.bearings + books.drivetrain + books.climbing + books.kinetic + books.braking)
