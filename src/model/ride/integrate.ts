import type { Route } from '../route/route'
import { emptyBooks, type Books } from './books'
import { forcesAt, noForces, type StepConditions } from './forces'
import { electricalPower } from './motor'
import { roadOf } from './road'
import { kilometresPerHour } from '../units'

/** Below this the rider walks at this pace, m/s: a choice. */
export const walkingSpeed = 4.5 * kilometresPerHour

/** Error of one substep by the embedded Euler step, as a share of kinetic energy; the step itself is an order better. */
const tolerance = 0.01
/** Share of the time scale of the drive's force that a substep may cover: Heun's step is stable to 2. */
const stiffness = 0.7
const shortestSubstep = 1 / 128
/** The next substep is 0.8 √(allowed / error) of this one, at most so many times as long: then the error is below the allowed by `ample`. */
const mostGrowth = 5
const ample = (mostGrowth / 0.8) ** 2

/** Bits of the state column. */
export const walking = 1
export const braking = 2
export const coasting = 4
export const packLimits = 8

/** What the ride asks of the batteries and of the halts; made by `simulate`. */
export interface Companion {
  /** What holds for a step; its inertial mass for all of the ride. */
  readonly step: StepConditions
  /** Fills it in for the step from a station to the next; rider's work so far, J. */
  prepare(station: number, riderWork: number): void
  /** Takes electrical energy for the motor: mean power, W, over a time, s. */
  draw(power: number, time: number): void
  /** Called on arrival at each station; returns the halt there, s, with all that happens in it done. */
  arrive(station: number, time: number, ridingTime: number): number
}

/** Columns of a ride, one entry per station. */
export interface RideColumns {
  /** Seconds since the start on arrival at the station, halts before it included. */
  time: Float64Array
  /** Seconds in motion up to the station. */
  ridingTime: Float64Array
  /** On arrival, m/s. */
  speed: Float64Array
  /** Mean over the step from this station to the next, W; the last entry is 0. */
  riderPower: Float64Array
  motorPower: Float64Array
  /** Work up to the station, J. */
  riderWork: Float64Array
  motorWork: Float64Array
  /** Bits walking, braking, coasting, packLimits, of the step from this station to the next. */
  state: Uint8Array
}

export interface RideRun {
  columns: RideColumns
  books: Books
}

/** What stays the same for the whole ride. */
export interface RideSettings {
  lossFactor: number
  /** Time lost in small halts for each metre, s/m. */
  smallHalts: number
  /** m g without the slope, N: mass times local gravity. */
  weight: number
}

/**
 * The ride as a differential equation in distance for the kinetic energy u = ½ m_eff v²: du/ds = drive − air − rolling − bearings − weight − brake,
 * by Heun's method (second order) in substeps that shrink where the drive's force is steep in speed or the embedded Euler step differs.
 * Slope, wind and air are constant within a step, so the road's length is ds/cos θ and the climb exactly m g Δh.
 *
 * @param route the route; its stations are the grid
 * @param limits fastest speed at each station, squared, m²/s²; linear between stations
 * @param settings see there
 * @param companion batteries, halts, and conditions by step
 * @see Martin et al. 1998, J. Appl. Biomech. 14:276-291; Heun's method in Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, II.1
 */
