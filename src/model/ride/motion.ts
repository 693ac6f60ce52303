import { kilometresPerHour } from '../units'
import { forcesAt, noForces, type StepConditions } from './forces'
import { electricalPower } from './motor'
import { bearingConstant, bearingSlope } from './roll'

/** Below this the rider walks at this pace, m/s: a choice. */
export const walkingSpeed = 4.5 * kilometresPerHour

/** Bits of a step's state. */
export const walking = 1
export const braking = 2
export const coasting = 4
export const packLimits = 8
/** On foot where the motor could hold the road, had the packs charge left. */
export const unpowered = 16

/**
 * A piece of road and how it is ridden: what is asked, and what the ways to move below write of it. One record, for numbers handed from function to
 * function would each be allocated.
 */
export interface Motion {
  /** At its start, m/s. */
  from: number
  /** Guess of how much the speed changes, m/s; and how fast it settles, 1/m, as in the piece before, where what is so in this one is written. */
  change: number
  settling: number
  /** Along the slope, m. */
  length: number
  /** At its end, m/s: asked of `hold` and `walk`, found by `ride`. */
  to: number
  /** s. */
  time: number
  /** Work of rider and motor before the drivetrain, J. */
  riderWork: number
  motorWork: number
  /** From the pack for the motor, its mean, W. */
  electricPower: number
  /** Work against air and bearings, lost in the brakes, and pushed on foot, J. */
  air: number
  bearings: number
  braking: number
  walkingWork: number
  /** Bits `walking` and `braking`. */
  state: number
}

export const noMotion = (): Motion => ({
  from: 0,
  change: 0,
  settling: 0,
  length: 0,
  to: 0,
  time: 0,
  riderWork: 0,
  motorWork: 0,
  electricPower: 0,
  air: 0,
  bearings: 0,
  braking: 0,
  walkingWork: 0,
  state: 0,
})

/** Newton's steps end where one is below this share of the speed; what is left is of its square. */
const converged = 0.002
const mostPasses = 6
/** Speed may change within one piece by this share. */
const mostChange = 0.25
/** Acceleration may pass `settingOff` by what Newton's method leaves. */
const strongest = 1.01
const forces = noForces()

/** Of v₁ − v₀, how many w − v₀ are: 2 / (1 + q / √(1 + q²)) with q a sixth of the part of the way to rest. */
const weightOf = (settling: number): number => 2 / (1 + settling / Math.sqrt(36 + settling * settling))

/**
 * A piece of road ridden with all the drive there is, by the implicit midpoint rule in distance, one evaluation of the forces where the guess is
 * good: m/2 (v₁² − v₀²) = L (P(w)/w − R(w)) at w = (v₀ + v₁)/2, in the time L/w. Where the speed settles within the piece (a climb), w lies nearer
 * to v₁, as the exact solution of the linearised equation has it, so that nothing swings: how fast it settles is read in the piece before, which
 * is known sooner and near enough. The error is of third order in L, a piece.
 *
 * @param motion from above 0; its end speed is written
 * @returns whether it could be: not where the speed changes much, or the drive would accelerate by more than `settingOff`
 * @see midpoint rule: Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, II.7; weights by exponential fitting: Liniger and Willoughby 1970, SIAM J. Numer. Anal. 7:47
 */
