import { headWindOf, noWeather, sideWindOf, wetFactor, type WeatherAlong } from '../world/weather'
import { surroundings } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import { airDensity, pressureAt, wheelDragArea, windShare } from '../ride/air'
import type { StepConditions } from '../ride/forces'
import { gravity } from '../ride/grade'
import { electricalPower, mechanicalPower } from '../ride/motor'
import { fadeShare } from '../ride/rider'
import { roadOf, type Road } from '../ride/road'
import type { Route } from '../route/route'
import { ridingMass } from './mass'

const settingOff = 0.6 // m/s², a choice
const densityEvery = 20 // m of height

/** The conditions of each step from route and plan. */
export class Conditions {
  readonly weight: number
  /** Those of the step last prepared. */
  readonly step: StepConditions
  private readonly road: Road
  /** Wind at the rider's height over that at 10 m. */
  private readonly windShare: number
  /** One weather all day: then density by height is in the table below, and the wind the same everywhere. */
  private readonly steady: boolean
  private readonly now = noWeather()
  private readonly density: Float64Array
  private readonly area: number
  /** Rolling resistance on a level dry road, N. */
  private readonly rolling: number
  /** Power that the packs must give for the motor's greatest, W. */
  private readonly peakElectrical: number

  constructor(
    private readonly route: Route,
    private readonly plan: Plan,
    private readonly along: WeatherAlong,
  ) {
    const { elevation, latitude } = route.stations
    const { weather, bike, rider, assist } = plan
    const road = roadOf(route)
    const mass = ridingMass(plan, route.length)
    this.road = road
    this.weight = mass * gravity(latitude[latitude.length >> 1]!, 0.5 * (road.lowest + road.highest))
    this.windShare = windShare(surroundings[weather.surroundings])
    this.steady = weather.table.length === 0
    this.along.at(0, 0, this.now)
    this.area = 0.5 * (bike.dragArea + wheelDragArea)
    this.rolling = bike.rolling * bike.surfaceFactor * this.weight
    this.peakElectrical = electricalPower(assist.peakPower, assist.lossFactor) + assist.electronics + assist.lights
    const start = elevation[0]!
    this.density = Float64Array.from({ length: Math.ceil((road.highest - road.lowest) / densityEvery) + 2 }, (_, i) => {
      const height = road.lowest + i * densityEvery
      const celsius = weather.temperatureCelsius - weather.lapseRate * (height - start)
      return airDensity(pressureAt(height, weather.seaLevelPressure), celsius, weather.humidity)
    })
    this.step = {
      inertialMass: mass + bike.rotatingMass,
      halfDensityArea: 0,
      headWind: 0,
      sideWind: 0,
      rolling: 0,
      weightAlong: 0,
      riderPower: 0,
      coastingSpeed: rider.coastingSpeed,
      assistRatio: 0,
      peakPower: assist.peakPower,
      torqueForce: assist.torque / bike.wheelRadius,
      limitSpeed: assist.limitSpeed,
      packPower: 0,
      riderEfficiency: bike.drivetrain,
      motorEfficiency: assist.place === 'crank' ? bike.drivetrain : 1,
      settingOff,
    }
  }

  /** Air density at a height within the route's, kg/m³; linear between heights 20 m apart. */
  densityAt(height: number): number {
    const place = (height - this.road.lowest) / densityEvery
    const i = place | 0
    const share = place - i
    return this.density[i]! * (1 - share) + this.density[i + 1]! * share
  }

  /**
   * Fills in `step` for the step from a station to the next.
   *
   * @param time since the start, s
   * @param riderWork so far, J
   * @param electrical what the packs can give, W
   */
  prepare(station: number, time: number, riderWork: number, electrical: number): void {
    const { distance, gradient } = this.route.stations
    const { rider, assist, weather, wet } = this.plan
    const { now, steady, road, step } = this
    if (!steady) this.along.at(time, distance[station]!, now)
    const height = road.middle[station]!
    const density = steady
      ? this.densityAt(height)
      : airDensity(pressureAt(height, now.pressure), now.seaLevelCelsius - weather.lapseRate * height, weather.humidity)
    const east = road.east[station]!
    const north = road.north[station]!
    const level = road.level[station]!
    const climb = road.climb[station]!
    step.halfDensityArea = this.area * density
    step.headWind = this.windShare * headWindOf(now, east, north)
    step.sideWind = this.windShare * sideWindOf(now, east, north)
    step.rolling = this.rolling * wetFactor(now.wetness, wet.rolling) * level
    step.weightAlong = this.weight * gradient[station]! * level
    step.riderPower =
      rider.power * (1 + (rider.climbFactor - 1) * climb) * fadeShare(riderWork, rider.fade, rider.criticalPower)
    step.assistRatio = assist.ratio + (assist.climbRatio - assist.ratio) * climb
    step.packPower =
      electrical >= this.peakElectrical
        ? assist.peakPower
        : mechanicalPower(electrical - assist.electronics - assist.lights, assist.lossFactor)
  }
}