export function integrate(route: Route, limits: Float64Array, settings: RideSettings, companion: Companion): RideRun {
  const { distance, elevation } = route.stations
  const { level } = roadOf(route)
  const count = distance.length
  const columns: RideColumns = {
    time: new Float64Array(count),
    ridingTime: new Float64Array(count),
    speed: new Float64Array(count),
    riderPower: new Float64Array(count),
    motorPower: new Float64Array(count),
    riderWork: new Float64Array(count),
    motorWork: new Float64Array(count),
    state: new Uint8Array(count),
  }
  const books = emptyBooks()
  const { step } = companion
  const mass = step.inertialMass
  const perMass = 2 / mass
  const walkingKinetic = 0.5 * mass * walkingSpeed * walkingSpeed
  const here = noForces()
  const there = noForces()
  /** ½ m_eff v², J, and v, m/s, always both. */
  let kinetic = 0
  let speed = 0
  let time = 0
  let ridingTime = 0
  let riderWork = 0
  let motorWork = 0
  let suggested = Infinity

  for (let i = 0; i < count; i++) {
    columns.time[i] = time
    columns.ridingTime[i] = ridingTime
    columns.riderWork[i] = riderWork
    columns.motorWork[i] = motorWork
    columns.speed[i] = speed
    const halt = companion.arrive(i, time, ridingTime)
    if (halt > 0) {
      time += halt
      books.braking += kinetic
      kinetic = 0
      speed = 0
    }
    if (i === count - 1) break
    const horizontal = distance[i + 1]! - distance[i]!
    if (horizontal === 0) continue // a crossing: travelled, not ridden

    companion.prepare(i, riderWork)
    const length = horizontal / level[i]!
    const limitFrom = 0.5 * mass * limits[i]!
    const limitSlope = (0.5 * mass * limits[i + 1]! - limitFrom) / length
    let done = 0
    let trial = length
    let state = 0
    let duration = 0
    let riderStep = 0
    let motorStep = 0

    while (done < length) {
      forcesAt(step, speed, here)
      const rest = length - done
      const shortest = length * shortestSubstep
      const onFoot = kinetic <= walkingKinetic && kinetic > 0 && here.drive < here.resistance
      let next = walkingKinetic
      if (onFoot) trial = rest
      else {
        const stable = here.drive > 0 && kinetic > walkingKinetic ? (stiffness * 2 * kinetic) / here.drive : rest
        trial = Math.min(rest, Math.max(Math.min(stable, suggested), shortest))
        for (;;) {
          const predicted = kinetic + trial * (here.drive - here.resistance)
          forcesAt(step, predicted > 0 ? Math.sqrt(perMass * predicted) : 0, there)
          next = kinetic + 0.5 * trial * (here.drive - here.resistance + there.drive - there.resistance)
          const error = Math.abs(next - predicted)
          const allowed = tolerance * Math.max(next, walkingKinetic)
          const scale = allowed > ample * error ? mostGrowth : 0.8 * Math.sqrt(allowed / error)
          suggested = trial * scale
          if (error <= allowed || trial <= shortest) break
          trial = Math.max(shortest, trial * Math.max(0.2, scale))
        }
      }

      const limit = Math.max(0, limitFrom + limitSlope * (done + trial))
      let rider = 0.5 * (here.rider + there.rider)
      let motor = 0.5 * (here.motor + there.motor)
      let air = 0.5 * (here.air + there.air)
      let bearing = 0.5 * (here.bearing + there.bearing)
      let brake = 0
      let push = 0
      if (next > limit) {
        // At a limit the rider eases first, the motor with him, then brakes.
        const drive = 0.5 * (here.drive + there.drive)
        forcesAt(step, Math.sqrt(perMass * limit), there)
        air = 0.5 * (here.air + there.air)
        bearing = 0.5 * (here.bearing + there.bearing)
        const resistance = 0.5 * (here.resistance + there.resistance)
        const needed = (limit - kinetic) / trial + resistance
        if (needed < drive) {
          const eased = needed > 0 ? needed / drive : 0
          rider *= eased
          motor *= eased
          brake = Math.max(0, -needed)
          next = limit
          if (brake > 0) state |= braking
        } else next = kinetic + trial * (drive - resistance)
      } else if (onFoot || next < walkingKinetic) {
        forcesAt(step, walkingSpeed, there)
        if (there.drive < there.resistance) {
          // The drive can't hold the hill: the rider walks and pushes, motor off.
          next = Math.min(walkingKinetic, limit)
          rider = 0
          motor = 0
          air = there.air
          bearing = there.bearing
          const needed = (next - kinetic) / trial + there.resistance
          push = Math.max(0, needed)
          brake = Math.max(0, -needed)
          state |= walking
        }
      }
      if (next < 0) {
        // The last metres up to a halt are not ridden but pushed.
        push -= next / trial
        next = 0
        state |= walking
      }

      const speedNext = Math.sqrt(perMass * next)
      const speedSum = speed + speedNext
      duration += speedSum > 0.02 ? (2 * trial) / speedSum : trial / walkingSpeed
      riderStep += rider * trial
      motorStep += motor * trial
      books.air += air * trial
      books.bearings += bearing * trial
      books.braking += brake * trial
      books.walkingWork += push * trial
      kinetic = next
      speed = speedNext
      done += trial
      if (length - done < 1e-9 * length) done = length
    }

    books.rolling += step.rolling * length
    books.climbing += settings.weight * (elevation[i + 1]! - elevation[i]!)
    books.drivetrain += (1 - step.riderEfficiency) * riderStep + (1 - step.motorEfficiency) * motorStep
    riderWork += riderStep
    motorWork += motorStep
    const motorMean = motorStep / duration
    if (riderStep === 0 && (state & walking) === 0) state |= coasting
    if (motorStep > 0 && step.packPower < Math.min(step.assistRatio * step.riderPower, step.peakPower))
      state |= packLimits
    columns.riderPower[i] = riderStep / duration
    columns.motorPower[i] = motorMean
    columns.state[i] = state
    companion.draw(electricalPower(motorMean, settings.lossFactor), duration)
    time += duration + settings.smallHalts * horizontal
    ridingTime += duration
  }
  books.kinetic = kinetic
  books.riderWork = riderWork
  books.motorWork = motorWork
  return { columns, books }
}