export function ride(step: StepConditions, motion: Motion): boolean {
  const { from, length } = motion
  const mass = step.inertialMass
  let w = from + 0.5 * motion.change
  /** Of v₁ − v₀, how many w − v₀ are: 2 at the midpoint. */
  const perGain = weightOf(length * motion.settling)
  let delta = 0
  let perSpeed = 0
  let passes = 0
  do {
    w += delta
    forcesAt(step, w, forces)
    const { drive, driveSlope, resistance, resistanceSlope } = forces
    perSpeed = 1 / w
    const gained = (w - from) * perGain
    const mean = from + 0.5 * gained
    const kinetic = mass * gained * mean
    delta =
      (length * (drive - resistance * w) - kinetic * w) /
      (mass * (mean + 0.5 * gained) * w * perGain + kinetic + length * (resistanceSlope * w + resistance - driveSlope))
  } while (Math.abs(delta) > converged * w && ++passes < mostPasses)
  if (passes === mostPasses) return false
  const share = delta * perSpeed
  w += delta
  const gained = (w - from) * perGain
  const strong = gained * (from + 0.5 * gained) > strongest * step.settingOff * length
  if (strong || !(Math.abs(gained) < mostChange * from)) return false
  const time = length * perSpeed * (1 - share * (1 - share * (1 - share))) // length / w to 2e-11
  // Where a law bends within the last of Newton's steps, its straight line would pass the law.
  const rider = Math.max(0, forces.rider + forces.riderSlope * delta)
  const motor = Math.max(0, Math.min(forces.motor + forces.motorSlope * delta, step.assistRatio * rider))
  motion.to = from + gained
  motion.settling =
    (forces.resistanceSlope + (forces.drive * perSpeed - forces.driveSlope) * perSpeed) * perSpeed * step.perMass
  motion.time = time
  motion.riderWork = rider * time
  motion.motorWork = motor * time
  motion.electricPower = electricalPower(motor, step.lossFactor)
  motion.air = length * (forces.air + forces.airSlope * delta)
  motion.bearings = length * (bearingConstant + bearingSlope * w)
  motion.braking = 0
  motion.walkingWork = 0
  motion.state = 0
  return true
}

/**
 * A piece of road on which the square of the speed goes straight from one value to another: at a limit the rider eases first, the motor with him,
 * then brakes.
 *
 * @param motion one of its two speeds above 0
 * @returns whether the drive suffices; nothing is written where not
 */
export function hold(step: StepConditions, motion: Motion): boolean {
  const { from, to, length } = motion
  const w = 0.5 * (from + to)
  const time = length / w
  forcesAt(step, w, forces)
  const needed = 0.5 * step.inertialMass * (to * to - from * from) + length * forces.resistance
  const given = forces.drive * time
  if (needed > given) return false
  const share = needed > 0 ? needed / given : 0
  const motor = share * forces.motor
  motion.settling = 0
  motion.time = time
  motion.riderWork = share * forces.rider * time
  motion.motorWork = motor * time
  motion.electricPower = electricalPower(motor, step.lossFactor)
  motion.air = length * forces.air
  motion.bearings = length * (bearingConstant + bearingSlope * w)
  motion.braking = Math.max(0, -needed)
  motion.walkingWork = 0
  motion.state = needed < 0 ? braking : 0
  return true
}

/**
 * A piece of road on foot: all that is needed is pushed, or held back downhill.
 *
 * @param motion to no more than walking pace
 */
export function walk(step: StepConditions, motion: Motion): void {
  const { from, to, length } = motion
  forcesAt(step, to, forces)
  const needed = 0.5 * step.inertialMass * (to * to - from * from) + length * forces.resistance
  motion.settling = 0
  motion.time = length / (0.5 * (walkingSpeed + to))
  motion.riderWork = 0
  motion.motorWork = 0
  motion.electricPower = 0
  motion.air = length * forces.air
  motion.bearings = length * (bearingConstant + bearingSlope * to)
  motion.braking = Math.max(0, -needed)
  motion.walkingWork = Math.max(0, needed)
  motion.state = walking
}

/** Whether the drive can hold the road at walking pace. */
export function canRide(step: StepConditions): boolean {
  forcesAt(step, walkingSpeed, forces)
  return forces.drive >= walkingSpeed * forces.resistance
}

/** Whether the drive could, if the packs gave all that the motor asks for. */
export function couldRide(step: StepConditions): boolean {
  const { packPower } = step
  step.packPower = step.peakPower
  const could = canRide(step)
  step.packPower = packPower
  return could
}

/**
 * Power of pedals and motor at the wheel beyond what accelerates by `settingOff`, W.
 *
 * @param speed m/s
 */
export function spareDrive(step: StepConditions, speed: number): number {
  forcesAt(step, speed, forces)
  return forces.drive - speed * (forces.resistance + step.inertialMass * step.settingOff)
}
