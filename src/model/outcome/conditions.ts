import { surroundings } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import { airDensity, pressureAt, wheelDragArea, windShare } from '../ride/air'
import type { StepConditions } from '../ride/forces'
import { gravity } from '../ride/grade'
import { mechanicalPower } from '../ride/motor'
import { climbShare, fadeShare } from '../ride/rider'
import type { Route } from '../route/route'
import { radiansPerDegree } from '../units'
import { totalMass } from './outcome'

const settingOff = 0.6 // m/s², a choice
const densityEvery = 20 // m of height

/** Fills in the conditions of each step from route and plan. */
export class Conditions {
  readonly weight: number
  private readonly mass: number
  private readonly wind: number
  private readonly windFrom: number
  private readonly lowest: number
  private readonly density: Float64Array
  private readonly area: number
  private readonly effort: number

  constructor(
    private readonly route: Route,
    private readonly plan: Plan,
  ) {
    const { elevation, latitude } = route.stations
    const { weather, bike, rider } = plan
    let lowest = Infinity
    let highest = -Infinity
    for (const height of elevation) {
      if (height < lowest) lowest = height
      if (height > highest) highest = height
    }
    this.mass = totalMass(plan)
    this.weight = this.mass * gravity(latitude[latitude.length >> 1]!, 0.5 * (lowest + highest))
    this.wind = weather.windSpeed * windShare(surroundings[weather.surroundings])
    this.windFrom = weather.windFromDegrees * radiansPerDegree
    this.area = 0.5 * (bike.dragArea + wheelDragArea)
    this.effort = rider.power / rider.criticalPower
    this.lowest = lowest
    const start = elevation[0]!
    this.density = Float64Array.from({ length: Math.ceil((highest - lowest) / densityEvery) + 2 }, (_, i) => {
      const height = lowest + i * densityEvery
      const celsius = weather.temperatureCelsius - weather.lapseRate * (height - start)
      return airDensity(pressureAt(height, weather.seaLevelPressure), celsius, weather.humidity)
    })
  }

  /** Air density at a height within the route's, kg/m³; linear between heights 20 m apart. */
  densityAt(height: number): number {
    const place = (height - this.lowest) / densityEvery
    const i = place | 0
    const share = place - i
    return this.density[i]! * (1 - share) + this.density[i + 1]! * share
  }

  /** @param electrical what the packs can give, W */
  prepare(station: number, ridingTime: number, electrical: number, into: StepConditions): void {
    const { gradient, elevation, heading } = this.route.stations
    const { rider, bike, assist } = this.plan
    const slope = gradient[station]!
    const cosine = 1 / Math.sqrt(1 + slope * slope)
    const climb = climbShare(slope)
    const windAngle = this.windFrom - heading[station]!
    into.inertialMass = this.mass + bike.rotatingMass
    into.halfDensityArea = this.area * this.densityAt(0.5 * (elevation[station]! + elevation[station + 1]!))
    into.headWind = this.wind * Math.cos(windAngle)
    into.sideWind = this.wind * Math.sin(windAngle)
    into.rolling = bike.rolling * bike.surfaceFactor * this.weight * cosine
    into.weightAlong = this.weight * slope * cosine
    into.riderPower =
      rider.power *
      (1 + (rider.climbFactor - 1) * climb) *
      fadeShare(ridingTime, rider.fadePerHour, rider.fadeOnset, this.effort)
    into.coastingSpeed = rider.coastingSpeed
    into.assistRatio = assist.ratio + (assist.climbRatio - assist.ratio) * climb
    into.peakPower = assist.peakPower
    into.torqueForce = assist.torque / bike.wheelRadius
    into.limitSpeed = assist.limitSpeed
    into.packPower = mechanicalPower(electrical - assist.electronics - assist.lights, assist.lossFactor)
    into.riderEfficiency = bike.drivetrain
    into.motorEfficiency = assist.place === 'crank' ? bike.drivetrain : 1
    into.settingOff = settingOff
  }
}
