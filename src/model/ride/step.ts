import type { StepConditions } from './forces'
import { canRide, hold, noMotion, ride, spareDrive, walk, walking, walkingSpeed, type Motion } from './motion'

/** The greatest speed along a step, squared, m²/s²: straight from its start to its end. */
export interface Limit {
  from: number
  to: number
}

/** A speed this share below its limit, squared, is on it; this share above walking pace is at it. */
const near = 1e-6
/** Pieces of a step are no shorter than this share of it, */
const shortest = 1 / 1024
/** or than this share of that, before one who hardly keeps a heavy bike rolling is pushed to walking pace. */
const beforeAPush = 1 / 4
/** Share of a step on foot from which it counts as walked. */
const leastWalk = 0.05
const walkingSquared = walkingSpeed * walkingSpeed

/**
 * The step from a station to the next. Mostly it is one piece, ridden or held at the limit; else it is made of pieces.
 *
 * @param motion what it took, its end speed included
 */
export function stepOver(step: StepConditions, limit: Limit, motion: Motion): void {
  if (motion.from > walkingSpeed * (1 + near)) {
    if (isOnLimit(step, limit, motion) && hold(step, motion)) return
    if (ride(step, motion) && motion.to * motion.to <= limit.to && motion.to > walkingSpeed) return
  }
  inPieces(step, limit, motion)
}

/** A piece of a step, the limit along it, m²/s², its least length, and where it is too long the length to try instead, m: numbers handed over would each be allocated. */
const piece = noMotion()
const ahead = { from: 0, to: 0, least: 0, instead: 0 }

/**
 * A step in which something begins or ends: a limit is met or left, the rider sets out, gets off or on, or the speed changes much. Each piece ends
 * where that happens, so that each follows one law.
 */
function inPieces(step: StepConditions, limit: Limit, motion: Motion): void {
  const { length } = motion
  const slope = (limit.to - limit.from) / length
  const onFoot = !canRide(step)
  clear(motion)
  piece.from = motion.from
  ahead.least = length * shortest
  piece.settling = motion.settling
  let left = length
  let trial = length
  while (left > 0) {
    piece.length = Math.min(trial, left)
    ahead.from = limit.to - slope * left
    ahead.to = Math.max(0, ahead.from + slope * piece.length)
    if (!tryPiece(step, onFoot)) {
      trial = ahead.instead
      continue
    }
    add(piece, motion)
    left -= piece.length
    piece.from = piece.to
    trial = length
  }
  motion.to = piece.to
  motion.settling = piece.settling
}

/**
 * Moves over `piece` below the limit `ahead`.
 *
 * @param onFoot the drive can't hold the road at walking pace
 * @returns whether it did, or `ahead.instead` is to be tried
 */
function tryPiece(step: StepConditions, onFoot: boolean): boolean {
  const { from, length } = piece
  const last = length <= ahead.least
  const squared = from * from
  if (onFoot && from <= walkingSpeed * (1 + near)) {
    walkOn(step)
    return true
  }

  piece.change = 0
  const limitSlope = (ahead.to - ahead.from) / length
  if (isOnLimit(step, ahead, piece)) {
    if (from + piece.to > 0 && hold(step, piece)) return true
  } else if (spareDrive(step, from) > 0) {
    // No faster than setting off allows, up to where the limit is met.
    const gain = 2 * step.settingOff
    const meets = limitSlope < gain ? (ahead.from - squared) / (gain - limitSlope) : length
    if (meets < length && !last) return tryInstead(meets)
    piece.to = Math.sqrt(Math.min(squared + gain * length, ahead.to))
    if ((last || spareDrive(step, piece.to) >= 0) && hold(step, piece)) return true
    if (!last) return tryInstead(0.5 * length)
  }

  if (!ride(step, piece)) {
    const least = ahead.least * (ahead.to > walkingSquared ? beforeAPush : 1)
    if (length > least) {
      ahead.instead = Math.max(0.5 * length, least)
      return false
    }
    walkOn(step)
    return true
  }
  const reached = piece.to * piece.to
  if (onFoot && reached < walkingSquared) {
    const slows = (length * (squared - walkingSquared)) / (squared - reached)
    if (slows < 0.99 * length && !last) return tryInstead(slows)
    bring(step, walkingSquared)
  } else if (reached > ahead.to) {
    const meets = (length * (ahead.from - squared)) / (reached - squared - limitSlope * length)
    if (meets < 0.99 * length && !last) return tryInstead(meets)
    bring(step, ahead.to)
  }
  return true
}

/** Whether a piece begins on the limit, and that rises no faster than one sets off: then it ends on it. */
function isOnLimit(step: StepConditions, limit: Limit, motion: Motion): boolean {
  if (limit.to - limit.from > 2 * step.settingOff * motion.length) return false
  motion.to = Math.sqrt(limit.to)
  return motion.from * motion.from >= limit.from * (1 - near)
}

function tryInstead(length: number): false {
  ahead.instead = Math.max(length, ahead.least)
  return false
}

/** Walks over `piece`, below the limit. */
function walkOn(step: StepConditions): void {
  piece.to = Math.min(walkingSpeed, Math.sqrt(ahead.to))
  walk(step, piece)
}

/** Brings `piece` to a speed, squared, m²/s², close to that at its end: by the brakes, or by a push. */
function bring(step: StepConditions, squared: number): void {
  const left = 0.5 * step.inertialMass * (piece.to * piece.to - squared)
  piece.braking += Math.max(0, left)
  piece.walkingWork += Math.max(0, -left)
  piece.to = Math.sqrt(squared)
}

function clear(motion: Motion): void {
  motion.time = 0
  motion.riderWork = 0
  motion.motorWork = 0
  motion.electricPower = 0
  motion.air = 0
  motion.bearings = 0
  motion.braking = 0
  motion.walkingWork = 0
  motion.state = 0
}

function add(part: Motion, motion: Motion): void {
  const time = motion.time + part.time
  motion.electricPower += (part.time / time) * (part.electricPower - motion.electricPower)
  motion.time = time
  motion.riderWork += part.riderWork
  motion.motorWork += part.motorWork
  motion.air += part.air
  motion.bearings += part.bearings
  motion.braking += part.braking
  motion.walkingWork += part.walkingWork
  // The push that sets a bike rolling downhill does not make a walk of the step.
  if (part.state !== walking || part.length > leastWalk * motion.length) motion.state |= part.state
}
