import { headWindOf, noWeather, sideWindOf, wetFactor, type WeatherAlong } from '../day/weather'
import { surroundings } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import { airDensity, pressureAt, wheelDragArea, windShare } from '../ride/air'
import type { StepConditions } from '../ride/forces'
import { gravity } from '../ride/grade'
import { mechanicalPower } from '../ride/motor'
import { climbShare, fadeShare } from '../ride/rider'
import type { Route } from '../route/route'
import { ridingMass } from './mass'

const settingOff = 0.6 // m/s², a choice
const densityEvery = 20 // m of height

/** Fills in the conditions of each step from route and plan. */
export class Conditions {
  readonly weight: number
  private readonly mass: number
  /** Wind at the rider's height over that at 10 m. */
  private readonly windShare: number
  /** One weather all day: then density by height is in the table below, and the wind the same everywhere. */
  private readonly steady: boolean
  private readonly now = noWeather()
  private readonly lowest: number
  private readonly density: Float64Array
  private readonly area: number
  private readonly effort: number

  constructor(
    private readonly route: Route,
    private readonly plan: Plan,
    private readonly along: WeatherAlong,
  ) {
    const { elevation, latitude } = route.stations
    const { weather, bike, rider } = plan
    let lowest = Infinity
    let highest = -Infinity
    for (const height of elevation) {
      if (height < lowest) lowest = height
      if (height > highest) highest = height
    }
    this.mass = ridingMass(plan, route.length)
    this.weight = this.mass * gravity(latitude[latitude.length >> 1]!, 0.5 * (lowest + highest))
    this.windShare = windShare(surroundings[weather.surroundings])
    this.steady = weather.table.length === 0
    this.along.at(0, 0, this.now)
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

  /**
   * @param time since the start, s
   * @param ridingTime of it in motion, s
   * @param electrical what the packs can give, W
   */
  prepare(station: number, time: number, ridingTime: number, electrical: number, into: StepConditions): void {
    const { distance, gradient, elevation, heading } = this.route.stations
    const { rider, bike, assist, weather, wet } = this.plan
    const { now, steady } = this
    if (!steady) this.along.at(time, distance[station]!, now)
    const height = 0.5 * (elevation[station]! + elevation[station + 1]!)
    const density = steady
      ? this.densityAt(height)
      : airDensity(pressureAt(height, now.pressure), now.seaLevelCelsius - weather.lapseRate * height, weather.humidity)
    const slope = gradient[station]!
    const cosine = 1 / Math.sqrt(1 + slope * slope)
    const climb = climbShare(slope)
    into.inertialMass = this.mass + bike.rotatingMass
    into.halfDensityArea = this.area * density
    into.headWind = this.windShare * headWindOf(now, heading[station]!)
    into.sideWind = this.windShare * sideWindOf(now, heading[station]!)
    into.rolling = bike.rolling * bike.surfaceFactor * wetFactor(now.wetness, wet.rolling) * this.weight * cosine
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
