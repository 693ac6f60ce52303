import type { StepConditions } from '../ride/forces'
import { noMotion, type Motion } from '../ride/motion'
import { freshnessAfter } from '../ride/rider'
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
  /** On arrival at a station; on leaving one where something may have happened; and after the step to the next, how that was. */
  arrive(station: number, ride: Ride): void
  leave(station: number, ride: Ride): void
  rode(station: number, step: StepConditions, motion: Motion): void
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
  const { limits, conditions, halts, light, route, plan } = prepared
  const { eventful } = halts
  const { always, dark } = prepared.draws
  /** c / CP: how much a joule on the pedals tires. */
  const tires = plan.rider.fade / (plan.rider.criticalPower * secondsPerHour)
  const { step } = conditions
  const { distance } = route.stations
  const smallHalts = plan.rider.smallHalts / smallHaltsPer
  const reserve = plan.battery.reserve * ride.batteries.usable
  const { batteries } = ride

  const end = until.station
  const stays = !until.leaving
  let leaving = ride.leaving
  let i = ride.station
  for (; ; i++) {
    if (!leaving) {
      sink.arrive(i, ride)
      if (ride.reserveAt === null && batteries.left() < reserve) ride.reserveAt = distance[i]!
      if (i === end && stays) break
      if (eventful[i] !== 0 || (batteries.inUse.spent && batteries.hasAnother)) {
        halts.arrive(i, ride, sink.halts)
        sink.leave(i, ride)
      }
      if (batteries.inUse.spent) {
        ride.emptyAt ??= distance[i]!
        ride.reserveAt ??= ride.emptyAt
      }
    }
    leaving = i === end
    if (leaving) break
    conditions.prepare(i, ride)
    const { length } = step
    if (length === 0) continue // a crossing: travelled, not ridden

    motion.from = ride.speed
    motion.change = ride.change
    motion.settling = ride.settling
    motion.length = length
    limit.from = limits[i]!
    limit.to = limits[i + 1]!
    stepOver(step, limit, motion)

    const { time, riderWork, motorWork } = motion
    const standing = light === undefined || light.lightAt(i, ride) === 'day' ? always : always + dark
    load.power = motion.electricPower + standing
    load.time = time
    batteries.inUse.draw(load)
    const forMotor = Math.max(0, load.given - standing) * time
    ride.motorEnergy += forMotor
    ride.electronics += load.given * time - forMotor
    ride.riderWork += riderWork
    ride.motorWork += motorWork
    ride.change = motion.to - ride.speed
    ride.settling = motion.settling
    ride.speed = motion.to
    ride.time += time + smallHalts * (distance[i + 1]! - distance[i]!)
    ride.ridingTime += time
    ride.freshness = freshnessAfter(ride.freshness, tires * riderWork)
    sink.rode(i, step, motion)
  }
  ride.station = i
  ride.leaving = leaving
}
