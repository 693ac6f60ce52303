import { interpolate } from '../columns'
import { packAt, usableEnergy } from '../battery/pack'
import { coarser } from '../forecast/coarser'
import { prepare } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import { totalMass } from '../forecast/mass'
import { simulate } from '../forecast/simulate'
import { Tally } from '../forecast/tally'
import { defaultStop } from '../plan/defaults'
import type { Plan, PlanCrossing } from '../plan/schema'
import { meanOf, stretchesOf } from '../recording/facts'
import type { Recording } from '../recording/recording'
import { braking, coasting } from '../ride/motion'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { localAt, zoneOfRoute } from '../world/zone'
import { healthFactor, planKnowing, type Known } from './unknowns'

/** What a rider read on the way: what was left of all that is usable in all packs, 0 to 1, at a ridden distance, m. */
export interface ChargeReading {
  distance: number
  left: number
}

/** What is known of one ride that was ridden, as the forecast is asked for it. */
export interface Evidence {
  /** Of a recording with fewer stations, for it is ridden some hundred times. */
  route: Route
  /** Of that day, with the halts as they were; its one pack is never empty, so that no guess at a figure ends the ride. */
  plan: Plan
  /** Usable energy of all packs when full as stated, J; and what was left at the start, 0 to 1, with its standard deviation. */
  usable: number
  start: number
  startDeviation: number
  /** Pairs of stations, and between them the riding time, s. */
  from: number[]
  to: number[]
  time: number[]
  /** Which of them are one behind the other, so that what disturbs one disturbs the next. */
  followsOn: boolean[]
  /** Standard deviation of the logarithm of the times, where there are too few of them to tell. */
  deviation: number
  readings: { station: number; left: number; deviation: number }[]
  /** Logarithm of the rider's measured mean power in motion, W; undefined where none was measured. */
  power: number | undefined
}

/**
 * Length of the stretches whose times are compared, and what is left out about a halt, m. Over a kilometre slopes even out, so that power, drag and
 * rolling look alike: of simulated rides with both readings half of it halves the error of power, on rides with measured power it foretells the second
 * half better (rms 6 instead of 9 %). Over 400 m the latter is lost again: heights are not known so finely.
 */
export const stretchLength = 500
const aboutHalts = 150
/** A stretch tells nothing of the rider's power if so much of its way is ridden at a limit, braking or coasting. */
const mostLimited = 0.3
/** Of a pack's percentage on a display, standard deviation; of a pack that was full; of one of which nothing was said. Judgement. */
const readingDeviation = 0.015
const fullDeviation = 0.005
const unreadDeviation = 0.05
/**
 * Of what is left in all packs, 0 to 1, standard deviation: one of them is in use, the others are full or used up.
 *
 * @param packs how many
 */
export const readingDeviationOf = (packs: number): number =>
  Math.hypot(readingDeviation, fullDeviation * Math.sqrt(packs - 1)) / packs
/** Of the time of a stretch and of a whole ride told from memory, standard deviation of the logarithm. Judgement. */
const stretchDeviation = 0.08
const rememberedDeviation = 0.05
/** Of a power meter, standard deviation of the logarithm: common practice. */
export const meterDeviation = 0.02
/** The one pack of the ride holds so many times what all packs did, and starts at this charge, so that its voltage is theirs on the way. */
const spare = 4
const middleCharge = 0.75

/** What the rider says of a ride's charge. */
export interface Said {
  /** Whether a measured power is left aside. */
  powerHidden?: boolean
  /** At the start, 0 to 1; as the plan has it where absent. */
  start?: number
  readings: readonly ChargeReading[]
}

/**
 * Evidence of a recording: riding times of stretches of about half a kilometre, without what the rider's power has no part in.
 *
 * @param plan of that day: rider, bike, load, packs and weather; its stops, controls and stretches are of a route of its own and not used
 * @param until only the ride up to here, m
 */
