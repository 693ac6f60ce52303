import { interpolate } from '../columns'
import { departure, type Outcome } from '../forecast/outcome'
import { given, type PlaceName } from '../place-name'
import { stationNear } from '../route/nearest'
import type { needParameters } from '../plan/day-parameters'
import type { Provisions } from '../plan/kit'
import type { PlanStop } from '../plan/schema'
import { secondsPerHour } from '../units'
import { noWeather } from '../world/weather'

/** Values of `needParameters`: what the rider turns over, eats and drinks. */
export type Needs = Record<keyof typeof needParameters, number>

/** The thermochemical calorie of food labels, by definition. */
const joulesPerKilocalorie = 4184

/**
 * Energy that the body turns over for work on the pedals.
 *
 * @param work J
 * @param grossEfficiency work over energy
 * @returns J, and kcal as food labels have it
 * @see gross efficiency: Moseley and Jeukendrup 2001, MSSE 33:621-627
 */
export const turnover = (work: number, grossEfficiency: number): { energy: number; kilocalories: number } => ({
  energy: work / grossEfficiency,
  kilocalories: work / grossEfficiency / joulesPerKilocalorie,
})

/** Carbohydrate that one kind of sugar can carry in, kg/h: above it takes several kinds, and practice. See `carbohydrateGuidance`. */
export const mostOfOneSugar = 0.06

/**
 * Carbohydrate while riding by published guidance, kg/h.
 *
 * @param time of the ride, s
 * @returns least and most; beyond 2.5 hours the most needs several kinds of sugar, and an easy ride less
 * @see Thomas, Erdman and Burke 2016, MSSE 48:543-568 (from memory): 30 to 60 g/h up to 2.5 h, up to 90 beyond;
 * Jeukendrup 2014, Sports Med. 44(S1):25-33: about 90 g/h in ultra-endurance; Wallis and Podlogar 2022: 30 to 90 g/h from 1 h
 */
export function carbohydrateGuidance(time: number): { least: number; most: number } {
  if (time < secondsPerHour) return { least: 0, most: 0.03 }
  return time <= 2.5 * secondsPerHour ? { least: 0.03, most: mostOfOneSugar } : { least: 0.03, most: 0.09 }
}

/**
 * Water to drink in an hour, kg; even between its values at 10 and 30 °C. A choice.
 *
 * @param celsius °C
 */
export function waterPerHour(celsius: number, { waterCool, waterHot }: Pick<Needs, 'waterCool' | 'waterHot'>): number {
  const share = Math.min(1, Math.max(0, (celsius - 10) / 20))
  return waterCool + (waterHot - waterCool) * share
}

/** A place where food and water are had. */
export interface Refill {
  name: string
  /** Station index. */
  station: number
}

/** Stops of the given kinds, in order of the route. */
export const refillsOf = ({ plan, route }: Outcome, kinds: readonly PlanStop['kind'][]): Refill[] =>
  plan.stops
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ name, distance }) => ({ name, station: stationNear(route, distance) }))
    .sort((a, b) => a.station - b.station)

/**
 * Mean air temperature where the rider is, °C, from samples up to a quarter of an hour apart.
 *
 * @param from time since the start, s
 * @param to time since the start, s
 */
export function meanCelsius({ columns, route, weather, plan }: Outcome, from: number, to: number): number {
  const { distance, elevation } = route.stations
  const samples = Math.max(1, Math.ceil((to - from) / 900))
  const here = noWeather()
  let sum = 0
  for (let k = 0; k < samples; k++) {
    const time = from + ((k + 0.5) * (to - from)) / samples
    const place = interpolate(columns.time, distance, time)
    weather.at({ time, distance: place }, here)
    sum += here.seaLevelCelsius - plan.weather.lapseRate * interpolate(distance, elevation, place)
  }
  return sum / samples
}

/** What to carry from one refill to the next. */
export interface Provision {
  from: PlaceName
  to: PlaceName
  /** Station where it begins. */
  station: number
  /** Ridden distance, m. */
  start: number
  end: number
  /** From departure to arrival, halts and crossings between included, s. */
  time: number
  /** Work on the pedals, J, and energy turned over, J and kcal. */
  work: number
  energy: number
  kilocalories: number
  /** kg. */
  carbohydrate: number
  water: number
  bars: number
  gels: number
  bottles: number
}

/**
 * Food and water between refills. Carbohydrate is what the rider means to eat each hour; whether that is within guidance, ask
 * `carbohydrateGuidance`.
 *
 * @param refills in order of the route; start and finish are added
 * @param celsiusAt mean temperature, °C, between two times since the start, s
 */
export function provisionsOf(
  outcome: Outcome,
  refills: readonly Refill[],
  needs: Needs,
  celsiusAt: (from: number, to: number) => number,
): Provision[] {
  const { columns, route } = outcome
  const { distance } = route.stations
  const last = distance.length - 1
  const places: { name: PlaceName; station: number }[] = [
    { name: { code: 'start' }, station: 0 },
    ...refills.map(({ name, station }) => ({ name: given(name), station })),
    { name: { code: 'finish' }, station: last },
  ]
  return places.slice(1).map((to, k) => {
    const from = places[k]!
    const left = departure(outcome, from.station)
    const time = columns.time[to.station]! - left
    const work = columns.riderWork[to.station]! - columns.riderWork[from.station]!
    const hours = time / secondsPerHour
    const carbohydrate = needs.carbohydratePerHour * hours
    const water = waterPerHour(celsiusAt(left, left + time), needs) * hours
    const bars = Math.round((carbohydrate * needs.barShare) / needs.barCarbohydrate)
    return {
      from: from.name,
      to: to.name,
      station: from.station,
      start: distance[from.station]!,
      end: distance[to.station]!,
      time,
      work,
      ...turnover(work, needs.grossEfficiency),
      carbohydrate,
      water,
      bars,
      gels: needed(carbohydrate - bars * needs.barCarbohydrate, needs.gelCarbohydrate),
      bottles: needed(water, needs.bottle),
    }
  })
}

/** Food from one stop for food to the next. */
export const eatingOf = (outcome: Outcome): Provision[] => betweenRefills(outcome, ['food'])
/** Water from one stop for food or water to the next. */
export const drinkingOf = (outcome: Outcome): Provision[] => betweenRefills(outcome, ['food', 'water'])

const betweenRefills = (outcome: Outcome, kinds: readonly PlanStop['kind'][]) =>
  provisionsOf(outcome, refillsOf(outcome, kinds), outcome.plan.needs, (from, to) => meanCelsius(outcome, from, to))

/** The most that is on the bike at one time: what is needed to the farthest next stop for it. */
export function mostAtOnce(outcome: Outcome): Provisions {
  const most = (of: readonly Provision[], key: keyof Provisions) => Math.max(...of.map((provision) => provision[key]))
  const eating = eatingOf(outcome)
  return { bars: most(eating, 'bars'), gels: most(eating, 'gels'), bottles: most(drinkingOf(outcome), 'bottles') }
}

/** Whole portions; a hundredth of one is not worth another. */
const needed = (amount: number, portion: number) => Math.max(0, Math.ceil(amount / portion - 0.01))
