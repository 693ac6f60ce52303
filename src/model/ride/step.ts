import type { StepConditions } from './forces'
import { canRide, hold, noMotion, ride, spareDrive, walk, walking, walkingSpeed, type Motion } from './motion'

/** The greatest speed along a step, squared, m²/s²: straight from its start to its end. */
export interface Limit {
  from: number
  to: number
}

/** A speed this share below its limit, squared, is on it; this share above walking pace is at it. */
const near = 1e-6
/** Pieces of a step are no shorter than this share of it. */
const shortest = 1 / 1024
/** Share of a step on foot from which it counts as walked. */
const leastWalk = 0.05
const walkingSquared = walkingSpeed * walkingSpeed

/**
 * The step from a station to the next. Mostly it is one piece, ridden or held at the limit; else it is made of pieces.
 *
 * @param motion what it took, its end speed included
 */
export function stepOver(step: StepConditions, limit: Limit, motion: Motion): void {
  const { from } = motion
  if (from > walkingSpeed * (1 + near)) {
    if (from * from >= limit.from * (1 - near) && limit.to > walkingSquared) {
      if (limit.to - limit.from <= 2 * step.settingOff * motion.length) {
        motion.to = Math.sqrt(limit.to)
        if (hold(step, motion)) return
      }
    }
    if (ride(step, motion) && motion.to * motion.to <= limit.to && motion.to > walkingSpeed) return
  }
  inPieces(step, limit, motion)
}

/** What is left of a step that is ridden in pieces. */
const piece = noMotion()
const ahead: Limit = { from: 0, to: 0 }

/**
 * A step in which something begins or ends: a limit is met or left, the rider sets out, gets off or on, or the speed changes much. Each piece ends
 * where that happens, so that each follows one law.
 */
function inPieces(step: StepConditions, limit: Limit, motion: Motion): void {
  const { length } = motion
  const slope = (limit.to - limit.from) / length
  const least = length * shortest
  const onFoot = !canRide(step)
  clear(motion)
  piece.from = motion.from
  let done = 0
  let trial = length
  while (done < length) {
    piece.length = Math.min(trial, length - done)
    ahead.from = limit.from + slope * done
    ahead.to = Math.max(0, ahead.from + slope * piece.length)
    const shorter = tryPiece(step, onFoot, least)
    if (shorter > 0) trial = shorter
    else {
      add(piece, motion)
      done += piece.length
      if (length - done < 1e-9 * length) done = length
      piece.from = piece.to
      trial = length
    }
  }
  motion.to = piece.to
}

/**
 * Moves over `piece` below the limit `ahead`.
 *
 * @param onFoot the drive can't hold the road at walking pace
 * @param least length, m, below which it is not made shorter
 * @returns 0, or the length to try instead, m
 */
function tryPiece(step: StepConditions, onFoot: boolean, least: number): number {
  const { from, length } = piece
  const last = length <= least
  const squared = from * from
  if (onFoot && from <= walkingSpeed * (1 + near)) {
    walkOn(step)
    return 0
  }

  piece.change = 0
  const gain = 2 * step.settingOff
  const limitSlope = (ahead.to - ahead.from) / length
  if (squared >= ahead.from * (1 - near) && limitSlope <= gain) {
    piece.to = Math.sqrt(ahead.to)
    if (from + piece.to > 0 && hold(step, piece)) return 0
  } else if (spareDrive(step, from) > 0) {
    // No faster than setting off allows, up to where the limit is met.
    const meets = limitSlope < gain ? (ahead.from - squared) / (gain - limitSlope) : length
    if (meets < length && !last) return Math.max(meets, least)
    piece.to = Math.sqrt(Math.min(squared + gain * length, ahead.to))
    const spare = spareDrive(step, piece.to)
    if (spare < 0 && !last) {
      // Up to about where the drive is no longer that strong.
      const over = spareDrive(step, from)
      const ends = from + ((piece.to - from) * over) / (over - spare)
      return Math.max(least, Math.min((ends * ends - squared) / gain, 0.7 * length))
    }
    if (hold(step, piece)) return 0
    if (!last) return 0.5 * length
  }

  if (from === 0 || !ride(step, piece)) {
    if (!last) return 0.5 * length
    walkOn(step)
    return 0
  }
  const reached = piece.to * piece.to
  if (onFoot && reached < walkingSquared) {
    const slows = (length * (squared - walkingSquared)) / (squared - reached)
    if (slows < 0.99 * length && !last) return Math.max(slows, least)
    bring(step, walkingSpeed)
  } else if (reached > ahead.to) {
    const meets = (length * (ahead.from - squared)) / (reached - squared - limitSlope * length)
    if (meets < 0.99 * length && !last) return Math.max(meets, least)
    bring(step, Math.sqrt(ahead.to))
  }
  return 0
}

/** Walks over `piece`, below the limit. */
function walkOn(step: StepConditions): void {
  piece.to = Math.min(walkingSpeed, Math.sqrt(ahead.to))
  walk(step, piece)
}

/** Brings `piece` to a speed, m/s, close to that at its end: by the brakes, or by a push. */
function bring(step: StepConditions, to: number): void {
  const left = 0.5 * step.inertialMass * (piece.to * piece.to - to * to)
  if (left > 0) piece.braking += left
  else piece.walkingWork -= left
  piece.to = to
}

function clear(motion: Motion): void {
  motion.time = 0
  motion.riderWork = 0
  motion.motorWork = 0
  motion.electricWork = 0
  motion.air = 0
  motion.bearings = 0
  motion.braking = 0
  motion.walkingWork = 0
  motion.state = 0
}

function add(part: Motion, motion: Motion): void {
  motion.time += part.time
  motion.riderWork += part.riderWork
  motion.motorWork += part.motorWork
  motion.electricWork += part.electricWork
  motion.air += part.air
  motion.bearings += part.bearings
  motion.braking += part.braking
  motion.walkingWork += part.walkingWork
  // The push that sets a bike rolling downhill does not make a walk of the step.
  if (part.state !== walking || part.length > leastWalk * motion.length) motion.state |= part.state
}
