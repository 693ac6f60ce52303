import { interpolate } from '../columns'
import type { Learnt, Plan } from '../plan/schema'
import { meanOf } from '../recording/facts'
import type { Recording } from '../recording/recording'
import { roadOf } from '../ride/road'
import type { Route } from '../route/route'
import { localAt, zoneOfRoute } from '../world/zone'
import { beliefsOf, correlationsOf, worthOfReading, type Correlation, type LearntBelief, type Worth } from './beliefs'
import { evidenceOf, evidenceRemembered, Forecaster, type ChargeReading, type Evidence } from './evidence'
import { ownTest, type OwnTest } from './foretell'
import { planOfThatDay, saidIn, type RideNotes } from './notes'
import { knownOf, posteriorOf, type Posterior } from './posterior'
import { smallHaltsBelief } from './small-halts'
import { stepsAfter, type StepRatio } from './steps'
import { learntFrom } from './taken'
import { laidOver, planOfRide, type ClockByPlace } from './that-day'
import { unknowns } from './unknowns'
import { sameWays, type SameWay } from './same-way'

/** A ride to learn from: recorded, or remembered of a route. */
export interface RideToLearn {
  name: string
  notes: RideNotes
  recording: Recording | undefined
}

/** A part of a recorded ride: where it lies, m, its mean speed in motion, m/s, and how long what was compared of it took and would have taken, s. */
export interface PartOfRide {
  from: number
  to: number
  speed: number
  ridden: number
  foretold: number
}

/** What is told of one ride. */
export interface RideLearnt {
  /** How many stretches it was compared over. */
  stretches: number
  /** What the charge at start and finish would be worth; undefined where it is read, or the bike has no motor at work. */
  worth: Worth[] | undefined
  parts: PartOfRide[]
  /** The same by the bike as stated and the power that was measured there; undefined where none was. */
  measured: PartOfRide[] | undefined
  /** Where it went the way of the route: how long it had been riding by places of that, and the plan of that day there. */
  onRoute: { clock: ClockByPlace; plan: Plan } | undefined
}

/** What rides told of rider and bike. */
export interface Lesson {
  beliefs: LearntBelief[]
  correlations: Correlation[]
  rides: RideLearnt[]
  /** Learnt from the first part of the first recording alone, with the rest foretold from where it ends, m. */
  test: (OwnTest & { until: number }) | undefined
  settled: boolean
  /** To be taken into the plan; with it the steps of the display, where a ride said what share of it was ridden at each. */
  learnt: Learnt
  steps: StepRatio[] | undefined
  /** Rides of one way, two by two. */
  sameWays: SameWay[]
}

const parts = 10
/** Shorter rides have no halves that tell anything, m. */
const shortestTested = 16_000
/** Where a pack was changed at most so far from the middle, a share of the way, the ride is parted there, and its charge is tested too. */
const nearMiddle = 0.25

/**
 * What rides told of rider and bike, with a test of its own.
 *
 * @param route of the rides that are only remembered
 * @param plan rider and bike as stated, before anything was learnt
 * @param rides at least one
 * @param progress called with the share done, 0 to 1
 */
export function learnFrom(
  route: Route,
  plan: Plan,
  rides: readonly RideToLearn[],
  progress: (share: number) => void = () => {},
): Lesson {
  const evidence = rides.map((ride) => evidenceIn(ride, route, plan))
  const [tested] = rides
  const isTested = tested?.recording !== undefined && tested.recording.route.length >= shortestTested
  const shareOfFit = isTested ? 0.6 : 1
  const posterior = posteriorOf(evidence, (share) => progress(shareOfFit * share))
  const ofDay = thatDay(rides[0]!, route, plan)
  const seen = {
    halts: rides.flatMap(({ recording }) => recording?.halts ?? []),
    length: rides.reduce((sum, { recording }) => sum + (recording?.route.length ?? 0), 0),
  }
  const beliefs = [...beliefsOf(posterior, ofDay), ...(seen.length > 0 ? [smallHaltsBelief(ofDay, seen)] : [])]
  const hasMotor = ofDay.assist.ratio > 0 || ofDay.assist.climbRatio > 0
  const from = rides.map(({ name, recording }) => ({
    name: name.slice(0, 80),
    date:
      recording === undefined ? null : localAt(recording.start, plan.zone ?? zoneOfRoute(recording.route)).slice(0, 10),
  }))
  return {
    beliefs,
    correlations: correlationsOf(posterior, ofDay),
    rides: rides.map((ride, k) => ({
      stretches: evidence[k]!.time.length,
      worth: ride.notes.chargeEnd !== null || !hasMotor ? undefined : worthOfReading(posterior, ofDay, k),
      parts: ride.recording === undefined ? [] : partsOf(posterior, k, ride.recording),
      measured: ride.recording && measuredParts(evidence[k]!, ride.recording),
      onRoute: ride.recording && onRouteOf(posterior, k, ride.recording, route, thatDay(ride, route, plan)),
    })),
    test: isTested
      ? testOn(tested, tested.recording!, route, plan, (share) => progress(shareOfFit + (1 - shareOfFit) * share))
      : undefined,
    settled: posterior.settled,
    learnt: learntFrom(posterior, beliefs, plan, from),
    steps: stepsAfter(plan.steps, sharesSaid(rides), posterior),
    sameWays: sameWays(rides.map(({ recording }) => recording)),
  }
}

