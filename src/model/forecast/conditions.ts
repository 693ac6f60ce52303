import { drawsOf } from '../plan/draws'
import type { Plan } from '../plan/schema'
import { airDensity, wheelDragArea } from '../ride/air'
import type { StepConditions } from '../ride/forces'
import { mechanicalPower } from '../ride/motor'
import { roadOf } from '../ride/road'
import type { Route } from '../route/route'
import { noWeather, setOut, wetFactor, type Moment } from '../world/weather'
import type { WeatherAlong } from '../world/weather-along'
import { ridingMass } from './mass'
import type { Ride } from './ride'
import { row, rowLength } from './steps'

const settingOff = 0.6 // m/s², a choice

/** The conditions of each step from route and plan. */
export class Conditions {
  /** Those of the step last prepared. */
  readonly step: StepConditions
  private readonly distance: Float64Array
  /** One weather holds all day. */
  private readonly steady: boolean
  private readonly moment: Moment = { time: 0, distance: 0 }
  private readonly now = noWeather()
  // Set once below; begun as numbers, since the engine is slower with fields that were empty first.
  /** Half of the drag area, m². */
  private area = 0
  /** Weight, its part for a slope of sine 1, and rolling resistance on a level dry road, N. */
  private weight = 0
  private climbing = 0
  private rolling = 0
  private wetRolling = 0
  private power = 0
  private powerOnClimbs = 0
  /** Power that the packs give beside the motor, W. */
  private beside = 0
  private lapseRate = 0
  private humidity = 0

  /**
   * @param steps as in `stepsOf`, with which this may be made
   * @param steepness factor on all gradients as far as weight goes, 1 as the route has them
   */
  constructor(
    route: Route,
    plan: Plan,
    private readonly weather: WeatherAlong,
    private readonly steps: Float64Array,
    steepness: number,
  ) {
    const { distance } = route.stations
    const { bike, rider, assist } = plan
    const mass = ridingMass(plan, route.length)
    this.distance = distance
    this.steady = plan.weather.table.length === 0
    weather.at(setOut, this.now)
    this.area = 0.5 * (bike.dragArea + wheelDragArea)
    this.weight = mass * roadOf(route).gravity
    this.climbing = steepness * this.weight
    this.rolling = bike.rolling * this.weight
    this.wetRolling = plan.wet.rolling
    this.power = rider.power
    this.powerOnClimbs = rider.power * (rider.climbFactor - 1)
    const { always, dark } = drawsOf(plan)
    this.beside = always + dark
    this.lapseRate = plan.weather.lapseRate
    this.humidity = plan.weather.humidity
    this.step = {
      length: 0,
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

  /** Fills in `step` for the step from a station to the next, for a ride that is there. */
  prepare(station: number, ride: Ride): void {
    const { steps, step } = this
    const at = rowLength * station
    step.length = steps[at + row.length]!
    step.rolling = this.rolling * steps[at + row.rolling]!
    step.weightAlong = this.climbing * steps[at + row.rise]!
    step.riderPower = (this.power + this.powerOnClimbs * steps[at + row.climb]!) * ride.freshness
    step.assistRatio = steps[at + row.assist]!
    step.halfDensityArea = this.area * steps[at + row.density]!
    step.headWind = steps[at + row.head]!
    step.sideWind = steps[at + row.side]!
    if (!this.steady) this.meetWeather(station, ride)
    const { inUse } = ride.batteries
    if (inUse.most === Infinity) step.packPower = step.peakPower
    else if (inUse.spent) step.packPower = 0
    else step.packPower = Math.min(step.peakPower, mechanicalPower(inUse.most - this.beside, step.lossFactor))
  }

  /** Air and road of a step by the weather of the hour. */
  private meetWeather(station: number, ride: Ride): void {
    const { moment, now, steps, step } = this
    const at = rowLength * station
    const east = steps[at + row.east]!
    const north = steps[at + row.north]!
    moment.time = ride.time
    moment.distance = this.distance[station]!
    this.weather.at(moment, now)
    const pressure = now.pressure * steps[at + row.pressure]!
    const celsius = now.seaLevelCelsius - this.lapseRate * steps[at + row.middle]!
    step.halfDensityArea = this.area * airDensity(pressure, celsius, this.humidity)
    step.headWind = -(now.windEast * east + now.windNorth * north)
    step.sideWind = now.windNorth * east - now.windEast * north
    step.rolling *= wetFactor(now.wetness, this.wetRolling)
  }
}
