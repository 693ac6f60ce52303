import type { Otherwise } from '../forecast/another-day'
import { jointIn, planDrawn, type Joint } from '../learn/joint'
import { catalogue } from '../plan/catalogue'
import { mapped } from '../plan/lists'
import type { Belief, Parameter } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { radiansPerDegree, secondsPerHour } from '../units'

/** What is not known for certain: a figure of the catalogue by its path, all that rides told of rider and bike, or the ascent of the route. */
export type UncertainFigure =
  | 'learnt'
  | 'weather.windSpeed'
  | 'rider.power'
  | 'bike.dragArea'
  | 'bike.rolling'
  | 'weather.windFromDegrees'
  | 'rider.fade'
  | 'assist.lossFactor'
  | 'pack.health'
  | 'stop.duration'
  | 'rider.smallHalts'
  | 'ascent'
  | 'weather.temperatureCelsius'
  | 'bike.luggage'
  | 'rider.mass'
  | 'bike.mass'

/** In an order in which what moves most comes first: Sobol points are most even in their first dimensions. A judgement. */
const all: readonly UncertainFigure[] = [
  'learnt',
  'weather.windSpeed',
  'rider.power',
  'bike.dragArea',
  'bike.rolling',
  'weather.windFromDegrees',
  'rider.fade',
  'assist.lossFactor',
  'pack.health',
  'stop.duration',
  'rider.smallHalts',
  'ascent',
  'weather.temperatureCelsius',
  'bike.luggage',
  'rider.mass',
  'bike.mass',
]

/** The 0.9 quantile of the standard normal distribution: where the ends of a belief's span lie. */
const toNinetyPercent = 1.2815515655446004
const secondsPerDay = 24 * secondsPerHour

/** Figures that are uncertain in a plan, and how many independent normal deviates each takes, in order. */
export interface Uncertain {
  figures: UncertainFigure[]
  deviates: number[]
  /** What rides told, as it hangs together. */
  joint: Joint | undefined
}

/** Which figures are uncertain: those of the catalogue that can make a difference here, and the ascent where more than one is possible. */
export function uncertainIn(route: Route, plan: Plan): Uncertain {
  const joint = jointIn(plan)
  const idle: Partial<Record<UncertainFigure, boolean>> = {
    learnt: joint === undefined,
    'stop.duration': plan.stops.length === 0,
    'rider.smallHalts': plan.rider.smallHalts === 0,
    'rider.fade': plan.rider.fade === 0,
    'bike.luggage': plan.bike.luggage === 0,
    ascent: !(route.ascentSpread > 0 && route.ascent > 0),
    ...Object.fromEntries((joint?.figures ?? []).map(({ path }) => [path, true])),
  }
  const figures = all.filter((figure) => idle[figure] !== true)
  const byHour = plan.weather.table.length > 0
  const count = (figure: UncertainFigure) =>
    figure === 'learnt' ? joint!.deviates : byHour && figure.startsWith('weather.') ? 2 : 1
  return { figures, deviates: figures.map(count), joint }
}

/**
 * A figure as it may be: its median is what is stated, one case in ten lies below the low end of its belief, one in ten above the high end. The law is
 * lognormal on either side of the median for what is above nought, else normal on either side; wind is not below nought.
 *
 * @param parameter with a belief
 * @param stated in the plan
 * @param deviate standard normal
 */
export function drawn({ min, quantity, belief }: Parameter & { belief: Belief }, stated: number, deviate: number) {
  const side = deviate < 0 ? belief.low : belief.high
  const part = Math.abs(deviate) / toNinetyPercent
  if (belief.as === 'factor') return stated * side ** part
  if (min > 0 && stated + belief.low > 0) return stated * ((stated + side) / stated) ** part
  return Math.max(quantity === 'windSpeed' ? 0 : -Infinity, stated + side * part)
}

/**
 * How much larger errors of the weather are so many days ahead than one day ahead, for which the catalogue's beliefs stand. A judgement.
 *
 * @param days 0 for the hour in which the forecast is read
 */
