import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { carriedPack, type CarriedSpec } from '../../src/model/battery/carried'
import { acceptedCurrent, type ChargeGoal } from '../../src/model/battery/charge'
import { chemistries, type ChemistryId } from '../../src/model/battery/chemistry'
import { Circuit, Moment, type Line } from '../../src/model/battery/circuit'
import { ratedPower, typicalEfficiency, type Converter, type ConverterKind } from '../../src/model/battery/converter'
import { fullVoltage, openCircuit, packAt, resistance, type Pack, type PackSpec } from '../../src/model/battery/pack'
import { Side } from '../../src/model/battery/side'
import { Transfer } from '../../src/model/battery/transfer'
import type { TransferColumns, TransferRun } from '../../src/model/battery/transfer-run'
import { near } from '../asserts'
import { blocks, bothWays, transfer } from '../reference/charging-parts'

const seed = 20260607
const even = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((i) => min + ((max - min) * i) / 1_000_000)

const bike: PackSpec = {
  chemistry: 'nmc',
  series: 10,
  capacityAh: 13.9,
  health: 1,
  floor: 0.08,
  cellResistance: 0.13,
  wiringResistance: 0.03,
  dischargeCurrent: 20,
  chargeCurrent: 6,
}
const pack = packAt(bike, 20)
const source = carriedPack(blocks, 20)
const line: Line = { sourceCable: 0.02, converter: bothWays, outputCable: 0.02 }
const parallel: CarriedSpec = { ...blocks, blocksInSeries: 1, blocksInParallel: 3 }

const trace = (from: Pack, sourceCharge: number, by: Line, to: Pack, charge: number, goal: ChargeGoal, every: number) =>
  new Transfer(from, by, to).trace(sourceCharge, charge, goal, every)

/** Energy that the books miss, share of what was drawn. */
function missing(run: TransferRun): number {
  const lost = Object.values(run.losses).reduce((sum: number, loss: number) => sum + loss, 0)
  return Math.abs(run.drawn - run.stored - lost) / Math.max(run.drawn, 1)
}

const cases = fc.record({
  chemistry: fc.constantFrom<ChemistryId>('nmc', 'lfp'),
  blockCells: fc.integer({ min: 3, max: 7 }),
  blocksInSeries: fc.integer({ min: 1, max: 3 }),
  blocksInParallel: fc.integer({ min: 1, max: 4 }),
  blockAh: even(2, 20),
  health: even(0.5, 1),
  dischargeCurrent: even(2, 20),
  packChemistry: fc.constantFrom<ChemistryId>('nmc', 'lfp'),
  series: fc.integer({ min: 7, max: 14 }),
  capacityAh: even(5, 30),
  chargeCurrent: even(1, 10),
  temperature: even(0, 45),
  kind: fc.constantFrom<ConverterKind>('step-down', 'step-up', 'step-up-down', 'step-up-down'),
  inputCurrent: even(1, 20),
  outputCurrent: even(1, 10),
  /** W; undefined for none. */
  outputPower: fc.option(even(30, 400), { nil: undefined }),
  current: even(0.5, 10),
  /** Of the pack's full voltage. */
  voltage: even(0.93, 1.004),
  efficiency: even(0.8, 0.98),
  standby: even(0, 4),
  sourceCable: even(0, 0.1),
  outputCable: even(0, 0.1),
  from: even(0, 1),
  sourceFrom: even(0, 1),
})
type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never

function build(one: Case): { source: Pack; line: Line; pack: Pack } {
  const { kind, inputCurrent, outputCurrent, outputPower, current, standby, temperature } = one
  const spec = { ...bike, ...one, chemistry: one.packChemistry, floor: 0 }
  const converter: Converter = {
    ...bothWays,
    kind,
    inputVoltageLeast: 6,
    inputVoltageMost: 100,
    outputVoltageMost: 80,
    inputCurrent,
    outputCurrent,
    outputPower,
    current,
    standby,
    voltage: one.voltage * fullVoltage(spec),
    efficiencyByLoad: typicalEfficiency(one.efficiency),
  }
  return {
    source: carriedPack({ ...blocks, ...one }, temperature),
    line: { sourceCable: one.sourceCable, converter, outputCable: one.outputCable },
    pack: packAt(spec, temperature),
  }
}

