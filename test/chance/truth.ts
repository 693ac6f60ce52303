import { makeRandom, normal, type Random } from '../../sample-routes/random'
import { packAt, usableEnergy } from '../../src/model/battery/pack'
import { usualSampling } from '../../src/model/chance/days'
import { HowSure } from '../../src/model/chance/how-sure'
import { catalogue } from '../../src/model/plan/catalogue'
import type { Belief, Parameter } from '../../src/model/plan/parameters'
import type { Plan } from '../../src/model/plan/schema'
import { kilometresPerHour } from '../../src/model/units'
import { byOdex, waves, type Smooth } from '../reference/ode'
import { plainPlan } from '../rides'
import { courseRoute } from '../routes'
import { placeAmong } from './scores'

/** Parts of the way up to which a day is foretold; the last is the finish. */
const parts = [1 / 4, 1 / 2, 3 / 4, 1] as const
/** What is foretold of each: the clock, s, and the share of all that the packs hold. */
export const figures = ['clock', 'charge'].flatMap((of) => parts.map((part) => `${of} at ${100 * part} %`))
type Foretold = Record<string, number>
const told = <T>(clock: (part: number) => T, charge: (part: number) => T): Record<string, T> =>
  Object.fromEntries([...parts.map(clock), ...parts.map(charge)].map((value, k) => [figures[k]!, value]))

const to90 = 1.2816
/** Of the ascent, in which a file may be wrong: of what it says, the share that one day in ten has more. */
const ascentSpread = 0.08

/** A course, and a day on it as it is stated. */
interface Stated {
  course: Smooth
  heights: readonly (readonly [wavelength: number, height: number])[]
  turns: number
  plan: Plan
}

/** By a seed: hills of some length, rider, bike and weather, packs that are never empty. */
function stated(seed: number): Stated {
  const random = makeRandom(seed, 'stated')
  const within = (low: number, high: number) => low + (high - low) * random()
  const heights = [
    [6000, within(8, 24)],
    [1500, within(1, 3.5)],
  ] as const
  const turns = Math.round(within(2, 6))
  const plan = plainPlan((plan) => {
    Object.assign(plan.rider, {
      ...{
        mass: within(60, 95),
        power: within(90, 150),
        climbFactor: within(1, 1.4),
        fade: 0.035,
        smallHalts: within(60, 400),
      },
      coastingSpeed: 30 * kilometresPerHour,
    })
    Object.assign(plan.bike, { luggage: within(5, 15), dragArea: within(0.4, 0.6), rolling: within(0.006, 0.009) })
    Object.assign(plan.assist, { ratio: within(0.6, 1.2), climbRatio: within(1.2, 2) })
    Object.assign(plan.weather, {
      ...{ windSpeed: within(2.5, 6), windFromDegrees: within(60, 300), temperatureCelsius: within(8, 22) },
    })
    plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 40, health: 0.92, dischargeCurrent: 80 }]
    plan.battery.temperatureCelsius = 25
  })
  return { course: waves(50_000, heights, turns), heights, turns, plan }
}

/** A figure on some day, by the law that the documentation states: a tenth of all days beyond either end, in between normal by parts, of factors the logarithm. */
export function onSomeDay(random: Random, { belief }: Parameter & { belief: Belief }, middle: number): number {
  const z = normal(random)
  const end = z < 0 ? belief.low : belief.high
  return belief.as === 'factor'
    ? middle * Math.exp((Math.log(end) * Math.abs(z)) / to90)
    : middle + (end * Math.abs(z)) / to90
}

/** A true day: figures drawn by a generator of the tests, ridden by ODEX from the formulas of the sources. Of the model only the plan and the catalogue's beliefs are used. */
function trueDay(seed: number, { heights, turns, plan }: Stated): Foretold {
  const random = makeRandom(seed, 'true day')
  const { rider, bike, assist, weather, battery } = plan
  const of = (parameter: Parameter & { belief: Belief }, middle: number) => onSomeDay(random, parameter, middle)
  const [pack] = battery.packs
  const health = Math.min(1, of(catalogue.pack.health, pack!.health))
  const halts = of(catalogue.rider.smallHalts, rider.smallHalts)
  const that: Plan = {
    ...plan,
    rider: {
      ...rider,
      power: of(catalogue.rider.power, rider.power),
      mass: of(catalogue.rider.mass, rider.mass),
      fade: of(catalogue.rider.fade, rider.fade),
    },
    bike: {
      ...bike,
      mass: of(catalogue.bike.mass, bike.mass),
      luggage: of(catalogue.bike.luggage, bike.luggage),
      dragArea: of(catalogue.bike.dragArea, bike.dragArea),
      rolling: of(catalogue.bike.rolling, bike.rolling),
    },
    assist: { ...assist, lossFactor: of(catalogue.assist.lossFactor, assist.lossFactor) },
    weather: {
      ...weather,
      windSpeed: Math.max(0, of(catalogue.weather.windSpeed, weather.windSpeed)),
      windFromDegrees: of(catalogue.weather.windFromDegrees, weather.windFromDegrees),
      temperatureCelsius: of(catalogue.weather.temperatureCelsius, weather.temperatureCelsius),
    },
    // The resistance is that of what is left of the cells.
    battery: { ...battery, packs: [{ ...pack!, capacityAh: pack!.capacityAh * health, health: 1 }] },
  }
  const steeper = Math.exp((Math.log(1 + ascentSpread) * normal(random)) / to90)
  const course = waves(
    50_000,
    heights.map(([wavelength, height]) => [wavelength, height * steeper] as const),
    turns,
  )
  const ridden = byOdex(course, that, 1e-5)
  const holds = usableEnergy(packAt(that.battery.packs[0]!, battery.temperatureCelsius))
  const at = (part: number) => (part === 1 ? ridden : ridden.quarters[4 * part - 1]!)
  return told(
    (part) => at(part).time + (halts * part * course.length) / 100_000,
    (part) => 1 - at(part).drained / holds,
  )
}

/** What came of a day beside what was foretold of it: equally likely values, ascending. */
export interface Judged {
  came: Foretold
  foretold: Record<string, Float64Array>
  place: Foretold
}

/**
 * Days that came, each beside its forecast.
 *
 * @param seed of the course and the plan
 * @param count of days on it
 * @param days that the forecast rides
 */
export function judgedDays(seed: number, count: number, days = usualSampling.days): Judged[] {
  const said = stated(seed)
  const { course, plan } = said
  const made = courseRoute(course)
  const route = { ...made, ascentSpread: ascentSpread * made.ascent }
  const sampling = { ...usualSampling, days, seed }
  const places = parts.map((part) => part * course.length)
  const { arrive, charge, usable } = new HowSure(route, { plan, sampling, places }).ride(0, days)
  const sorted = (of: (entry: number, day: number) => number) => (part: number) =>
    Float64Array.from(usable, (_, day) => of(day * parts.length + parts.findIndex((one) => one === part), day)).sort()
  const foretold = told(
    sorted((entry) => arrive[entry]!),
    sorted((entry, day) => charge[entry]! / usable[day]!),
  )
  return Array.from({ length: count }, (_, k) => {
    const came = trueDay(1000 * seed + k, said)
    const place = Object.fromEntries(figures.map((figure) => [figure, placeAmong(foretold[figure]!, came[figure]!)]))
    return { came, foretold, place }
  })
}
