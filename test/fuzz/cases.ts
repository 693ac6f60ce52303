import { readdirSync, readFileSync } from 'node:fs'
import { catalogue, type Catalogue } from '../../src/model/plan/catalogue'
import { writePlan } from '../../src/model/plan/write'
import type { Parameter } from '../../src/model/plan/parameters'
import type { Plan } from '../../src/model/plan/schema'
import { seeded } from '../bench/big-gpx'
import { worstDay } from '../bench/plans'
import { fullestPlan } from '../fullest'
import { variants } from '../invariants/plans'
import { wrongDays } from './days'
import { below, mutated, mutatedDocument, pick, type Random } from './mutate'

/** Length of the route that plans are tried on, m. */
export const lengthOfRoute = 30_000

export const kinds = ['gpx', 'kml', 'plan', 'day'] as const

/** A file that may be wrong in any way. */
export interface Case {
  kind: (typeof kinds)[number]
  name: string
  bytes: Uint8Array
}

const folder = (path: string) => new URL(`../${path}/`, import.meta.url)
const textsIn = (path: string, ending: RegExp) =>
  readdirSync(folder(path))
    .filter((name) => ending.test(name))
    .map((name) => readFileSync(new URL(name, folder(path)), 'latin1'))
    .map((bytes) => new TextDecoder().decode(Uint8Array.from(bytes, (letter) => letter.charCodeAt(0))))

const routes = {
  gpx: [...textsIn('files', /\.gpx$/), ...textsIn('../sample-routes', /town.*\.gpx$/)],
  kml: textsIn('files', /\.kml$/),
}
const plans = [
  ...textsIn('plans', /\.json$/),
  ...Object.values(variants).map((variant) => writePlan(variant(lengthOfRoute))),
  writePlan(worstDay(lengthOfRoute)),
  writePlan(fullestPlan(lengthOfRoute, 3)),
]

/** Groups of the catalogue whose numbers a part of the plan holds, by its key. */
const groupsIn: Record<string, (keyof Catalogue)[]> = {
  ...Object.fromEntries(
    (['rider', 'needs', 'bike', 'assist', 'weather', 'wet', 'battery', 'legs'] as const).map((key) => [key, [key]]),
  ),
  packs: ['pack'],
  sources: ['mains', 'socket'],
  carried: ['carried'],
  converter: ['converter'],
  sourceCable: ['cable'],
  outputCable: ['cable'],
  stops: ['stop'],
  stretches: ['stretch'],
}

/** Some numbers at their bounds or anywhere between: the plan stays one. */
function withExtremes(plan: Plan, random: Random): Plan {
  const changed = structuredClone(plan)
  const share = random() ** 3
  const visit = (here: object, part: string) => {
    for (const [key, value] of Object.entries(here) as [string, unknown][]) {
      if (typeof value === 'object' && value !== null) visit(value, Array.isArray(here) ? part : key)
      const groups = (groupsIn[part] ?? []).map((group) => catalogue[group] as Record<string, Parameter>)
      const parameter = groups.map((group) => group[key]).find((found) => found !== undefined)
      if (typeof value !== 'number' || parameter === undefined || random() >= share) continue
      const { min, max, quantity } = parameter
      const number = pick(random, [min, max, min + (max - min) * random()])
      ;(here as Record<string, unknown>)[key] = quantity === 'count' ? Math.round(number) : number
    }
  }
  visit(changed, '')
  return changed
}

function planText(random: Random): Uint8Array {
  const text = pick(random, plans)
  const how = below(random, 3)
  if (how === 0) return mutated(text, pick(random, plans), random)
  const plan = withExtremes(JSON.parse(text) as Plan, random)
  return new TextEncoder().encode(JSON.stringify(how === 1 ? plan : mutatedDocument(plan, random)))
}

/** The file of a number, always the same by a seed. */
export function caseOf(seed: number, number: number): Case {
  const random = seeded(1_000_003 * seed + number)
  const kind = kinds[number % kinds.length]!
  if (kind === 'plan') return { kind, name: 'wrong.json', bytes: planText(random) }
  if (kind === 'day')
    return {
      kind,
      name: 'wrong.wattfare',
      bytes: wrongDays({ plans, varied: withExtremes, routes: routes.gpx }, random),
    }
  const other = pick(random, routes[pick(random, ['gpx', 'kml'] as const)])
  return { kind, name: `wrong.${kind}`, bytes: mutated(pick(random, routes[kind]), other, random) }
}
