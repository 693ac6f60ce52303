import { describe, expect, it } from 'vitest'
import { alternatives } from '../../src/model/battery/alternatives'
import { transferIn } from '../../src/model/battery/arrangement'
import { carryOrNot, planWithout, type CarryChoice } from '../../src/model/studies/compare'
import { arrangementOf } from '../../src/model/forecast/sources'
import { crossFieldFault } from '../../src/model/plan/check'
import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { CarriedSource, Plan } from '../../src/model/plan/schema'
import { blocksWithin, layoutFor, type Box } from '../../src/view/bench/drawing'
import { meetingAt, occasionsOf, packAtFirst } from '../../src/view/bench/lookedAt'
import { momentAt } from '../../src/model/battery/moment'
import { takeOver } from '../../src/view/bench/takeOver'
import { benchWordsIn } from '../../src/view/words/bench'
import { leftSentences } from '../../src/view/sheet/sourceReport'
import { foldedWordsIn } from '../../src/view/words/folded'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'
import { rideOver } from '../rides'

const { names } = wordsIn('metric')

const course = { length: 60_000, crossings: [45_000] }

const words = benchWordsIn('metric')

/** Three blocks in parallel, used at two stops and at the crossing. */
function day(change: (plan: Plan) => void = () => {}): Plan {
  const plan = defaultPlan()
  const source = defaultCarried('carried-1', 'Box')
  Object.assign(source.carried, { blocksInSeries: 1, blocksInParallel: 3 })
  plan.battery.packs[0]!.charge = 0.3
  plan.battery.packs[1]!.charge = 0.3
  plan.sources.push(source)
  plan.stops = [
    defaultStop('stop-1', 'Bench by the river', 10_000, 'carried-1'),
    { ...defaultStop('stop-2', 'Bakery', 20_000, 'carried-1'), kind: 'food' },
    defaultStop('stop-3', 'Well', 30_000, null),
  ]
  plan.crossings = [{ timetable: { kind: 'duration', duration: 1800 }, source: 'carried-1', fillFirst: 'most' }]
  change(plan)
  return plan
}
const sourceOf = (plan: Plan) => plan.sources.find((source): source is CarriedSource => source.kind === 'carried')!
const asked = { charge: 0.2, duration: 600 }

describe('what the bench looks at', () => {
  const plan = day()
  const source = sourceOf(plan)
  const outcome = rideOver(course, plan)
  const occasions = occasionsOf(outcome, source, words)

  it('lists stops and crossings in the order of the day, and whether they use the source', () => {
    expect(occasions.map(({ name, uses }) => [name, uses])).toEqual([
      ['Bench by the river, km 10.0', true],
      ['Bakery, km 20.0', true],
      ['Well, km 30.0', false],
      ['the crossing, km 45.0', true],
    ])
  })

  it('meets the source with what the stops before have left, and its run there is that of the outcome', () => {
    const [first, second] = occasions
    expect(meetingAt(first, source, packAtFirst(first), asked).sourceCharge).toBe(1)
    const pack = packAtFirst(second)
    const meeting = meetingAt(second, source, pack, asked)
    const planned = second!.halt.charges[0]!.run
    expect(meeting.sourceCharge).toBe(first!.halt.charges.at(-1)!.run.sourceCharge)
    expect(meeting.sourceCharge).toBeLessThan(0.9)
    expect(meeting.planned).toBe(true)
    const { battery } = plan
    const arrangement = arrangementOf(source, battery.packs[pack]!, battery.temperatureCelsius)
    const run = transferIn(arrangement).run(meeting.sourceCharge, meeting.charge, { time: meeting.duration })
    near(run.charge, planned.charge, 1e-9)
    near(run.sourceCharge, planned.sourceCharge, 1e-9)
  })

  it('takes the second pack of a stop with the time and the source that the first has left', () => {
    const nearlyFull = day((plan) => {
      Object.assign(sourceOf(plan).converter, { inputCurrent: 60, outputPower: 3000 })
      plan.battery.packs[0]!.charge = 0.99
      plan.stops = [{ ...plan.stops[0]!, distance: 500, fillFirst: 'in use' }]
    })
    const ride = rideOver(course, nearlyFull)
    const [stop] = occasionsOf(ride, sourceOf(nearlyFull), words)
    const [one, other] = stop!.halt.charges
    expect([one!.pack, other!.pack]).toEqual([0, 1])
    const meeting = meetingAt(stop, sourceOf(nearlyFull), 1, asked)
    near(meeting.duration, 45 * 60 - one!.run.time, 1e-9)
    expect(meeting.sourceCharge).toBe(one!.run.sourceCharge)
    expect(meeting.charge).toBe(0.3)
  })

  it('asks where the plan does not use the source', () => {
    for (const none of [undefined, occasions[2]])
      expect(meetingAt(none, source, 0, asked)).toEqual({ ...asked, sourceCharge: 1, planned: false })
  })

  it('says what the source has left after each, one after the other', () => {
    const sentences = leftSentences(outcome, source, foldedWordsIn('metric').packs)
    expect(sentences).toHaveLength(3)
    const shares = sentences.map((sentence) => [...sentence.matchAll(/(\d+) %/g)].map(([, share]) => share))
    expect(shares[0]![0]).toBe('100')
    expect(shares[1]![0]).toBe(shares[0]![1])
    expect(shares[2]![0]).toBe(shares[1]![1])
  })
})

