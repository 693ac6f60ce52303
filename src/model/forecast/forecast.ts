import type { StepConditions } from '../ride/forces'
import { coasting, couldRide, noMotion, packLimits, unpowered, walking, type Motion } from '../ride/motion'
import { tirednessAfter } from '../ride/rider'
import { stepOver, type Limit } from '../ride/step'
import { secondsPerHour } from '../units'
import type { Halt } from './outcome'
import type { Prepared } from './prepare'
import type { Load } from './pack-state'
import { Ride } from './ride'
import type { RideState } from './state'

/** What a ride is written into. */
export interface Sink {
  /** Halts are noted here, in order, where it is given. */
  halts?: Halt[]
  /** On arrival at a station; on leaving it; and after the step to the next, with its state bits. */
  arrive(station: number, ride: Ride): void
  leave(station: number, ride: Ride): void
  rode(station: number, state: number): void
}

/** Where a ride ends: on arrival at a station, or with all that happens there done. */
export type Until = Pick<RideState, 'station' | 'leaving'>

const smallHaltsPer = 100_000 // m
const motion = noMotion()
const limit: Limit = { from: 0, to: 0 }
const load: Load = { power: 0, time: 0, given: 0 }

/**
 * Rides on from a state to a station.
 *
 * @param prepared of route and plan
 * @param from any state of a ride by the same route and plan
 * @param until not before it
 * @param sink what is written into
 * @returns the state there; a ride in two parts gives the same bits as in one
 */
export function forecast(prepared: Prepared, from: RideState, until: Until, sink: Sink): RideState {
  const ride = new Ride(prepared)
  ride.restore(from)
  rideOn(prepared, ride, until, sink)
  return ride.state()
}

/** The ride itself, station by station; changes `ride`. The loop allocates nothing, a halt may. */
export function rideOn(prepared: Prepared, ride: Ride, until: Until, sink: Sink): void {
  const { road, limits, conditions, halts, light, route, plan } = prepared
  const { electronics, lights } = plan.assist
  /** c / CP: how much a joule on the pedals tires. */
  const tires = plan.rider.fade / (plan.rider.criticalPower * secondsPerHour)
  const { step, weight } = conditions
  const { distance, elevation } = route.stations
  const smallHalts = plan.rider.smallHalts / smallHaltsPer
  const reserve = plan.battery.reserve * ride.batteries.usable
  const { batteries, books } = ride

  let leaving = ride.leaving
  let i = ride.station
  for (; ; i++) {
    if (!leaving) {
      sink.arrive(i, ride)
      if (ride.reserveAt === null && batteries.left() < reserve) ride.reserveAt = distance[i]!
      if (i === until.station && !until.leaving) break
      if (halts.eventful[i] !== 0 || batteries.inUse.spent) halts.arrive(i, ride, step, sink.halts)
      if (batteries.inUse.spent) {
        ride.emptyAt ??= distance[i]!
        ride.reserveAt ??= ride.emptyAt
      }
    }
    leaving = i === until.station
    sink.leave(i, ride)
    if (leaving) break
    const length = road.length[i]!
    if (length === 0) continue // a crossing: travelled, not ridden

    const pack = batteries.inUse
    conditions.prepare(i, ride)
    motion.from = ride.speed
    motion.change = ride.change
    motion.length = length
    limit.from = limits[i]!
    limit.to = limits[i + 1]!
    stepOver(step, limit, motion)

    const { time, riderWork, motorWork } = motion
    const standing = light === undefined || light.lightAt(i, ride.time) !== 'day' ? electronics + lights : electronics
    load.power = motion.electricWork / time + standing
    load.time = time
    pack.draw(load)
    const forMotor = Math.max(0, load.given - standing) * time
    ride.motorEnergy += forMotor
    ride.electronics += load.given * time - forMotor
    books.riderWork += riderWork
    books.motorWork += motorWork
    books.walkingWork += motion.walkingWork
    books.air += motion.air
    books.rolling += step.rolling * length
    books.bearings += motion.bearings
    books.drivetrain += (1 - step.riderEfficiency) * riderWork + (1 - step.motorEfficiency) * motorWork
    books.climbing += weight * (elevation[i + 1]! - elevation[i]!)
    books.braking += motion.braking
    ride.change = motion.to - ride.speed
    ride.speed = motion.to
    ride.time += time + smallHalts * (distance[i + 1]! - distance[i]!)
    ride.ridingTime += time
    ride.tiredness = tirednessAfter(ride.tiredness, tires * riderWork)
    sink.rode(i, stateOf(step, motion))
  }
  ride.station = i
  ride.leaving = leaving
}

/** State bits of a step as it was ridden; on foot they say whether it was for want of what the packs give. */
function stateOf(step: StepConditions, { state, riderWork, motorWork }: Motion): number {
  const limited = step.packPower < step.peakPower && step.packPower < step.assistRatio * step.riderPower
  if ((state & walking) !== 0)
    return limited && couldRide(step) ? state | (step.packPower > 0 ? packLimits : unpowered) : state
  if (riderWork === 0) return state | coasting
  return motorWork > 0 && limited ? state | packLimits : state
}