/** What a run breaks at any of its rows, in words: order of time, bounds of charge, and each limit of current, voltage and power. */
function violations(
  one: Case,
  { source: carried, line: { converter, sourceCable }, pack: charged }: ReturnType<typeof build>,
  columns: TransferColumns,
): string[] {
  const most = Math.min(one.current, one.outputCurrent, acceptedCurrent(charged).current)
  const sourceMost = Math.min(one.inputCurrent, carried.dischargeCurrent)
  const voltage = Math.min(converter.voltage, charged.series * charged.chemistry.chargeLimitVoltage)
  const broken = new Set<string>()
  const hold = (value: number, least: number, limit: number, what: string) => {
    const slack = 1e-9 * Math.max(1, Math.abs(limit))
    if (!(value >= least - slack && value <= limit + slack)) broken.add(`${what}: ${value} not in ${least} to ${limit}`)
  }
  columns.time.forEach((time, i) => {
    const [z, s] = [columns.charge[i]!, columns.sourceCharge[i]!]
    if (!(time >= (columns.time[i - 1] ?? 0))) broken.add('time goes back')
    if (!(z >= (columns.charge[i - 1] ?? one.from) && z <= 1)) broken.add(`charge ${z}`)
    if (!(s <= (columns.sourceCharge[i - 1] ?? one.sourceFrom) && s >= 0)) broken.add(`source ${s}`)
    const current = columns.current[i]!
    if (current === 0) return
    const sourceCurrent = columns.sourceCurrent[i]!
    const [input, output] = [columns.inputVoltage[i]!, columns.outputVoltage[i]!]
    hold(current, 0, most, 'current')
    hold(sourceCurrent, 0, sourceMost, 'source current')
    hold(output, 0, voltage, 'output')
    hold(columns.given[i]!, 0, ratedPower(converter), 'power')
    hold(input + sourceCable * sourceCurrent, carried.cutOffVoltage, 100, 'source voltage')
    if (one.kind === 'step-down') hold(input - output, converter.headroom, 100, 'step-down')
    if (one.kind === 'step-up') hold(output - input, converter.headroom, 100, 'step-up')
  })
  return [...broken]
}

