import { packAt, usableEnergy } from '../battery/pack'
import { interpolate } from '../columns'
import { drawsOf } from '../plan/draws'
import type { Plan } from '../plan/schema'
import { bendLimits, brakeFor } from '../ride/bends'
import type { Route } from '../route/route'
import { stationNear } from '../route/nearest'
import { LightAlong } from '../world/daylight'
import { noWeather, wetFactor } from '../world/weather'
import { WeatherAlong } from '../world/weather-along'
import { instantOf, zoneOfRoute } from '../world/zone'
import type { Packed } from './batteries'
import { Conditions } from './conditions'
import { Halts } from './halts'
import { meanPace } from './mass'
import { remembered } from './remembered'
import { stepsOf } from './steps'

/** What a route and a plan decide for every ride by them, worked out once. */
export interface Prepared extends Packed {
  route: Route
  /** Time zone of the day's clock, tz database, and the start in it, Unix time, s. */
  zone: string
  started: number
  weather: WeatherAlong
  /** Where something draws in the dark only. */
  light: LightAlong | undefined
  conditions: Conditions
  halts: Halts
  /** Fastest speed at each station, squared, m²/s²; linear between. */
  limits: Float64Array
}

/**
 * Prepares rides over a route by a plan.
 *
 * @param route at least two stations
 * @param plan valid
 */
export function prepare(route: Route, plan: Plan): Prepared {
  const draws = drawsOf(plan)
  const zone = plan.zone ?? remembered(route, 'zone', [], () => zoneOfRoute(route))
  const started = instantOf(plan.start, zone)
  const weather = weatherOf(route, plan, started, zone)
  const halts = new Halts(route, plan, zone, started)
  // The same packs as long as the battery is the same: sources that were joined to them stay so.
  const packs = remembered(route, 'packs', [plan.battery], () =>
    plan.battery.packs.map((spec) => packAt(spec, plan.battery.temperatureCelsius)),
  )
  return {
    route,
    plan,
    zone,
    started,
    weather,
    light: draws.dark > 0 ? remembered(route, 'light', [started], () => new LightAlong(route, started)) : undefined,
    draws,
    conditions: new Conditions(route, plan, weather, stepsOf(route, plan, weather), 1),
    halts,
    packs,
    usable: packs.reduce((sum, pack) => sum + usableEnergy(pack), 0),
    limits: limitsOf(route, plan, weather, halts),
  }
}

const weatherOf = (route: Route, plan: Plan, started: number, zone: string): WeatherAlong =>
  remembered(route, 'weather', [plan.weather, plan.wet, started, zone], () => {
    const { distance, elevation } = route.stations
    const heightAt = (place: number) => interpolate(distance, elevation, place)
    return WeatherAlong.of(plan.weather.table, plan.weather, plan.wet, started, zone, heightAt)
  })

/** Bends, the rider's top speed, speed limits of stretches, standstill at halts and the finish, and the braking before each. */
function limitsOf(route: Route, plan: Plan, weather: WeatherAlong, halts: Halts): Float64Array {
  const { stations } = route
  const { lateralAcceleration, topSpeed, braking } = plan.bike
  const last = stations.distance.length - 1
  const road = remembered(
    route,
    'limits',
    [lateralAcceleration, topSpeed, braking, plan.stretches, weather, plan.wet],
    () => {
      const grip = plan.weather.table.length === 0 ? undefined : gripAlong(route, plan, weather)
      const limits = bendLimits(stations, lateralAcceleration, topSpeed, grip)
      for (const { start, end, speedLimit } of plan.stretches) {
        if (speedLimit === null) continue
        const to = stationNear(route, end)
        for (let i = stationNear(route, start); i <= to; i++) limits[i] = Math.min(limits[i]!, speedLimit * speedLimit)
      }
      limits[last] = 0
      brakeFor(limits, stations, last, braking, grip, true)
      return { limits, grip }
    },
  )
  const limits = road.limits.slice()
  for (const station of halts.places()) {
    limits[station] = 0
    brakeFor(limits, stations, station, braking, road.grip)
  }
  return limits
}

/** How much of the dry grip is left at each station at about the time the rider is there. */
function gripAlong({ stations }: Route, { wet }: Plan, weather: WeatherAlong): Float64Array {
  const there = noWeather()
  return stations.distance.map((distance) => {
    weather.at({ time: distance / meanPace, distance }, there)
    return wetFactor(there.wetness, wet.braking)
  })
}
