import { interpolate } from '../columns'
import { LightAlong } from '../world/daylight'
import { noWeather, wetFactor, WeatherAlong } from '../world/weather'
import { instantOf, zoneOfRoute } from '../world/zone'
import type { Plan } from '../plan/schema'
import { speedLimits } from '../ride/bends'
import { integrate, packLimits, walking, type Companion } from '../ride/integrate'
import type { Route } from '../route/route'
import { Batteries } from './batteries'
import { Conditions } from './conditions'
import { Halts } from './halts'
import type { Outcome } from './outcome'

const smallHaltsPer = 100_000 // m
/** Pace by which the time at a place is reckoned before the ride is, for whether the road is wet there, m/s. */
const meanPace = 5.5

/**
 * The whole forecast: the ride with its batteries, halts and crossings. Pure: the same route and plan give the same bits.
 *
 * @param route at least two stations
 * @param plan valid
 * @returns an Outcome that refers to both
 */
export function simulate(route: Route, plan: Plan): Outcome {
  const { stations } = route
  const count = stations.distance.length
  const { assist, bike } = plan
  const zone = plan.zone ?? zoneOfRoute(route)
  const started = instantOf(plan.start, zone)
  const heightAt = (distance: number) => interpolate(stations.distance, stations.elevation, distance)
  const weather = new WeatherAlong(plan.weather.table, plan.weather, plan.wet, started, zone, heightAt)
  const batteries = new Batteries(plan)
  const halts = new Halts(route, plan, batteries, zone, started)
  const limits = speedLimits(
    stations,
    bike.lateralAcceleration,
    bike.topSpeed,
    bike.braking,
    halts.stations(),
    plan.weather.table.length === 0 ? undefined : gripAlong(route, plan, weather),
  )
  const conditions = new Conditions(route, plan, weather)
  const light = assist.lightsOn === 'dark' && assist.lights > 0 ? new LightAlong(route, started) : undefined
  const leftAtStart = batteries.left()
  const reserve = plan.battery.reserve * batteries.usable
  const drained = new Float64Array(count)
  const left = new Float64Array(count)
  const pack = new Uint8Array(count)
  let electronics = 0
  let motorEnergy = 0
  let standing = assist.electronics + assist.lights
  let now = 0
  let reserveAt: number | undefined
  let emptyAt: number | undefined

  const companion: Companion = {
    step: conditions.step,
    prepare(station: number, riderWork: number) {
      const { spent, most } = batteries.inUse
      conditions.prepare(station, now, riderWork, spent ? 0 : most)
      if (light !== undefined)
        standing = assist.electronics + (light.lightAt(station, now) === 'day' ? 0 : assist.lights)
    },
    draw(power: number, time: number) {
      const given = batteries.inUse.draw(power + standing, time)
      const forMotor = Math.max(0, given - standing)
      electronics += (given - forMotor) * time
      motorEnergy += forMotor * time
    },
    arrive(station: number, time: number) {
      const energy = batteries.left()
      drained[station] = batteries.drained()
      left[station] = energy
      if (reserveAt === undefined && energy < reserve) reserveAt = stations.distance[station]!
      const stayed = halts.arrive(station, time)
      if (batteries.inUse.spent) {
        emptyAt ??= stations.distance[station]!
        reserveAt ??= emptyAt
      }
      pack[station] = batteries.active
      now = time + stayed
      return stayed
    },
  }

  const { columns, books } = integrate(
    route,
    limits,
    {
      lossFactor: assist.lossFactor,
      smallHalts: plan.rider.smallHalts / smallHaltsPer,
      weight: conditions.weight,
    },
    companion,
  )
  return {
    route,
    plan,
    zone,
    started,
    weather,
    columns: { ...columns, drained, left, pack },
    limits,
    halts: halts.list,
    usable: batteries.usable,
    leftAtStart,
    reserve,
    books,
    electric: {
      drained: batteries.drained(),
      packLoss: batteries.packLoss(),
      motorLoss: motorEnergy - books.motorWork,
      electronics,
      motorWork: books.motorWork,
    },
    reserveAt,
    emptyAt,
    length: route.length,
    walked: lengthWith(route, columns.state, walking),
    packLimited: lengthWith(route, columns.state, packLimits),
  }
}

/** How much of the dry grip is left at each station at about the time the rider is there. */
function gripAlong({ stations }: Route, { wet }: Plan, weather: WeatherAlong): (station: number) => number {
  const there = noWeather()
  return (station) => {
    const distance = stations.distance[station]!
    weather.at(distance / meanPace, distance, there)
    return wetFactor(there.wetness, wet.braking)
  }
}

function lengthWith(route: Route, state: Uint8Array, bit: number): number {
  const { distance } = route.stations
  let sum = 0
  for (let i = 0; i + 1 < distance.length; i++) if ((state[i]! & bit) !== 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
