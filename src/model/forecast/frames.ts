import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { stationNear } from '../route/nearest'
import { ColumnsSink, emptyColumns, type Account } from './columns-sink'
import { rideOn } from './forecast'
import type { Outcome } from './outcome'
import { prepare, type Prepared } from './prepare'
import { Ride } from './ride'
import { outcomeOf } from './simulate'
import type { RideState } from './state'

/** Outcomes that may still be read: the present one, and the one before it while the views turn to it. */
const read = 2
/** Parts of a ride at whose ends it may be gone on from. */
const parts = 48

/** A forecast of the gesture: what it was made by, and what was written of it. */
interface Made {
  prepared: Prepared
  sink: ColumnsSink
  outcome: Outcome
}

/** The last ride of the gesture on arrival at a station. */
interface Mark {
  state: RideState
  account: Account
}

/**
 * The outcomes of a gesture, each looked at for a frame only: the columns of one that nobody reads any more are written anew for the next, and where
 * only stops are moved the ride is gone on with from before the first of them.
 */
export class Frames {
  private made: Made[] = []
  private marks: Mark[] = []

  /**
   * As `simulate`, to the bit. The columns of the outcome given by the last call but one are no longer to be read.
   *
   * @param kept outcomes that are read for longer
   */
  next(route: Route, plan: Plan, kept: readonly (Outcome | undefined)[]): Outcome {
    const prepared = prepare(route, plan)
    const before = this.made.at(-1)
    const apart = before === undefined ? 0 : partFrom(before.prepared, prepared)
    this.marks = this.marks.filter(({ state }) => state.station < apart)
    this.made = this.made.filter(({ outcome }) => outcome.route === route)
    const spare = this.takeUnread(kept)
    const last = prepared.limits.length - 1
    const sink = new ColumnsSink(spare?.sink.columns ?? emptyColumns(last + 1))
    const ride = new Ride(prepared)
    const mark = this.marks.at(-1)
    if (before !== undefined && mark !== undefined) {
      ride.restore(mark.state)
      sink.takeOver(before.sink, mark.state.station, mark.account)
    }
    this.ride(prepared, ride, sink)
    const outcome = outcomeOf(prepared, sink, ride.state())
    this.made.push({ prepared, sink, outcome })
    return outcome
  }

  /** What was given so far is read for as long as anyone likes. */
  end(): void {
    this.made = []
    this.marks = []
  }

  /** One whose columns may be written anew. */
  private takeUnread(kept: readonly (Outcome | undefined)[]): Made | undefined {
    const unread = this.made.findIndex(({ outcome }, k) => k <= this.made.length - read && !kept.includes(outcome))
    return unread < 0 ? undefined : this.made.splice(unread, 1)[0]
  }

  /** To the finish, with a mark at the end of each part. */
  private ride(prepared: Prepared, ride: Ride, sink: ColumnsSink): void {
    const last = prepared.limits.length - 1
    const length = Math.ceil(last / parts)
    for (let to = length * (Math.floor(ride.station / length) + 1); to < last; to += length) {
      rideOn(prepared, ride, { station: to, leaving: false }, sink)
      this.marks.push({ state: ride.state(), account: sink.mark() })
    }
    rideOn(prepared, ride, { station: last, leaving: true }, sink)
  }
}

/** The first station at which two rides may differ: of the same but for places of stops the first of these or of the braking for them, else the start. */
function partFrom(before: Prepared, now: Prepared): number {
  if (before.route !== now.route || !differInStops(before.plan, now.plan)) return 0
  const limits = now.limits.findIndex((limit, station) => limit !== before.limits[station])
  const stops = now.plan.stops.flatMap((stop, k) => {
    const was = before.plan.stops[k]!
    return stop === was ? [] : [stationNear(now.route, stop.distance), stationNear(now.route, was.distance)]
  })
  return Math.min(limits < 0 ? Infinity : limits, ...stops)
}

/** Whether two plans are the same but for the places of stops. */
const differInStops = (before: Plan, now: Plan): boolean =>
  sameBut(before, now, 'stops') &&
  before.stops.length === now.stops.length &&
  before.stops.every((stop, k) => sameBut(stop, now.stops[k]!, 'distance'))

const sameBut = <T extends object>(one: T, other: T, but: keyof T): boolean =>
  (Object.keys(one) as (keyof T)[]).every((key) => key === but || one[key] === other[key])
