/**
 * How far the chance of a day is from seed to seed: `npx tsx test/chance/seeds.ts [seeds]`, beside what as many days drawn at random would give, the
 * square root of p(1-p)/n.
 */
import { chancesOf } from '../../src/model/chance/chances'
import { usualSampling } from '../../src/model/chance/days'
import { HowSure } from '../../src/model/chance/how-sure'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { sampleRoute } from '../sample-route'

/** A day whose charge may well not last. */
function closeDay(route: Route, capacityAh: number): Plan {
  const plan = defaultPlan()
  const [pack] = plan.battery.packs
  plan.battery.packs = [{ ...pack!, capacityAh }]
  plan.stops = [{ ...defaultStop('stop-1', 'Inn', 0.53 * route.length, 'source-1'), duration: 40 * 60 }]
  return plan
}

const seeds = Number(process.argv[2] ?? 200)
const points = (share: number) => (100 * share).toFixed(2).padStart(6)
for (const [name, capacityAh] of [
  ['two-passes-62km', 10],
  ['two-islands-165km', 14],
] as const) {
  const route = await sampleRoute(name)
  const plan = closeDay(route, capacityAh)
  const chances = Array.from({ length: seeds }, (_, k) => {
    const sampling = { ...usualSampling, seed: k + 1 }
    const ridden = new HowSure(route, { plan, sampling, places: [0, route.length] }).ride(0, sampling.days)
    return chancesOf(route, sampling, ridden, []).reserve
  })
  const mean = chances.reduce((sum, { value }) => sum + value, 0) / seeds
  const deviation = Math.sqrt(chances.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / (seeds - 1))
  const told = Math.sqrt(chances.reduce((sum, { error }) => sum + error ** 2, 0) / seeds)
  const plain = Math.sqrt((mean * (1 - mean)) / usualSampling.days)
  console.log(
    `${name}: chance ${points(mean)} %, from seed to seed ${points(deviation)} points, as told ${points(told)}, drawn at random ${points(plain)}`,
  )
}
