import { bearingConstant, bearingSlope } from './roll'
import { limitShare } from './motor'
import { pedallingShare } from './rider'

/** What does not change within one step; a plain record, filled anew for each step so that nothing is allocated. Mass and what the plan alone sets stay. */
export interface StepConditions {
  /** Mass with the wheels' inertia, kg. */
  inertialMass: number
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
}

/** Forces at one speed, N: work for each metre of road. */
export interface Forces {
  /** Rider's and motor's power over speed, before the drivetrain. */
  rider: number
  motor: number
  /** What arrives at the wheel of both. */
  drive: number
  air: number
  bearing: number
  /** Air, rolling, bearings and weight along the road. */
  resistance: number
}

export const noForces = (): Forces => ({ rider: 0, motor: 0, drive: 0, air: 0, bearing: 0, resistance: 0 })

/** Power over speed is not taken below this speed, m/s: the setting-off limit binds long before. */
const leastSpeed = 0.3

/**
 * All forces on rider and bike at a speed.
 *
 * @param step conditions of the step
 * @param speed m/s
 * @param into where the result goes, N
 * @see Martin et al. 1998, J. Appl. Biomech. 14:276-291, eq. 9 to 14, as forces
 */
export function forcesAt(step: StepConditions, speed: number, into: Forces): void {
  const along = speed + step.headWind
  const side = step.sideWind
  const air = step.halfDensityArea * Math.sqrt(along * along + side * side) * along
  const bearing = bearingConstant + bearingSlope * speed
  const resistance = air + bearing + step.rolling + step.weightAlong
  const riderPower = step.riderPower * pedallingShare(speed, step.coastingSpeed)
  let motorPower = Math.min(step.assistRatio * riderPower, step.peakPower, step.torqueForce * speed)
  motorPower = Math.min(motorPower * limitShare(speed, step.limitSpeed), step.packPower)
  const over = 1 / Math.max(speed, leastSpeed)
  let rider = riderPower * over
  let motor = motorPower * over
  let drive = step.riderEfficiency * rider + step.motorEfficiency * motor
  const mostDrive = Math.max(0, resistance + step.inertialMass * step.settingOff)
  if (drive > mostDrive) {
    const ease = mostDrive / drive
    rider *= ease
    motor *= ease
    drive = mostDrive
  }
  into.rider = rider
  into.motor = motor
  into.drive = drive
  into.air = air
  into.bearing = bearing
  into.resistance = resistance
}
