import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import type { KitItem } from '../../src/model/plan/day-schema'
import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { leftAtFinish } from '../../src/model/forecast/outcome'
import { alternatives } from '../../src/model/battery/alternatives'
import { transferIn } from '../../src/model/battery/arrangement'
import { cableLoad } from '../../src/model/battery/cable'
import { proposeFuse } from '../../src/model/battery/fuse'
import { momentAt } from '../../src/model/battery/moment'
import { arrangementOf } from '../../src/model/forecast/sources'
import { kitCosts, plansForKit, rideTaken } from '../../src/model/studies/kit-cost'
import type { FigureName } from '../../src/view/words/en/formulas'
import { factsOf } from '../../src/model/readings/facts'
import { legsOf } from '../../src/model/readings/legs'
import { daySheet } from '../../src/model/readings/sheet'
import { pedalledClimbs } from '../../src/model/readings/pedalling'
import { headings } from '../../src/view/docs/places'
import { reasonsOf } from '../../src/view/reasons/reason'
import type { AskFigure, Reason, StoryFigure } from '../../src/view/reasons/why.svelte'
import { formulas } from '../../src/view/words/en/formulas'
import { whyWordsIn } from '../../src/view/words/why'
import { asWritten, reckoned } from '../reckoned'
import { courseRoute, pieces } from '../routes'

/** Three blocks in parallel through a converter. */
const source = defaultCarried('carried-1', 'Box')
Object.assign(source.carried, { blocksInSeries: 1, blocksInParallel: 3 })

const thing = (id: string, name: string, mass: number, count: number, mark: KitItem['mark']): KitItem => ({
  ...{ id, name, mass, count, mark },
  place: 'bike',
  use: null,
})

const plan = {
  ...defaultPlan(),
  start: '2027-06-19T20:00',
  goal: 8 * 3600,
  ridingGoal: 7 * 3600,
  stops: [defaultStop('s', 'Mill', 8000, 'source-1'), defaultStop('t', 'Weir', 15_000, null)],
  kit: [thing('k', 'Tube', 0.11, 2, 'comes'), thing('l', 'Pump', 0.3, 1, 'stays')],
}
const route = courseRoute({ ...pieces([5000, 0], [6000, 0.04], [9000, -0.01]), crossings: [12_000] })
const outcome = simulate(route, plan)
const other = simulate(route, { ...plan, rider: { ...plan.rider, power: 1.2 * plan.rider.power } })
const went = {
  time: other.columns.time.at(-1)!,
  ridingTime: other.columns.ridingTime.at(-1)!,
  riderWork: other.columns.riderWork.at(-1)!,
  left: leftAtFinish(other),
}
const costs = kitCosts(
  plan,
  plansForKit(plan).map((one) => rideTaken(route, one)),
)
const arrangement = arrangementOf(source, plan.battery.packs[0]!, 20)
const meeting = { duration: 2400, charge: 0.3, sourceCharge: 1, chargeTo: 0.5 }
const transfer = transferIn(arrangement)
const { run, columns } = transfer.trace(1, 0.3, { time: 2400 }, 60)
const changes = alternatives(arrangement, meeting)
const moment = momentAt(columns, 600)
const load = cableLoad(source.sourceCable, 7, 13, 30)
const chance = { value: 0.83, error: 0.01 }
const rows = daySheet(outcome, factsOf(outcome))
const stories = Object.keys(formulas.story) as StoryFigure[]