export function evidenceOf(recording: Recording, plan: Plan, said: Said, until = Infinity): Evidence {
  const { riding } = recording
  const route = coarser(recording.route, plan.bike)
  const { distance } = route.stations
  const evidence = emptyEvidence(route, planOfDay(recording, plan), plan, said, until)
  const clock = (station: number) => interpolate(route.points.distance, riding, distance[station]!)
  const limited = limitedShare(route, evidence.plan)
  const measured = said.powerHidden
    ? undefined
    : meanOf(recording, 'power', { from: 0, to: Math.min(until, route.length) })
  if (measured !== undefined && measured > 0) evidence.power = Math.log(measured)
  for (const span of stretchesOf(recording, stretchLength, aboutHalts)) {
    const from = stationNear(route, span.from)
    const to = stationNear(route, span.to)
    const time = clock(to) - clock(from)
    if (!(time > 0) || span.to > until || limited(from, to) > mostLimited) continue
    evidence.followsOn.push(from === evidence.to.at(-1))
    evidence.from.push(from)
    evidence.to.push(to)
    evidence.time.push(time)
  }
  return evidence
}

/**
 * Evidence without a recording: what is remembered of a whole ride.
 *
 * @param plan of that day, with its stops
 * @param ridingTime s
 */
export function evidenceRemembered(route: Route, plan: Plan, ridingTime: number, said: Said): Evidence {
  const last = route.stations.distance.length - 1
  const crossings = route.crossings.map(() => passing(0))
  const ridden = { ...plan, stops: [], controls: [], crossings, rider: { ...plan.rider, smallHalts: 0 } }
  return {
    ...emptyEvidence(route, neverEmpty(ridden, plan), plan, said, Infinity),
    from: [0],
    to: [last],
    time: [ridingTime],
    followsOn: [false],
    deviation: rememberedDeviation,
  }
}

function emptyEvidence(route: Route, ofDay: Plan, plan: Plan, { start, readings }: Said, until: number): Evidence {
  const packs = plan.battery.packs.map((spec) => packAt(spec, plan.battery.temperatureCelsius))
  const usable = packs.reduce((sum, pack) => sum + usableEnergy(pack), 0)
  const planned = new Ride(prepare(route, plan)).batteries.left() / usable
  const isFull = (left: number) => left > 0.995
  const deviation = readingDeviationOf(packs.length)
  return {
    route,
    plan: ofDay,
    usable,
    start: start ?? planned,
    startDeviation: start === undefined ? unreadDeviation : isFull(start) ? fullDeviation : deviation,
    from: [],
    to: [],
    time: [],
    followsOn: [],
    deviation: stretchDeviation,
    readings: readings
      .filter(({ distance }) => distance <= until)
      .map(({ distance, left }) => ({ station: stationNear(route, distance), left, deviation }))
      .sort((a, b) => a.station - b.station),
    power: undefined,
  }
}

const passing = (duration: number): PlanCrossing => ({
  timetable: { kind: 'duration', duration },
  source: null,
  fillFirst: 'most',
})

/** The plan of a recorded day: its halts and crossings as they were. */
function planOfDay({ route, halts, crossings, start }: Recording, plan: Plan): Plan {
  const zone = plan.zone ?? zoneOfRoute(route)
  const stops = halts.map(({ distance, time }, k) => ({
    ...defaultStop(`halt-${k + 1}`, '', distance, null),
    duration: time,
  }))
  return neverEmpty(
    {
      ...plan,
      start: localAt(start, zone),
      stops,
      crossings: crossings.map(({ time }) => passing(time || 0)),
      controls: [],
      stretches: [],
      rider: { ...plan.rider, smallHalts: 0 },
    },
    plan,
  )
}

