import { OtherDays } from '../forecast/another-day'
import { coarser } from '../forecast/coarser'
import { rideOn, type Sink } from '../forecast/forecast'
import { Ride } from '../forecast/ride'
import { stateFrom } from '../forecast/start'
import type { RideState } from '../forecast/state'
import { Tally } from '../forecast/tally'
import type { Plan } from '../plan/schema'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'

/** Ways to ride on, by their factor on the plan's assist; one eases off at least so much. Choices. */
export const waysOn = { ease: 0.75, planned: 1, more: 1.35 } as const
type WayOn = keyof typeof waysOn

/** Factors on the plan's assist that are tried. */
export const factors: readonly [number, ...number[]] = [0.25, 0.5, waysOn.ease, waysOn.planned, waysOn.more]

/** The factor with which one eases off: the greatest that lasts, or the least where none does. @param lasts whether the charge does at a factor */
export const easedOff = (lasts: (factor: number) => boolean): number =>
  factors.findLast((factor) => factor <= waysOn.ease && lasts(factor)) ?? factors[0]

/** What has to be left on arrival at a place for each way to ride on, share of all usable energy; undefined where no charge would do. */
export type ToRideOn = Record<WayOn, number | undefined>

/** Ways to ride on, and at each place what has to be left for them. */
export interface ChargesToRideOn {
  factors: Record<WayOn, number>
  places: ToRideOn[]
}

/** Shares of the charge are told apart to this. */
const fine = 0.005
const unwritten: Sink = { arrive: () => undefined, leave: () => undefined, rode: () => undefined }
const nowhere = new Float64Array()

/**
 * At each place, the least charge on arrival with which the rest of the day stays above the reserve, with the plan's charging to come: easing off, as
 * planned, and spending more from there to the finish. Found by riding, each to half a percent, never less than it takes; the clock at the place is that
 * of the plan. To ease off is the greatest factor with which the day as planned lasts.
 *
 * @param route at least two stations
 * @param plan valid
 * @param distances ridden, m, ascending
 */
export function chargeToRideOn(route: Route, plan: Plan, distances: readonly number[]): ChargesToRideOn {
  const road = coarser(route, plan.bike)
  const days = new OtherDays(road, plan)
  const asPlanned = days.on(plan, { steepness: 1, weather: () => ({ celsius: 0, speed: 0, turn: 0 }) })
  const ride = new Ride(asPlanned)
  const states = distances.map((distance): RideState => {
    rideOn(asPlanned, ride, { station: stationNear(road, distance), leaving: false }, unwritten)
    return ride.state()
  })
  const tally = new Tally([], nowhere, nowhere, nowhere)
  const lasts = (state: RideState, share: number): boolean => {
    const rest = new Ride(asPlanned)
    tally.run(asPlanned, rest, stateFrom(asPlanned, state, { time: state.time, left: share * asPlanned.usable }))
    return rest.reserveAt === null
  }
  const start = new Ride(asPlanned).state()
  const ease = easedOff((factor) => {
    days.scaleAssist(factor)
    const whole = new Ride(asPlanned)
    tally.run(asPlanned, whole, start)
    return whole.reserveAt === null
  })
  const needs = (factor: number) => {
    days.scaleAssist(factor)
    return states.map((state) => leastThat((share) => lasts(state, share), plan.battery.reserve))
  }
  const to = { ease: needs(ease), planned: needs(waysOn.planned), more: needs(waysOn.more) }
  return {
    factors: { ...waysOn, ease },
    places: distances.map((_, k) => ({ ease: to.ease[k], planned: to.planned[k], more: to.more[k] })),
  }
}

/** As `chargeToRideOn`, of one input. */
export const rideOnAt = (
  route: Route,
  { plan, distances }: { plan: Plan; distances: readonly number[] },
): ChargesToRideOn => chargeToRideOn(route, plan, distances)

/** The least share from some on with which it lasts, by halving; undefined where all is not enough. */
function leastThat(lasts: (share: number) => boolean, from: number): number | undefined {
  if (lasts(from)) return from
  if (!lasts(1)) return undefined
  let [low, high] = [from, 1]
  while (high - low > fine) {
    const middle = 0.5 * (low + high)
    if (lasts(middle)) high = middle
    else low = middle
  }
  return high
}
