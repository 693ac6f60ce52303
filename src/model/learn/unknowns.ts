import type { LearntPath, Plan } from '../plan/schema'
import {
  assistParameters,
  bikeParameters,
  packParameters,
  riderParameters,
  weatherParameters,
  type Belief,
  type Parameter,
} from '../plan/parameters'
import { radiansPerDegree } from '../units'

/** Standard deviations to the end of a normal distribution's span that holds 80 %. */
export const toNinetyPercent = 1.2816

/**
 * A figure that a ride may tell, or that its forecast hangs on. What is not known of it is a number z, normal with mean 0 and deviation 1 before
 * anything is learnt; z = 0 is the stated figure.
 */
export interface Unknown {
  key: Key
  /** Figures of the plan that it moves, told as what is known; none for what is only carried along. */
  paths: readonly LearntPath[]
  /** Its own for each ride: wind, form, what was read at the start. */
  perRide: boolean
}

export type Key =
  | 'power'
  | 'climbFactor'
  | 'fade'
  | 'assist'
  | 'dragArea'
  | 'rolling'
  | 'lossFactor'
  | 'mass'
  | 'health'
  | 'form'
  | 'windEast'
  | 'windNorth'
  | 'start'

export const unknowns: readonly Unknown[] = [
  { key: 'power', paths: ['rider.power'], perRide: false },
  { key: 'climbFactor', paths: ['rider.climbFactor'], perRide: false },
  { key: 'fade', paths: ['rider.fade'], perRide: false },
  { key: 'assist', paths: ['assist.ratio', 'assist.climbRatio'], perRide: false },
  { key: 'dragArea', paths: ['bike.dragArea'], perRide: false },
  { key: 'rolling', paths: ['bike.rolling'], perRide: false },
  { key: 'lossFactor', paths: ['assist.lossFactor'], perRide: false },
  { key: 'mass', paths: [], perRide: false },
  { key: 'health', paths: [], perRide: false },
  { key: 'form', paths: [], perRide: true },
  { key: 'windEast', paths: [], perRide: true },
  { key: 'windNorth', paths: [], perRide: true },
  { key: 'start', paths: [], perRide: true },
]

/**
 * Between riders power differs by more than drag and rolling do, and few have it measured: the catalogue's belief is that of one who has. And nobody
 * knows the ratios behind the steps of a display. All judgement.
 */
const powerBelief: Belief = { as: 'factor', low: 0.5, high: 2 }
const assistBelief: Belief = { as: 'factor', low: 0.5, high: 2 }
const climbBelief: Belief = { as: 'factor', low: 0.8, high: 1.25 }
/** Of one rider's power from day to day, standard deviation of its logarithm: a judgement. */
export const formDeviation = 0.05

/** How far the mass as ridden lies from the stated one, standard deviation, kg. */
export function massDeviation({ bike }: Plan): number {
  const parts = [
    riderParameters.mass.belief.high,
    bikeParameters.mass.belief.high,
    (bike.luggage * (bikeParameters.luggage.belief.high - bikeParameters.luggage.belief.low)) / 2,
  ]
  return Math.hypot(...parts) / toNinetyPercent
}

/** Each component of the wind, standard deviation, m/s. */
const windDeviation = weatherParameters.windSpeed.belief.high / toNinetyPercent
const { low: wornMore, high: wornLess } = packParameters.health.belief
const healthDeviation = (wornLess - wornMore) / 2 / toNinetyPercent

/** What the z of the unknowns are for one ride. */
export type Known = Readonly<Record<Key, number>>

/** A figure moved by z from the stated one, held within its bounds: a factor by its logarithm; an offset straight, and bent where it nears a bound. */
function moved(stated: number, z: number, belief: Belief, { min, max }: Pick<Parameter, 'min' | 'max'>): number {
  if (belief.as === 'factor') {
    const [low, high] = [Math.log(belief.low) / toNinetyPercent, Math.log(belief.high) / toNinetyPercent]
    // A parabola through the logarithms of low, middle and high, straight beyond three deviations, short of where it might turn.
    const held = Math.max(-3, Math.min(3, z))
    const slope = (high - low) / 2
    const bend = (high + low) / 2 / toNinetyPercent
    const value = stated * Math.exp(held * slope + held * held * bend + (z - held) * slope)
    return Math.max(min, Math.min(max, value))
  }
  const deviation = (belief.high - belief.low) / 2 / toNinetyPercent
  const room = (stated - min) / deviation
  return Math.min(max, Math.max(min, stated + deviation * (bent(room + z) - bent(room))))
}

