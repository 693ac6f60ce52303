import { fadesOver } from './motor'
import { coastingFadesOver } from './rider'
import { bearingConstant, bearingSlope } from './roll'

const perFade = 1 / fadesOver
const perCoastingFade = 1 / coastingFadesOver

/** What does not change within one step; a plain record, filled anew for each step so that nothing is allocated. Mass and what the plan alone sets stay. */
export interface StepConditions {
  /** Along the slope, m; 0 for a crossing, which is not ridden. */
  length: number
  /** Mass with the wheels' inertia, kg. */
  inertialMass: number
  /** Its reciprocal, 1/kg. */
  perMass: number
  /** Half of air density times drag area, kg/m. */
  halfDensityArea: number
  /** Wind against the rider along the road and across it, m/s. */
  headWind: number
  sideWind: number
  /** Rolling resistance and weight along the road, N; the weight is negative downhill. */
  rolling: number
  weightAlong: number
  /** Rider's power here before coasting, W. */
  riderPower: number
  coastingSpeed: number
  /** Motor power for each watt of the rider. */
  assistRatio: number
  peakPower: number
  /** Greatest motor force at the rim, N. */
  torqueForce: number
  limitSpeed: number
  /** Mechanical power that the pack allows, W. */
  packPower: number
  /** Share of rider's and motor's power that reaches the wheel. */
  riderEfficiency: number
  motorEfficiency: number
  /** Greatest acceleration by pedals and motor, m/s². */
  settingOff: number
  /** Multiplies the motor's losses. */
  lossFactor: number
}

/** Powers and forces at one speed. */
export interface Forces {
  /** Power of rider and motor before the drivetrain, and of both at the wheel, W. */
  rider: number
  motor: number
  drive: number
  /** N. */
  air: number
  /** Air, rolling, bearings and weight along the road, N. */
  resistance: number
  /** Derivatives by speed, W/(m/s) and N/(m/s); that of the air is a little high in a side wind, which costs an iteration and no accuracy. */
  riderSlope: number
  motorSlope: number
  driveSlope: number
  airSlope: number
  resistanceSlope: number
}

export const noForces = (): Forces => ({
  rider: 0,
  motor: 0,
  drive: 0,
  air: 0,
  resistance: 0,
  riderSlope: 0,
  motorSlope: 0,
  driveSlope: 0,
  airSlope: 0,
  resistanceSlope: 0,
})

/**
 * All that acts on rider and bike at a speed. At a corner of a law its slope is that of the flatter side.
 *
 * @param step conditions of the step
 * @param speed m/s
 * @param into where the result goes
 * @see Martin et al. 1998, J. Appl. Biomech. 14:276-291, eq. 9 to 14
 */
export function forcesAt(step: StepConditions, speed: number, into: Forces): void {
  const along = speed + step.headWind
  const side = step.sideWind
  const airSpeed = Math.sqrt(along * along + side * side)
  const air = step.halfDensityArea * airSpeed * along
  const airSlope = step.halfDensityArea * (airSpeed + Math.abs(along))

  let rider = step.riderPower
  let riderSlope = 0
  const above = speed - step.coastingSpeed
  if (above > 0) {
    riderSlope = above < coastingFadesOver ? -rider * perCoastingFade : 0
    rider = above < coastingFadesOver ? rider + riderSlope * above : 0
  }

  let motor = step.assistRatio * rider
  let motorSlope = step.assistRatio * riderSlope
  if (motor >= step.peakPower) {
    motor = step.peakPower
    motorSlope = 0
  }
  if (motor > step.torqueForce * speed) {
    motor = step.torqueForce * speed
    motorSlope = step.torqueForce
  }
  const below = step.limitSpeed - speed
  if (below < fadesOver) {
    motorSlope = below > 0 ? (motorSlope * below - motor) * perFade : 0
    motor = below > 0 ? motor * below * perFade : 0
  }
  if (motor >= step.packPower) {
    motor = step.packPower
    motorSlope = 0
  }

  into.rider = rider
  into.motor = motor
  into.drive = step.riderEfficiency * rider + step.motorEfficiency * motor
  into.air = air
  into.resistance = air + bearingConstant + bearingSlope * speed + step.rolling + step.weightAlong
  into.riderSlope = riderSlope
  into.motorSlope = motorSlope
  into.driveSlope = step.riderEfficiency * riderSlope + step.motorEfficiency * motorSlope
  into.airSlope = airSlope
  into.resistanceSlope = airSlope + bearingSlope
}