describe('a moment of a run', () => {
  const plan = day()
  const arrangement = arrangementOf(sourceOf(plan), plan.battery.packs[0]!, 20)
  const columns = transferIn(arrangement).trace(1, 0.3, { time: 3600 }, 60).columns

  it('lies between its rows, and is held at the ends', () => {
    const k = 5
    const middle = momentAt(columns, (columns.time[k]! + columns.time[k + 1]!) / 2)
    near(middle.charge, (columns.charge[k]! + columns.charge[k + 1]!) / 2, 1e-12)
    expect(middle.limit).toBe('converterInput')
    expect(momentAt(columns, -10).charge).toBe(0.3)
    expect(momentAt(columns, 1e6).charge).toBe(columns.charge.at(-1))
  })
})

describe('the summary', () => {
  const plan = day()
  const arrangement = arrangementOf(sourceOf(plan), plan.battery.packs[0]!, 20)
  const drain = 6 * 3.6

  it('says energy, charge, distance and what binds', () => {
    const run = transferIn(arrangement).run(1, 0.3, { time: 2700 })
    const wattHours = Math.round(run.stored / 3600)
    const km = Math.round(run.stored / 3600 / 6)
    const to = Math.round(100 * run.charge)
    expect(words.summary(run, 'Pack 1', 0.3, 2700, drain)).toBe(
      `In 45 min this puts ${wattHours} Wh into Pack 1 (from 30 % to ${to} %): ${km} km more; the converter’s input limit sets the pace all the time.`,
    )
  })

  it('says from when another limit binds, why it ended early, and why nothing flows', () => {
    const high = { ...arrangement, converter: { ...arrangement.converter, inputCurrent: 60, outputPower: 3000 } }
    const full = transferIn(high).run(1, 0.7, { time: 3 * 3600 })
    expect(words.summary(full, 'Pack 1', 0.7, 3 * 3600, 0)).toMatch(
      /^In \d.* of the 3 h 00 min this puts \d+ Wh into Pack 1 \(from 70 % to \d+ %\); constant voltage sets the pace from minute \d+, then full\.$/,
    )
    const empty = transferIn(arrangement).run(0, 0.3, { time: 600 })
    expect(words.summary(empty, 'Pack 1', 0.3, 600, drain)).toBe(
      'Nothing flows into Pack 1: the carried pack has nothing more to give.',
    )
    const phases = [
      { limit: 'setCurrent', until: 720 },
      { limit: 'converterInput', until: 1800 },
      { limit: 'constantVoltage', until: 2700 },
    ] as const
    expect(words.phases([...phases])).toBe(
      'the set current at first, the converter’s input limit from minute 12, constant voltage from minute 30',
    )
  })
})

describe('taking an alternative over', () => {
  const plan = day()
  const source = sourceOf(plan)
  const charger = plan.sources.find(({ kind }) => kind === 'mains')!
  if (charger.kind !== 'mains') throw new Error('The default plan has a charger.')
  const rows = alternatives(
    arrangementOf(source, plan.battery.packs[0]!, 20),
    { duration: 2700, chargeTo: 0.5, charge: 0.3, sourceCharge: 1 },
    { charger, mass: 0, saved: 0.7, free: 1 },
  )
  const row = (change: string) => rows.find((one) => one.change.code === change)!
  const taken = (change: string) => takeOver(row(change), source, 'stop-1', charger, names)!(plan)

  it('changes that one thing of the source and nothing else', () => {
    const series = sourceOf(taken('blocksInSeries'))
    expect([series.carried.blocksInSeries, series.carried.blocksInParallel]).toEqual([3, 1])
    expect({ ...series, carried: source.carried }).toEqual(source)
    expect(sourceOf(taken('converterInput')).converter).toEqual({ ...source.converter, inputCurrent: 20 })
    expect(sourceOf(taken('oneMoreInParallel')).carried.blocksInParallel).toBe(4)
  })

  it('uses the charger at the stop that is looked at', () => {
    expect(taken('mainsCharger').stops[0]!.source).toBe(charger.id)
    expect(takeOver(row('mainsCharger'), source, undefined, charger, names)).toBeUndefined()
    const without = { ...plan, sources: [source] }
    const added = takeOver(row('mainsCharger'), source, 'stop-1', undefined, names)!(without)
    expect(added.sources.find(({ id }) => id === added.stops[0]!.source)?.kind).toBe('mains')
  })

  it('offers none for what is refused, what stands there, or what a plan cannot hold', () => {
    expect(takeOver(row('asItIs'), source, 'stop-1', charger, names)).toBeUndefined()
    expect(
      takeOver({ ...row('oneMoreInParallel'), refusal: { code: 'takesNoCharge' } }, source, 'stop-1', charger, names),
    ).toBeUndefined()
    const to = row('blocksInSeries').to!
    const beyond = { ...row('blocksInSeries'), to: { ...to, carried: { ...to.carried, blocksInSeries: 21 } } }
    expect(takeOver(beyond, source, 'stop-1', charger, names)).toBeUndefined()
  })
})

