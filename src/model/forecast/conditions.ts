import type { Plan } from '../plan/schema'
import { surroundings } from '../plan/parameters'
import { airDensity, pressureAt, wheelDragArea, windShare } from '../ride/air'
import type { StepConditions } from '../ride/forces'
import { gravity } from '../ride/grade'
import { electricalPower, mechanicalPower } from '../ride/motor'
import { roadOf, type Road } from '../ride/road'
import type { Route } from '../route/route'
import { headWindOf, noWeather, sideWindOf, wetFactor, type Weather, type WeatherAlong } from '../world/weather'
import { alongRoute, type Along } from './along'
import { ridingMass } from './mass'
import { remembered } from './remembered'
import type { Ride } from './ride'

const settingOff = 0.6 // m/s², a choice
const densityEvery = 20 // m of height

/** Air at each step where one weather holds all day: density, kg/m³, and wind against the rider and across at his height, m/s. */
interface Air {
  density: Float64Array
  head: Float64Array
  side: Float64Array
}

/** The conditions of each step from route and plan. */
export class Conditions {
  /** Mass times local gravity, N. */
  readonly weight: number
  /** Those of the step last prepared. */
  readonly step: StepConditions
  private readonly road: Road
  private readonly along: Along
  /** Wind at the rider's height over that at 10 m. */
  private readonly windShare: number
  /** Where one weather holds all day. */
  private readonly steady: Air | undefined
  private readonly now = noWeather()
  private readonly area: number
  /** Rolling resistance on a level dry road, N. */
  private readonly rolling: number
  private readonly wetRolling: number
  private readonly power: number
  private readonly powerOnClimbs: number
  /** Power that the packs must give for the motor's greatest, W. */
  private readonly peakElectrical: number
  private readonly beside: number

  constructor(
    private readonly route: Route,
    private readonly plan: Plan,
    private readonly weather: WeatherAlong,
  ) {
    const { latitude } = route.stations
    const { bike, rider, assist } = plan
    const road = roadOf(route)
    const mass = ridingMass(plan, route.length)
    this.road = road
    this.along = alongRoute(route, plan)
    this.weight = mass * gravity(latitude[latitude.length >> 1]!, 0.5 * (road.lowest + road.highest))
    this.windShare = windShare(surroundings[plan.weather.surroundings])
    this.weather.at(0, 0, this.now)
    this.steady =
      plan.weather.table.length > 0
        ? undefined
        : remembered(route, 'air', [plan.weather, this.along], () => steadyAir(route, plan, this.along, this.now))
    this.area = 0.5 * (bike.dragArea + wheelDragArea)
    this.rolling = bike.rolling * this.weight
    this.wetRolling = plan.wet.rolling
    this.power = rider.power
    this.powerOnClimbs = rider.power * (rider.climbFactor - 1)
    this.beside = assist.electronics + assist.lights
    this.peakElectrical = electricalPower(assist.peakPower, assist.lossFactor) + this.beside
    this.step = {
      inertialMass: mass + bike.rotatingMass,
      perMass: 1 / (mass + bike.rotatingMass),
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
      lossFactor: assist.lossFactor,
    }
  }

  /**
   * Fills in `step` for the step from a station to the next, for a ride that is there.
   */
  prepare(station: number, ride: Ride): void {
    const { along, now, road, step, steady } = this
    if (steady !== undefined) {
      step.halfDensityArea = this.area * steady.density[station]!
      step.headWind = steady.head[station]!
      step.sideWind = steady.side[station]!
    } else this.meetWeather(station, ride)
    step.rolling =
      this.rolling * along.surface[station]! * wetFactor(now.wetness, this.wetRolling) * road.level[station]!
    step.weightAlong = this.weight * road.rise[station]!
    step.riderPower = (this.power + this.powerOnClimbs * road.climb[station]!) / ride.tiredness
    step.assistRatio = along.assist[station]!
    const { spent, most } = ride.batteries.inUse
    if (spent) step.packPower = 0
    else if (most >= this.peakElectrical) step.packPower = step.peakPower
    else step.packPower = mechanicalPower(most - this.beside, step.lossFactor)
  }
  /** Air and road of a step by the weather of the hour. */
  private meetWeather(station: number, ride: Ride): void {
    const { now, road, step } = this
    const { lapseRate, humidity } = this.plan.weather
    this.weather.at(ride.time, this.route.stations.distance[station]!, now)
    const height = road.middle[station]!
    const wind = this.windShare * this.along.wind[station]!
    step.halfDensityArea =
      this.area * airDensity(pressureAt(height, now.pressure), now.seaLevelCelsius - lapseRate * height, humidity)
    step.headWind = wind * headWindOf(now, road.east[station]!, road.north[station]!)
    step.sideWind = wind * sideWindOf(now, road.east[station]!, road.north[station]!)
  }
}

/** Density is linear between heights 20 m apart. */
function steadyAir(route: Route, plan: Plan, along: Along, weather: Weather): Air {
  const { lapseRate, temperatureCelsius, seaLevelPressure, humidity } = plan.weather
  const { lowest, highest, middle, east, north } = roadOf(route)
  const start = route.stations.elevation[0]!
  const table = Float64Array.from({ length: Math.ceil((highest - lowest) / densityEvery) + 2 }, (_, i) => {
    const height = lowest + i * densityEvery
    const celsius = temperatureCelsius - lapseRate * (height - start)
    return airDensity(pressureAt(height, seaLevelPressure), celsius, humidity)
  })
  const share = windShare(surroundings[plan.weather.surroundings])
  return {
    density: middle.map((height) => {
      const place = (height - lowest) / densityEvery
      const i = Math.floor(place)
      return table[i]! + (place - i) * (table[i + 1]! - table[i]!)
    }),
    head: along.wind.map((open, i) => share * open * headWindOf(weather, east[i]!, north[i]!)),
    side: along.wind.map((open, i) => share * open * sideWindOf(weather, east[i]!, north[i]!)),
  }
}