/** A plan with one pack for all, of the same resistance and of more charge than any ride takes, and with the mass of another plan. */
function neverEmpty(plan: Plan, weighed: Plan): Plan {
  const { packs } = plan.battery
  const [first] = packs
  const present = packs.reduce((sum, { capacityAh, health }) => sum + capacityAh * health, 0)
  const times = (spare * present) / (first!.capacityAh * first!.health)
  const { capacityAh, cellResistance } = first!
  const one = {
    ...first!,
    capacityAh: times * capacityAh,
    cellResistance: times * cellResistance,
    charge: middleCharge,
    storage: 0,
    mass: packs.reduce((sum, { mass }) => sum + mass, 0),
  }
  const merged = { ...plan, battery: { ...plan.battery, packs: [one] } }
  const missing = totalMass(weighed) - totalMass(merged)
  return { ...merged, bike: { ...plan.bike, luggage: plan.bike.luggage + missing } }
}

/** What share of the way between two stations is ridden at a limit, braking or coasting, by the plan as stated. */
function limitedShare(route: Route, plan: Plan): (from: number, to: number) => number {
  const { columns, prepared } = { columns: simulate(route, plan).columns, prepared: prepare(route, plan) }
  const { distance } = route.stations
  const isLimited = (i: number) =>
    columns.speed[i]! ** 2 > 0.96 * prepared.limits[i]! || (columns.state[i]! & (braking | coasting)) !== 0
  return (from, to) => {
    let limited = 0
    for (let i = from; i < to; i++) if (isLimited(i)) limited += distance[i + 1]! - distance[i]!
    return limited / Math.max(1, distance[to]! - distance[from]!)
  }
}

/** What the forecast says of the same: logarithms of the times, and what is left at each reading and at the finish, 0 to 1. */
export interface Foretold {
  times: number[]
  left: number[]
  /** Logarithm of the rider's mean power in motion, W. */
  power: number
}

/** Where the rider stands or travels by the plan of a ride, and how long, s. */
function standsOf({ route, plan: { stops, crossings } }: Evidence): { station: number; time: number }[] {
  return [
    ...stops.map(({ distance, duration }) => ({ station: stationNear(route, distance), time: duration })),
    ...crossings.flatMap(({ timetable }, k) => {
      const gap = route.crossings[k]
      if (gap === undefined || timetable.kind !== 'duration') return []
      return [{ station: route.sections[gap.after]!.last, time: timetable.duration }]
    }),
  ]
}

/** A forecast of the ride with some figures known. */
export class Forecaster {
  private readonly stations: number[]
  private readonly tally: Tally
  private readonly at: Map<number, number>
  /** How long the rider stands or travels within each pair of stations, s. */
  private readonly stands: number[]

  constructor(private readonly evidence: Evidence) {
    const { from, to, readings, route } = evidence
    const last = route.stations.distance.length - 1
    this.stations = [...new Set([...from, ...to, ...readings.map(({ station }) => station), last])].sort(
      (a, b) => a - b,
    )
    const column = () => new Float64Array(this.stations.length)
    this.tally = new Tally(this.stations, column(), column(), column())
    this.at = new Map(this.stations.map((station, k) => [station, k]))
    const stands = standsOf(evidence)
    this.stands = from.map((start, k) =>
      stands.reduce((sum, { station, time }) => sum + (station > start && station < to[k]! ? time : 0), 0),
    )
  }

  run(known: Known): Foretold {
    const { evidence, tally, at, stands } = this
    const { from, to, readings, route, usable, start, startDeviation } = evidence
    const prepared = prepare(route, planKnowing(evidence.plan, known))
    const ride = new Ride(prepared)
    const state = ride.state()
    const full = ride.batteries.left()
    tally.run(prepared, ride, state)
    const present = usable * healthFactor(known)
    const left = (station: number) =>
      start + startDeviation * known.start - (full - tally.charge[at.get(station)!]!) / present
    const last = route.stations.distance.length - 1
    return {
      times: from.map((station, k) => {
        const took = tally.arriveTime[at.get(to[k]!)!]! - tally.departTime[at.get(station)!]!
        return Math.log(took - stands[k]!)
      }),
      left: [...readings.map(({ station }) => left(station)), left(last)],
      power: Math.log(Math.max(1, tally.riderWork / tally.ridingTime)),
    }
  }
}