const growth = (days: number): number => 0.8 + 0.2 * days

/** How far a figure that the rider measured, or guesses, is spread, of what is usual. A judgement. */
const width = { measured: 0.4, guess: 1.75 } as const

/** The errors of a forecast of the weather become independent in this time, s. A judgement. */
const independentAfter = secondsPerDay

/** One day as it may come: the plan with its figures, and air and road otherwise. */
export interface PossibleDay extends Otherwise {
  plan: Plan
}

/**
 * The day that belongs to some deviates.
 *
 * @param uncertain from `uncertainIn`
 * @param deviates standard normal, as many as that says, in order
 * @param daysAhead from the forecast of the weather to the start
 */
export function dayOf(
  route: Route,
  stated: Plan,
  { figures, deviates: counts, joint }: Uncertain,
  deviates: ArrayLike<number>,
  daysAhead: number,
): PossibleDay {
  // First of all figures.
  const plan = joint === undefined ? stated : planDrawn(stated, joint, deviates)
  const draft = { rider: { ...plan.rider }, bike: { ...plan.bike }, assist: { ...plan.assist } }
  const weather = { ...plan.weather }
  let { stops } = plan
  let { packs } = plan.battery
  let steepness = 1
  /** Deviates of wind's speed and direction and of temperature, each at the start and a quarter turn later. */
  const errors = { speed: [0, 0], turn: [0, 0], celsius: [0, 0] }
  const widths = new Map<UncertainFigure, number>(plan.beliefs.map(({ path, known }) => [path, width[known]]))
  const byHour = plan.weather.table.length > 0
  const before = growth(daysAhead)
  const ofWeather = (key: 'windSpeed' | 'windFromDegrees' | 'temperatureCelsius', at: number, into: number[]) => {
    const { belief } = catalogue.weather[key]
    if (byHour) {
      for (const k of [0, 1]) into[k] = (deviates[at + k]! * belief.high) / toNinetyPercent
    } else weather[key] = drawn(catalogue.weather[key], plan.weather[key], before * deviates[at]!)
  }
  let at = 0
  figures.forEach((figure, k) => {
    const deviate = deviates[at]! * (widths.get(figure) ?? 1)
    switch (figure) {
      case 'learnt':
        break
      case 'weather.windSpeed':
        ofWeather('windSpeed', at, errors.speed)
        break
      case 'weather.windFromDegrees':
        ofWeather('windFromDegrees', at, errors.turn)
        break
      case 'weather.temperatureCelsius':
        ofWeather('temperatureCelsius', at, errors.celsius)
        break
      case 'pack.health':
        // No pack is taken to hold more than it is rated for.
        packs = mapped(packs, (pack) => {
          const health = Math.min(1, drawn(catalogue.pack.health, pack.health, deviate))
          return { ...pack, health }
        })
        break
      case 'stop.duration':
        stops = mapped(stops, (stop) => ({
          ...stop,
          duration: drawn(catalogue.stop.duration, stop.duration, deviate),
        }))
        break
      case 'ascent':
        steepness = (1 + route.ascentSpread / route.ascent) ** (deviate / toNinetyPercent)
        break
      default: {
        // Each of rider, bike and assist, by its place in the plan.
        const [group, key] = figure.split('.') as ['rider', 'power']
        draft[group][key] = drawn(catalogue[group][key], draft[group][key], deviate)
      }
    }
    at += counts[k]!
  })
  return {
    plan: { ...plan, ...draft, weather, stops, battery: { ...plan.battery, packs } },
    steepness,
    weather: (time) => {
      const angle = (0.5 * Math.PI * time) / independentAfter
      const larger = growth(daysAhead + Math.max(0, time) / secondsPerDay)
      const now = ([first, later]: number[]) => larger * (first! * Math.cos(angle) + later! * Math.sin(angle))
      return { celsius: now(errors.celsius), speed: now(errors.speed), turn: now(errors.turn) * radiansPerDegree }
    },
  }
}
