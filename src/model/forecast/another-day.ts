import { packAt, usableEnergy } from '../battery/pack'
import type { Plan } from '../plan/schema'
import { WeatherAlong, type Disturbance } from '../world/weather-along'
import { Conditions } from './conditions'
import { Halts } from './halts'
import { prepare, type Prepared } from './prepare'
import { row, rowLength, stepsOf, windAlong, writeAir, writeAssist } from './steps'
import type { Route } from '../route/route'

/** How a day differs from what its plan and the forecast of the weather say of the air and the road. */
export interface Otherwise {
  /** Factor on all gradients, as far as weight goes. */
  steepness: number
  /** Of the weather by the hour, at a time, s since the start; not asked where one weather holds all day. */
  weather: (time: number) => Disturbance
}

/**
 * Many rides of one plan over one route, each on another day: other figures of rider, bike, packs, one weather, and lengths of stops. What these leave
 * as it is, is prepared once: the road, its limits, the calendar.
 */
export class OtherDays {
  private readonly base: Prepared
  private readonly steps: Float64Array
  private readonly wind: Float64Array
  private scale = 1
  /** Whose assist the days have. */
  private assisting: Plan

  /**
   * @param route at least two stations
   * @param plan valid
   */
  constructor(route: Route, plan: Plan) {
    this.base = prepare(route, plan)
    this.assisting = plan
    this.steps = stepsOf(route, plan, this.base.weather).slice()
    this.wind = windAlong(route, plan)
  }

  /** The day as planned. */
  get planned(): Prepared {
    return this.base
  }

  /**
   * Prepares a day; one prepared before is no longer to be ridden.
   *
   * @param plan as the plan given first, but for rider, bike without its limits of speed, assist and losses of the motor, one weather, health of packs,
   * and lengths of stops
   */
  on(plan: Plan, { steepness, weather: disturbed }: Otherwise): Prepared {
    const { base, steps } = this
    const { route, zone, started } = base
    const steady = plan.weather.table.length === 0
    const weather = steady
      ? WeatherAlong.of([], plan.weather, plan.wet, started, zone, () => route.stations.elevation[0]!)
      : base.weather.disturbed(disturbed)
    if (steady) writeAir(steps, route, plan, weather, this.wind)
    // No other plan has days of other assist.
    if (plan.learnt !== null) {
      this.assisting = plan
      this.writeScaled()
    }
    const packs = plan.battery.packs.map((spec) => packAt(spec, plan.battery.temperatureCelsius))
    return {
      ...base,
      plan,
      weather,
      conditions: new Conditions(route, plan, weather, steps, steepness),
      halts: new Halts(route, plan, zone, started),
      packs,
      usable: packs.reduce((sum, pack) => sum + usableEnergy(pack), 0),
    }
  }

  /** Holds the assist of all days, also of the one prepared last, at the plan's times a factor. */
  scaleAssist(factor: number): void {
    if (factor === this.scale) return
    this.scale = factor
    this.writeScaled()
  }

  private writeScaled(): void {
    const { steps, scale } = this
    writeAssist(steps, this.base.route, this.assisting)
    for (let at: number = row.assist; at < steps.length; at += rowLength) steps[at]! *= scale
  }

  /**
   * Prepares the day as planned, with other assist; one prepared before is no longer to be ridden.
   *
   * @param ratios motor power for each watt of the rider, one entry a station for the step from it to the next
   */
  assisted(ratios: ArrayLike<number>): Prepared {
    const { base, steps } = this
    const { route, plan, weather } = base
    for (let i = 0, at = row.assist; i < ratios.length; i++, at += rowLength) steps[at] = ratios[i]!
    return { ...base, conditions: new Conditions(route, plan, weather, steps, 1) }
  }
}