const asks: [string, AskFigure][] = [
  ...stories.map((figure): [string, AskFigure] => [figure, figure]),
  ...legsOf(outcome).map((leg): [string, AskFigure] => [`leg ${leg.number}`, { of: 'leg', given: leg }]),
  ...rows.map((row, k): [string, AskFigure] => [`row ${k}`, { of: 'place', given: { row, chances: undefined } }]),
  ['wind', { of: 'wind', given: undefined }],
  ['light', { of: 'light', given: undefined }],
  ['work', { of: 'work', given: undefined }],
  ...pedalledClimbs(outcome).map((climb, k): [string, AskFigure] => [`climb ${k}`, { of: 'climb', given: climb }]),
  ...costs.lines.map((line): [string, AskFigure] => [
    `kit ${line.item.name}`,
    { of: 'kit', given: { line, reckoned: true } },
  ]),
  ['the list', { of: 'cost', given: { name: 'List', mass: 0.22, cost: costs.list, isAlong: true } }],
  ['a part', { of: 'part', given: { name: 'Air', energy: outcome.books.air, whole: outcome.books.riderWork } }],
  ['stored', { of: 'stored', given: run }],
  ['a lead', { of: 'lead', given: { title: 'Lead', current: 7, load } }],
  ['a fuse', { of: 'fuse', given: { fuse: proposeFuse(7, 20, 14.6), load: 7, rating: 20 } }],
  ['what flows', { of: 'flow', given: { moment, drops: [0.11, 0.05] } }],
  ...changes
    .slice(1)
    .map((row, k): [string, AskFigure] => [
      `change ${k}`,
      { of: 'change', given: { name: row.change.code, row, asItIs: changes[0]! } },
    ]),
  ['a minute', { of: 'minute', given: { time: 600, storing: moment.storing, drain: 25 } }],
  [
    'causes',
    {
      of: 'causes',
      given: {
        name: 'Kept',
        parts: [
          ['mass', '+19 min'],
          ['assist', '−2 min'],
        ],
        total: '+17 min',
      },
    },
  ],
  ['a proposal', { of: 'proposal', given: { before: outcome, went, bound: { best: 5000, least: 4920 }, price: 0.01 } }],
  [
    'a load-out',
    {
      of: 'loadOut',
      given: {
        name: '2 packs',
        ride: {
          code: 'lasts',
          mass: 120,
          plan,
          way: { by: 'constant', ratio: 1, ...went },
          stops: [],
          time: 1,
          left: 0.3,
          least: 0.2,
          chance,
        },
      },
    },
  ],
  [
    'a latest start',
    {
      of: 'latestStart',
      given: {
        name: 'Gate',
        clock: '12:10',
        row: {
          kind: 'control',
          id: 'c',
          distance: 1,
          latest: 1,
          departs: undefined,
          start: '2027-06-19T06:10',
          chance,
          missed: undefined,
          isPlanned: true,
        },
      },
    },
  ],
  ['how sure', { of: 'sure', given: { name: undefined, chance } }],
  ['a driver', { of: 'driver', given: { name: 'wind', share: 0.4, error: 0.02 } }],
  ['the rest', { of: 'rest', given: { name: 'As planned', chance, effective: 210 } }],
  [
    'what was learnt',
    { of: 'learnt', given: { name: 'Power', middle: '120 W', span: '110 to 131 W', prior: '60 to 240 W' } },
  ],
  [
    'its own test',
    {
      of: 'ownTest',
      given: {
        riding: { foretold: { middle: 9000, low80: 8500, high80: 9500 }, plainGuess: 9200, ridden: 9100 },
        energy: { foretold: { middle: 9e5, low80: 8e5, high80: 1e6 }, plainGuess: 8e5, ridden: 7.7e5 },
      },
    },
  ],
  ['against a ride', { of: 'against', given: { name: 'Riding', then: 9000, now: 8760 } }],
  ['training', { of: 'training', given: { name: '10 W more', time: { low: 100, middle: 240, high: 300 } } }],
  ['a whole plan', { of: 'whole', given: { name: 'Kept', outcome } }],
]
const reasonsFor = (ask: AskFigure, units: 'metric' | 'imperial' = 'metric') => reasonsOf(ask, outcome, units).reasons

/** That what is put in comes to what stands there, as both are rounded. */
function addsUp({ figure, putIn, result }: Reason) {
  const [low, high] = reckoned(putIn!)
  const [least, most] = asWritten(result)
  expect(low <= most && least <= high, `${figure}: ${putIn} = ${result}, not ${low} to ${high}`).toBe(true)
}

describe('why a figure is what it is', () => {
  it.each(asks)('%s tells formula, values, source and where it is worked out', (_, ask) => {
    for (const units of ['metric', 'imperial'] as const)
      for (const { title, formula, values, result, source, heading, putIn } of reasonsFor(ask, units)) {
        for (const text of [title, formula, source, result, putIn ?? 'none', ...values.flat()]) {
          expect(text).not.toBe('')
          expect(text).not.toMatch(/NaN|undefined|Infinity|\[object|[{}]/)
        }
        expect(new Set(values.map(([name]) => name)).size).toBe(values.length)
        expect(headings[heading]).toContain('.html')
      }
  })

  it.each(asks)('%s can be reckoned by hand', (_, ask) => {
    for (const units of ['metric', 'imperial'] as const)
      for (const reason of reasonsFor(ask, units)) if (reason.putIn !== undefined) addsUp(reason)
  })

  it('tells of each figure that has a formula, and of most by a sum that is reckoned by hand', () => {
    const all = asks.flatMap(([, ask]) => reasonsFor(ask))
    const told = new Set(all.map(({ figure }) => figure))
    const missing = Object.keys(whyWordsIn('metric').figures).filter((figure) => !told.has(figure as FigureName))
    expect(missing).toEqual(['placeBand', 'placeChance'])
    const byHand = new Set(all.filter(({ putIn }) => putIn !== undefined).map(({ figure }) => figure))
    expect(byHand.size).toBeGreaterThan(45)
  })

  it('names every value of a formula', () => {
    const { names, figures } = whyWordsIn('metric')
    const tokens = Object.values(figures).flatMap(({ formula }) => [...formula.matchAll(/\{(\w+)\}/g)])
    expect(tokens.length).toBeGreaterThan(50)
    for (const [, name] of tokens) expect(Object.keys(names)).toContain(name)
  })
})