/** Of the first ride that has any: what was learnt of assist is of all rides together, and mostly of that one. */
const sharesSaid = (rides: readonly RideToLearn[]) =>
  rides.find(({ notes }) => notes.shares.some((share) => share !== null && share > 0))?.notes.shares ?? []

/** The plan of a ride's day, on the way that it went. */
function thatDay({ notes, recording }: RideToLearn, route: Route, plan: Plan): Plan {
  const way = recording?.route ?? route
  const { distance } = way.stations
  const { climb } = roadOf(way)
  const climbing = climb.reduce((sum, share, i) => sum + share * ((distance[i + 1] ?? distance[i]!) - distance[i]!), 0)
  return planOfThatDay(plan, notes, climbing / distance.at(-1)!)
}

function evidenceIn(ride: RideToLearn, route: Route, plan: Plan, until?: number): Evidence {
  const { notes, recording } = ride
  const ofDay = thatDay(ride, route, plan)
  const said = saidIn(notes, ofDay, (recording?.route ?? route).length)
  return recording === undefined
    ? evidenceRemembered(route, ofDay, notes.ridingTime ?? 0, said)
    : evidenceOf(recording, ofDay, said, until)
}

function testOn(ride: RideToLearn, recording: Recording, route: Route, plan: Plan, progress: (share: number) => void) {
  const { length } = recording.route
  const { start, readings } = saidIn(ride.notes, thatDay(ride, route, plan), length)
  const end = readings.find(({ distance }) => distance === length)
  const off = ({ distance }: ChargeReading) => Math.abs(distance / length - 0.5)
  const [middle] = readings.filter((reading) => off(reading) <= nearMiddle).sort((a, b) => off(a) - off(b))
  const isRead = start !== undefined && middle !== undefined && end !== undefined
  const until = isRead ? middle.distance : length / 2
  const posterior = posteriorOf([evidenceIn(ride, route, plan, until)], progress)
  const left = isRead ? ([start, middle.left, end.left] as const) : undefined
  return { ...ownTest(posterior, recording, 0, until, left), until }
}

function onRouteOf(posterior: Posterior, ride: number, recording: Recording, route: Route, ofDay: Plan) {
  const laid = laidOver(route, recording)
  return laid && { clock: laid.clock, plan: planOfRide(posterior, ofDay, ride, recording, laid) }
}

/** Ridden against foretold times, summed over tenths of the way. */
const partsOf = ({ evidence, residuals }: Posterior, ride: number, recording: Recording): PartOfRide[] =>
  partsBy(evidence[ride]!, recording, (k, ridden) => ridden / Math.exp(residuals[ride]![k]!))

/** The same with the power that was measured in each part: what the physics says where the rider's power is known. */
function measuredParts(evidence: Evidence, recording: Recording): PartOfRide[] | undefined {
  const { length } = evidence.route
  const nothing = knownOf(Array<number>(unknowns.length).fill(0), 0)
  const times = Array.from({ length: parts }, (_, k) => {
    const power = meanOf(recording, 'power', { from: (k / parts) * length, to: ((k + 1) / parts) * length })
    if (power === undefined) return undefined
    const rider = { ...evidence.plan.rider, power, climbFactor: 1, fade: 0 }
    return new Forecaster({ ...evidence, plan: { ...evidence.plan, rider } }).run(nothing).times
  })
  if (times.every((time) => time === undefined)) return undefined
  return partsBy(evidence, recording, (k, ridden, part) => {
    const time = times[part]
    return time === undefined ? ridden : Math.exp(time[k]!)
  })
}

/** @param foretold of a stretch, by its number, its ridden time, s, and the part that it lies in */
function partsBy(
  { from, to, time, route }: Evidence,
  recording: Recording,
  foretold: (stretch: number, ridden: number, part: number) => number,
): PartOfRide[] {
  const { stations, length } = route
  const clock = (at: number) => interpolate(recording.route.points.distance, recording.riding, at)
  const found = Array.from({ length: parts }, (_, k) => {
    const [begin, end] = [(k / parts) * length, ((k + 1) / parts) * length]
    return { from: begin, to: end, speed: (end - begin) / (clock(end) - clock(begin)), ridden: 0, foretold: 0 }
  })
  time.forEach((ridden, k) => {
    const middle = (stations.distance[from[k]!]! + stations.distance[to[k]!]!) / 2
    const at = Math.min(parts - 1, Math.floor((parts * middle) / length))
    found[at]!.ridden += ridden
    found[at]!.foretold += foretold(k, ridden, at)
  })
  return found
}
