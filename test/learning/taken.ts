/**
 * Whether a day's bands are honest once what a ride told is taken into the plan, and how wide they are then: `npx tsx test/learning/taken.ts [rides]`.
 * Each ride is simulated with a truth, recorded, learnt from with the charge read at both ends and taken over, as the page does it; then that rider goes
 * another way on another day, and finish time and charge there are held against the plan's bands: with the spans as the rides told them, widened as in
 * the plan, and of the plan before.
 */
import { makeRandom, normal } from '../../sample-routes/random'
import { packAt, usableEnergy } from '../../src/model/battery/pack'
import { bandOf, type Band } from '../../src/model/chance/spread'
import { HowSure } from '../../src/model/chance/how-sure'
import { tallyOf } from '../../src/model/forecast/tally'
import { beliefsOf } from '../../src/model/learn/beliefs'
import { evidenceOf } from '../../src/model/learn/evidence'
import { posteriorOf } from '../../src/model/learn/posterior'
import { learntFrom } from '../../src/model/learn/taken'
import { healthFactor, planKnowing, type Known } from '../../src/model/learn/unknowns'
import { catalogue } from '../../src/model/plan/catalogue'
import { takeOver } from '../../src/model/plan/learnt'
import type { Belief, Parameter } from '../../src/model/plan/parameters'
import type { Plan } from '../../src/model/plan/schema'
import { stationNear } from '../../src/model/route/nearest'
import type { Route } from '../../src/model/route/route'
import { onSomeDay } from '../chance/truth'
import { wilson } from '../chance/scores'
import { sampleRoute } from '../sample-route'
import { recorded, statedPlan } from './study'

const rides = Number(process.argv[2] ?? 200)
const sampling = { seed: 1, days: 512, replicates: 8 }
/** Finish time, s, and share of all usable energy halfway and at the finish. */
const figures = ['time', 'halfway', 'end'] as const
type Figures<T> = Record<(typeof figures)[number], T>
const ways = ['stated', 'told', 'widened'] as const

function daysOf(route: Route, plan: Plan): Figures<Float64Array> {
  const sure = new HowSure(route, { plan, sampling, places: [route.length / 2] })
  const { time, left, charge, usable } = sure.ride(0, sampling.days)
  return { time, halfway: charge.map((all, k) => all / usable[k]!), end: left.map((all, k) => all / usable[k]!) }
}

const islands = { ...(await sampleRoute('two-islands-165km')), ascentSpread: 0 }
const passes = { ...(await sampleRoute('two-passes-62km')), ascentSpread: 0 }

/** That rider's other day as it comes: what the ride was learnt from stays, the rest is drawn by the law that the documentation states. */
function anotherDay(seed: number, stated: Plan, truth: Known): Plan {
  const random = makeRandom(seed, 'another day')
  const that = planKnowing(stated, { ...truth, form: normal(random), windEast: 0, windNorth: 0 })
  const { windSpeed, windFromDegrees, temperatureCelsius } = that.weather
  const of = (parameter: Parameter & { belief: Belief }, middle: number) => onSomeDay(random, parameter, middle)
  return {
    ...that,
    rider: { ...that.rider, smallHalts: of(catalogue.rider.smallHalts, that.rider.smallHalts) },
    weather: {
      ...that.weather,
      windSpeed: Math.max(0, of(catalogue.weather.windSpeed, windSpeed)),
      windFromDegrees: of(catalogue.weather.windFromDegrees, windFromDegrees),
      temperatureCelsius: of(catalogue.weather.temperatureCelsius, temperatureCelsius),
    },
    battery: {
      ...that.battery,
      packs: that.battery.packs.map((pack) => ({ ...pack, health: Math.min(1, pack.health * healthFactor(truth)) })),
    },
  }
}

function cameOf(route: Route, that: Plan): Figures<number> {
  const half = stationNear(route, route.length / 2)
  const { time, left, charge } = tallyOf(route, that, [half])
  const usable = that.battery.packs.reduce(
    (sum, pack) => sum + usableEnergy(packAt(pack, that.battery.temperatureCelsius)),
    0,
  )
  return { time, halfway: charge[0]! / usable, end: left / usable }
}

const mapValues = <K extends string, A, B>(all: Record<K, A>, of: (one: A) => B) =>
  Object.fromEntries(Object.entries<A>(all).map(([key, one]) => [key, of(one)])) as Record<K, B>

const judged: { came: Figures<number>; bands: Record<(typeof ways)[number], Figures<Band>> }[] = []
for (let seed = 1; seed <= rides; seed++) {
  const [there, elsewhere] = seed % 3 === 0 ? [islands, passes] : [passes, islands]
  const { truth, stated, recording, readings } = await recorded(seed, there)
  const posterior = posteriorOf([evidenceOf(recording, stated, { start: 1, readings })])
  const beliefs = beliefsOf(posterior, stated)
  // With packs for any way.
  const plan = { ...stated, battery: statedPlan().battery }
  const learnt = learntFrom(posterior, beliefs, plan, [])
  const asTold = learnt.figures.map((figure) => {
    const { low80, high80 } = beliefs.find(({ path }) => path === figure.path)!
    return { ...figure, low: low80, high: high80 }
  })
  const plans = {
    stated: plan,
    told: takeOver(plan, { ...learnt, figures: asTold }),
    widened: takeOver(plan, learnt),
  }
  const bands = mapValues(plans, (one) => mapValues(daysOf(elsewhere, one), bandOf))
  judged.push({ came: cameOf(elsewhere, anotherDay(seed, plan, truth)), bands })
}

const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(7)
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!
const width = ({ low, high }: Band) => high - low
for (const figure of figures)
  for (const way of ways) {
    const held = judged.filter(
      ({ came, bands }) => came[figure] >= bands[way][figure].low && came[figure] <= bands[way][figure].high,
    ).length
    const [low, high] = wilson(held, rides)
    const ofStated = median(judged.map(({ bands }) => width(bands[way][figure]) / width(bands.stated[figure])))
    const half = median(
      judged.map(({ bands }) => width(bands[way][figure]) / 2 / (figure === 'time' ? bands[way].time.middle : 1)),
    )
    console.log(
      `${figure.padEnd(8)} ${way.padEnd(8)} 80 % hold ${percent(held / rides)} (${percent(low)} to ${percent(high)}) of ${rides}; half the band ${percent(half)}, of the plan's before ${percent(ofStated)}`,
    )
  }
