import { indexAtOrBelow } from '../columns'
import type { Plan, PlanStop } from '../plan/schema'
import { speedLimits } from '../ride/bends'
import type { StepConditions } from '../ride/forces'
import { integrate, packLimits, walking, type Companion } from '../ride/integrate'
import type { Route } from '../route/route'
import { Batteries } from './batteries'
import { Conditions } from './conditions'
import type { Halt, Outcome } from './outcome'

const boardingTime = 20 * 60
const crossingSpeed = 6

/**
 * Time a crossing is taken to last where the plan says nothing: 20 minutes on land and 6 m/s on the water. A choice.
 *
 * @param length geodesic length of the gap, m
 * @returns s
 */
export const assumedCrossingTime = (length: number): number => Math.round(boardingTime + length / crossingSpeed)

/** Time of each of the route's crossings by the plan, s; assumed where the plan has none. */
export const crossingTimes = (route: Route, plan: Plan): number[] =>
  route.crossings.map(({ length }, gap) => plan.crossings[gap] ?? assumedCrossingTime(length))

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
  const stopsAt = stopsByStation(route, plan.stops)
  const gapAt = new Map(route.crossings.map((crossing, gap) => [route.sections[crossing.after]!.last, gap]))
  const times = crossingTimes(route, plan)
  const limits = speedLimits(stations, plan.bike.lateralAcceleration, plan.bike.topSpeed, plan.bike.braking, [
    ...stopsAt.keys(),
    ...gapAt.keys(),
    count - 1,
  ])
  const conditions = new Conditions(route, plan)
  const batteries = new Batteries(plan)
  const leftAtStart = batteries.left()
  const reserve = plan.battery.reserve * batteries.usable
  const drained = new Float64Array(count)
  const left = new Float64Array(count)
  const pack = new Uint8Array(count)
  const halts: Halt[] = []
  let electronics = 0
  let motorEnergy = 0
  let reserveAt: number | undefined
  let emptyAt: number | undefined
  const standing = plan.assist.electronics + plan.assist.lights

  /** A halt of a length, s, after those already at the station, and what is done in it. */
  const halt = (kind: Halt['kind'], station: number, arrive: number, act: () => Partial<Halt> & { time: number }) => {
    const leftBefore = batteries.left()
    const { time, ...rest } = act()
    halts.push({
      kind,
      station,
      distance: stations.distance[station]!,
      arrive,
      depart: arrive + time,
      leftBefore,
      leftAfter: batteries.left(),
      charges: [],
      ...rest,
    })
    return time
  }

  const companion: Companion = {
    prepare(station: number, ridingTime: number, step: StepConditions) {
      const { spent, most } = batteries.inUse
      conditions.prepare(station, ridingTime, spent ? 0 : most, step)
    },
    draw(power: number, time: number) {
      const given = batteries.inUse.draw(power, time)
      const forMotor = Math.max(0, given - standing)
      electronics += (given - forMotor) * time
      motorEnergy += forMotor * time
    },
    arrive(station: number, time: number) {
      const now = batteries.left()
      drained[station] = batteries.drained()
      left[station] = now
      if (reserveAt === undefined && now < reserve) reserveAt = stations.distance[station]!
      let stayed = 0
      const stops = stopsAt.get(station)
      if (stops !== undefined)
        for (const stop of stops)
          stayed += halt('stop', station, time + stayed, () => {
            const source = plan.sources.find(({ id }) => id === stop.source)
            if (source === undefined) return { stop: stop.id, time: stop.duration }
            const { time: charging, ...result } = batteries.chargeAt(stop, source)
            const stay = stop.goal === 'duration' || result.refusal !== undefined ? stop.duration : charging
            return { stop: stop.id, time: stay, ...result }
          })
      if (batteries.inUse.spent) {
        const arrive = time + stayed
        const swapTime = stops === undefined ? plan.battery.swapTime : 0
        if (batteries.swap()) {
          stayed += halt('swap', station, arrive, () => ({ time: swapTime }))
        } else {
          emptyAt ??= stations.distance[station]!
          reserveAt ??= emptyAt
        }
      }
      const gap = gapAt.get(station)
      if (gap !== undefined) stayed += halt('crossing', station, time + stayed, () => ({ gap, time: times[gap]! }))
      pack[station] = batteries.active
      return stayed
    },
  }

  const { columns, books } = integrate(
    route,
    limits,
    { lossFactor: plan.assist.lossFactor, standing, weight: conditions.weight },
    companion,
  )
  return {
    route,
    plan,
    columns: { ...columns, drained, left, pack },
    halts,
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

/** Stops by the station nearest to each, in the plan's order. */
function stopsByStation(route: Route, stops: readonly PlanStop[]): Map<number, PlanStop[]> {
  const byStation = new Map<number, PlanStop[]>()
  for (const stop of stops) {
    const station = stationNear(route, stop.distance)
    const there = byStation.get(station)
    if (there === undefined) byStation.set(station, [stop])
    else there.push(stop)
  }
  return byStation
}

/**
 * Index of the station nearest to a ridden distance; before a crossing that lies there.
 *
 * @param distance m
 */
export function stationNear(route: Route, distance: number): number {
  const at = route.stations.distance
  const below = indexAtOrBelow(at, distance)
  const i = below + 1 < at.length && at[below + 1]! - distance < distance - at[below]! ? below + 1 : below
  return i > 0 && at[i - 1] === at[i] ? i - 1 : i
}

function lengthWith(route: Route, state: Uint8Array, bit: number): number {
  const { distance } = route.stations
  let sum = 0
  for (let i = 0; i + 1 < distance.length; i++) if ((state[i]! & bit) !== 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