/** A straight line that bends where it nears 0, and stays above it. */
const bent = (x: number): number => (x > 8 ? x : Math.log1p(Math.exp(4 * x)) / 4)

/** The value of a told figure at a z. @param path one of `paths` */
export function valueAt(plan: Plan, path: string, z: number): number {
  const { rider, bike, assist } = plan
  if (path === 'rider.power') return moved(rider.power, z, powerBelief, riderParameters.power)
  if (path === 'rider.climbFactor') return moved(rider.climbFactor, z, climbBelief, riderParameters.climbFactor)
  if (path === 'rider.fade') return moved(rider.fade, z, riderParameters.fade.belief, riderParameters.fade)
  if (path === 'assist.ratio') return moved(assist.ratio, z, assistBelief, assistParameters.ratio)
  if (path === 'assist.climbRatio') return moved(assist.climbRatio, z, assistBelief, assistParameters.climbRatio)
  if (path === 'bike.dragArea') return moved(bike.dragArea, z, bikeParameters.dragArea.belief, bikeParameters.dragArea)
  if (path === 'bike.rolling') return moved(bike.rolling, z, bikeParameters.rolling.belief, bikeParameters.rolling)
  if (path === 'assist.lossFactor')
    return moved(assist.lossFactor, z, assistParameters.lossFactor.belief, assistParameters.lossFactor)
  throw new RangeError(`${path} is not learnt.`)
}

/** The plan with what is known in place of what was stated, for one ride: valid where the plan is. */
export function planKnowing(plan: Plan, known: Known): Plan {
  const value = (path: string, z: number) => valueAt(plan, path, z)
  const { power } = riderParameters
  return {
    ...plan,
    rider: {
      ...plan.rider,
      // Whoever or whatever it is that weighs more: only the sum acts.
      mass: plan.rider.mass + massDeviation(plan) * known.mass,
      power: Math.min(power.max, value('rider.power', known.power) * Math.exp(formDeviation * known.form)),
      climbFactor: value('rider.climbFactor', known.climbFactor),
      fade: value('rider.fade', known.fade),
    },
    bike: {
      ...plan.bike,
      dragArea: value('bike.dragArea', known.dragArea),
      rolling: value('bike.rolling', known.rolling),
    },
    assist: {
      ...plan.assist,
      ratio: value('assist.ratio', known.assist),
      climbRatio: value('assist.climbRatio', known.assist),
      lossFactor: value('assist.lossFactor', known.lossFactor),
    },
    weather: windMoved(plan.weather, windDeviation * known.windEast, windDeviation * known.windNorth),
  }
}

/** Usable energy of the packs over what their labels and stated health give. */
export const healthFactor = ({ health }: Known): number => Math.max(0.5, 1 + healthDeviation * health)

/** The weather with more wind toward east and north, m/s at 10 m. */
function windMoved(weather: Plan['weather'], east: number, north: number): Plan['weather'] {
  if (east === 0 && north === 0) return weather
  return {
    ...weather,
    ...movedBy(weather.windSpeed, weather.windFromDegrees, east, north),
    table: weather.table.map((place) => ({
      ...place,
      hours: place.hours.map((hour) =>
        hour.windSpeed === null || hour.windFromDegrees === null
          ? hour
          : { ...hour, ...movedBy(hour.windSpeed, hour.windFromDegrees, east, north) },
      ),
    })),
  }
}

function movedBy(speed: number, fromDegrees: number, east: number, north: number) {
  const toEast = east - speed * Math.sin(fromDegrees * radiansPerDegree)
  const toNorth = north - speed * Math.cos(fromDegrees * radiansPerDegree)
  const from = Math.atan2(-toEast, -toNorth) / radiansPerDegree
  return { windSpeed: Math.hypot(toEast, toNorth), windFromDegrees: from < 0 ? from + 360 : from }
}