describe('the drawing', () => {
  const within = (inner: Box, outer: Box) =>
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width + 1e-9 &&
    inner.y + inner.height <= outer.y + outer.height + 1e-9

  it('keeps its parts within itself and blocks within their case, at any width and number', () => {
    for (const width of [300, 366, 759, 760, 1100]) {
      const layout = layoutFor(width)
      const all = { x: 0, y: 0, width, height: layout.height }
      for (const box of [layout.carried, layout.converter, layout.pack]) expect(within(box, all)).toBe(true)
      for (const [series, parallel] of [
        [1, 1],
        [3, 1],
        [1, 3],
        [20, 20],
      ] as const) {
        const blocks = blocksWithin(layout.carried, series, parallel)
        expect(blocks).toHaveLength(Math.min(series, 6) * Math.min(parallel, 4))
        for (const block of blocks) expect(within(block, layout.carried) && block.width > 0).toBe(true)
      }
    }
  })
})

describe('carry it or not', () => {
  const plan = day()
  const outcome = rideOver(course, plan)
  const choices = carryOrNot(outcome, 'carried-1', names.pack)
  const choice = (what: string) => choices.find((one) => one.what === what)!

  it('sets the day with the source beside one with another pack and one with neither', () => {
    expect(choices.map(({ what }) => what)).toEqual(['carried', 'pack', 'neither'])
    expect(choice('carried').outcome).toBe(outcome)
    const { carried, converter, sourceCable, outputCable } = sourceOf(plan)
    const mass = 3 * carried.blockMass + converter.mass + sourceCable.mass + outputCable.mass
    near(choice('carried').mass - choice('neither').mass, mass, 1e-9)
    near(choice('pack').mass - choice('neither').mass, plan.battery.packs.at(-1)!.mass, 1e-9)
    expect(choice('pack').margin.margin).toBeGreaterThan(choice('neither').margin.margin)
    for (const { time, outcome, margin } of choices) {
      expect(time).toBe(outcome.columns.time.at(-1))
      expect(margin.verdict === 'empty').toBe(outcome.emptyAt !== undefined)
    }
  })

  it('drops stops that were only for charging, keeps others as rests, and leaves the source in the plan', () => {
    const neither = planWithout(plan, 'carried-1')
    expect(neither.stops.map(({ id, source }) => [id, source])).toEqual([
      ['stop-2', null],
      ['stop-3', null],
    ])
    expect(neither.crossings[0]!.source).toBeNull()
    expect(neither.sources).toBe(plan.sources)
    for (const { plan } of choices) expect(crossFieldFault(plan)).toBeUndefined()
    expect(planWithout(neither, 'carried-1')).toBe(neither)
  })

  it('has nothing to compare where nothing uses the source', () => {
    expect(carryOrNot(rideOver(course, planWithout(plan, 'carried-1')), 'carried-1', names.pack)).toEqual([])
  })
})

describe('carry it or not, in one line', () => {
  const plan = day()
  const outcome = rideOver(course, plan)
  const choices = carryOrNot(outcome, 'carried-1', names.pack)

  it('says what the carried pack weighs and when it finishes, beside another bike pack', () => {
    const [carried, pack] = choices
    const said = words.carry.verdict(choices, 'Box', 3)
    const heavier = carried!.mass - pack!.mass
    expect(said).toContain(
      `Box weighs ${Math.abs(heavier).toFixed(1)} kg ${heavier > 0 ? 'more' : 'less'} than a third bike pack`,
    )
    expect(carried!.time - pack!.time).toBeGreaterThan(1800)
    expect(said).toMatch(/and finishes .* later\./)
  })

  it('turns with the sign, and says with which the charge lasts', () => {
    const [carried, pack, neither] = choices as [CarryChoice, CarryChoice, CarryChoice]
    const lighter = { ...carried, mass: pack.mass - 2, time: pack.time - 3600 }
    expect(words.carry.verdict([lighter, pack, neither], 'Box', 3)).toMatch(
      /^Box weighs 2\.0 kg less than a third bike pack and finishes 1 h 00 min sooner\./,
    )
    const margin = (verdict: 'lasts' | 'empty') => ({ margin: { ...carried.margin, verdict } })
    const [lasting, failing] = [margin('lasts'), margin('empty')]
    const said = (one: object, two: object, three: object) =>
      words.carry.verdict(
        [
          { ...carried, ...one },
          { ...pack, ...two },
          { ...neither, ...three },
        ],
        'Box',
        4,
      )
    expect(said(lasting, failing, failing)).toMatch(/The charge lasts with Box alone\.$/)
    expect(said(failing, lasting, failing)).toMatch(/The charge lasts with a fourth bike pack alone\.$/)
    expect(said(failing, failing, failing)).toMatch(/With neither does the charge last\.$/)
    expect(said(lasting, lasting, lasting)).toMatch(/The charge lasts without either\.$/)
  })
})