describe('a transfer', () => {
  it(`keeps its books, its charges within 0 and 1 and every current within its limits, 1,000 random arrangements, seed ${seed}`, () => {
    const ends = new Map<string, number>()
    const limits = new Set<string>()
    fc.assert(
      fc.property(cases, (one) => {
        const made = build(one)
        const { run, columns } = trace(made.source, one.sourceFrom, made.line, made.pack, one.from, {}, 600)
        // Where nothing flows there is nothing to hold: such cases do not count towards the thousand.
        fc.pre(run.time > 0)
        ends.set(run.end, (ends.get(run.end) ?? 0) + 1)
        expect(missing(run), 'share of energy the books miss').toBeLessThan(1e-4)
        for (const [name, loss] of Object.entries(run.losses)) expect(loss, name).toBeGreaterThanOrEqual(-1e-6)
        expect(violations(one, made, columns)).toEqual([])
        for (const { limit } of run.phases) limits.add(limit)
      }),
      { seed, numRuns: 1000, endOnFailure: true },
    )
    expect([...ends.keys()].sort()).toEqual(['chargerVoltage', 'full', 'outOfRange', 'sourceEmpty'])
    expect(Math.min(...ends.values())).toBeGreaterThan(20)
    expect([...limits].sort()).toEqual([
      'cold',
      'constantVoltage',
      'converterInput',
      'converterOutput',
      'outOfRange',
      'packCurrent',
      'setCurrent',
      'sourceLimit',
    ])
  })

  it('changes its current without a step as the source empties or the pack fills, but for its end', () => {
    const moment = new Moment()
    let ends = 0
    /** Greatest step between two values that are not 0 over any width of the argument, found by halving. */
    const greatestStep = (current: (at: number) => number) => {
      let greatest = 0
      for (let k = 0; k < 100; k++) {
        let [low, high] = [k / 100, (k + 1) / 100]
        while (high - low > 1e-12) {
          const [below, middle, above] = [current(low), current((low + high) / 2), current(high)]
          if (Math.abs(above - below) < 1e-4) break
          if (Math.abs(middle - below) > Math.abs(above - middle)) high = (low + high) / 2
          else low = (low + high) / 2
        }
        const [below, above] = [current(low), current(high)]
        if (below > 0 && above > 0) greatest = Math.max(greatest, Math.abs(above - below))
        else if (below > 0 || above > 0) ends++
      }
      return greatest
    }
    fc.assert(
      fc.property(cases, (one) => {
        const made = build(one)
        const circuit = new Circuit(made.source, made.line, made.pack)
        const currentAt = (charge: number, sourceCharge: number) => {
          Object.assign(moment, { charge, sourceCharge })
          circuit.solve(moment)
          return moment.current
        }
        const steps = [
          greatestStep((sourceCharge) => currentAt(one.from, sourceCharge)),
          greatestStep((charge) => currentAt(charge, one.sourceFrom)),
        ]
        expect(Math.max(...steps)).toBeLessThan(1e-3)
      }),
      { seed, numRuns: 150, endOnFailure: true },
    )
    expect(ends).toBeGreaterThan(50)
  })

  it('may be cut in two anywhere, passing on what the source holds', () => {
    fc.assert(
      fc.property(cases, even(0, 1), (one, cut) => {
        const made = build({ ...one, kind: 'step-up-down' })
        const whole = transfer(made.source, one.sourceFrom, made.line, made.pack, one.from, {})
        const first = transfer(made.source, one.sourceFrom, made.line, made.pack, one.from, { time: cut * whole.time })
        const rest = transfer(made.source, first.sourceCharge, made.line, made.pack, first.charge, {})
        expect(first.time).toBeLessThanOrEqual(cut * whole.time)
        near(first.time + rest.time, whole.time, 2, 'time')
        near(rest.charge, whole.charge, 1e-4, 'charge')
        near(rest.sourceCharge, whole.sourceCharge, 1e-4, 'source')
      }),
      { seed, numRuns: 200, endOnFailure: true },
    )
  })

  it('goes by the same way with rows and without', () => {
    const plain = transfer(source, 0.9, line, pack, 0.3, { time: 4000 })
    const { columns, run } = trace(source, 0.9, line, pack, 0.3, { time: 4000 }, 1e9)
    expect(run).toEqual(plain)
    expect(columns.time.at(-1)).toBe(4000)
    expect(columns.charge.at(-1)).toBe(plain.charge)
    const fine = trace(source, 0.9, line, pack, 0.3, { time: 4000 }, 10)
    near(fine.run.charge, plain.charge, 1e-6)
    expect(Math.max(...fine.columns.time.map((t, i, all) => t - (all[i - 1] ?? 0)))).toBeLessThan(10 + 1e-9)
  })

  it('says the same where only its end is asked for, however often and in whatever order it is asked', () => {
    fc.assert(
      fc.property(cases, even(0, 1), even(0, 7200), (one, until, time) => {
        const made = build(one)
        const used = new Transfer(made.source, made.line, made.pack)
        used.run(0.9, 0.1, {})
        used.fill(one.sourceFrom, one.from, time, until)
        const run = transfer(made.source, one.sourceFrom, made.line, made.pack, one.from, { time, charge: until })
        expect([used.time, used.charge, used.sourceCharge]).toEqual([run.time, run.charge, run.sourceCharge])
        expect(used.run(one.sourceFrom, one.from, { time, charge: until })).toEqual(run)
      }),
      { seed, numRuns: 100, endOnFailure: true },
    )
  })

  it('reads a pack from any charge to any other as the pack itself is read', () => {
    fc.assert(
      fc.property(cases, fc.array(even(-0.1, 1.1), { minLength: 5 }), (one, charges) => {
        const { pack: charged } = build(one)
        const side = new Side(charged)
        for (const charge of charges) {
          near(side.voltageAt(charge), openCircuit(charged, charge), 1e-12 * charged.series)
          expect(side.resistanceAt(charge)).toBe(resistance(charged, charge))
        }
      }),
      { seed, numRuns: 300 },
    )
  })

  it('finds the next knot of a pack, up or down, past one it stands at', () => {
    const side = new Side(pack)
    for (const [charge, rate, time] of [
      [0.22, 1e-3, 30],
      [0.22, -1e-3, 20],
      [0.25, 1e-3, 50],
      [0.25, -1e-3, 50],
      [0.2499, 1e-3, 50.1],
      [0.995, 1e-3, 5],
      [1, 1e-3, 0.5],
      [0, -1e-3, 0.5],
    ] as const) {
      side.voltageAt(charge)
      near(side.timeToKnot(charge, rate), time, 1e-9)
    }
  })

  it('stops at the time or the charge asked for, exactly', () => {
    const timed = transfer(source, 1, line, pack, 0.2, { time: 2700 })
    expect([timed.time, timed.end]).toEqual([2700, 'time'])
    const charged = transfer(source, 1, line, pack, 0.2, { charge: timed.charge })
    expect([charged.charge, charged.end]).toEqual([timed.charge, 'until'])
    near(charged.time, 2700, 0.01)
    expect(transfer(source, 1, line, pack, 0.5, { charge: 0.4 }).time).toBe(0)
    expect(transfer(source, 1, line, pack, 0.5, { time: 0 }).time).toBe(0)
    expect(transfer(source, 1, line, pack, 1, {})).toMatchObject({ time: 0, end: 'full', stored: 0, drawn: 0 })
    expect(transfer(source, 0, line, pack, 0.5, {})).toMatchObject({ time: 0, end: 'sourceEmpty', phases: [] })
  })

  it('names the limit that binds: 12 V blocks in parallel are held by the converter’s input, in series not', () => {
    const first = (carried: Pack, one: Line, to = pack) => transfer(carried, 1, one, to, 0.2, {}).phases[0]!.limit
    const set = (changed: Partial<Converter>): Line => ({ ...line, converter: { ...bothWays, ...changed } })
    expect(first(carriedPack(parallel, 20), line)).toBe('converterInput')
    expect(first(source, line)).toBe('setCurrent')
    expect(first(source, set({ outputCurrent: 4 }))).toBe('converterOutput')
    expect(first(source, set({ outputPower: 100 }))).toBe('converterOutput')
    expect(first(source, set({ current: 7 }))).toBe('packCurrent')
    expect(first(carriedPack({ ...blocks, dischargeCurrent: 3 }, 20), line)).toBe('sourceLimit')
    expect(first(source, line, packAt(bike, 9))).toBe('cold')
    expect(transfer(source, 1, line, pack, 0.97, {}).phases[0]!.limit).toBe('constantVoltage')
  })

  it('sends nothing through a converter that cannot go as low as the pack stands, until the pack has risen', () => {
    const high = { ...line, converter: { ...bothWays, outputVoltageLeast: 38 } }
    expect(transfer(source, 1, high, pack, 0.2, {})).toMatchObject({ time: 0, end: 'outOfRange' })
    expect(transfer(source, 1, high, pack, 0.6, {}).stored).toBe(transfer(source, 1, line, pack, 0.6, {}).stored)
  })

  it('lets a step-down down to its headroom, and nothing through a step-up from a higher source', () => {
    const run = (kind: ConverterKind) =>
      transfer(source, 1, { ...line, converter: { ...bothWays, kind } }, pack, 0.3, {})
    const down = run('step-down')
    expect(down.end).toBe('outOfRange')
    expect(down.phases.map(({ limit }) => limit)).toEqual(['setCurrent', 'outOfRange'])
    expect(down.charge).toBeLessThan(run('step-up-down').charge)
    const up = run('step-up')
    expect([up.end, up.time, up.stored]).toEqual(['outOfRange', 0, 0])
  })

  it('shares one source between two stops: what the first took is gone', () => {
    const small = carriedPack({ ...blocks, blockAh: 4 }, 20)
    const first = transfer(small, 1, line, pack, 0.1, { time: 1800 })
    const second = transfer(small, first.sourceCharge, line, pack, 0.1, { time: 1800 })
    const alone = transfer(small, 1, line, pack, 0.1, { time: 1800 })
    expect(first.end).toBe('time')
    expect(second.end).toBe('sourceEmpty')
    expect(second.stored).toBeLessThan(alone.stored)
    const all = small.series * small.capacity * small.chemistry.openCircuit.area.at(-1)!
    expect(first.drawn + second.drawn).toBeLessThanOrEqual(all)
    expect(first.drawn + second.drawn).toBeGreaterThan(0.95 * all)
  })

  it('refuses what would overcharge, what is too cold or hot, and what would break the converter', () => {
    const set = (changed: Partial<Converter>) => () =>
      transfer(source, 1, { ...line, converter: { ...bothWays, ...changed } }, pack, 0.2, {})
    expect(set({ voltage: 42.2 })).not.toThrow()
    expect(set({ voltage: 42.3 })).toThrow('overcharge')
    expect(set({ inputVoltageMost: 43 })).toThrow('breaksConverter')
    expect(set({ voltage: 4 })).toThrow('setOutside')
    expect(set({ efficiencyByLoad: { load: [1], efficiency: [1.1] } })).toThrow('converterEfficiency')
    expect(set({ current: 0 })).toThrow('nothingSet')
    for (const [temperature, sentence] of [
      [-0.1, /tooCold/],
      [45.1, /tooHot/],
      [NaN, /number/],
    ] as const) {
      expect(() => transfer(source, 1, line, packAt(bike, temperature), 0.2, {})).toThrow(sentence)
    }
    expect(() => transfer(source, 1, line, packAt({ ...bike, chargeCurrent: 0 }, 20), 0.2, {})).toThrow('takesNoCharge')
    expect(() => transfer(source, 1.1, line, pack, 0.2, {})).toThrow(/0 to 1/)
    expect(() => transfer(source, 1, line, pack, 0.2, { time: NaN })).toThrow(/negative/)
  })

  it('never passes the pack’s full voltage where the converter is set within its tolerance above it', () => {
    const converter = { ...bothWays, voltage: 42.2 }
    const { run, columns } = trace(source, 1, { ...line, converter }, pack, 0.9, {}, 30)
    expect(Math.max(...columns.outputVoltage)).toBeLessThanOrEqual(42 * (1 + 1e-12))
    expect(openCircuit(pack, run.charge)).toBeLessThan(42)
    expect(chemistries.nmc.chargeLimitVoltage * 10).toBe(42)
  })
})
