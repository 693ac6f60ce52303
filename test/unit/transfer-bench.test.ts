import { describe, expect, it } from 'vitest'
import { alternatives, bestFirst, type BenchStop } from '../../src/model/battery/alternatives'
import { transferIn, type Arrangement } from '../../src/model/battery/arrangement'
import { cableLoad } from '../../src/model/battery/cable'
import { carriedPack } from '../../src/model/battery/carried'
import { openQuestions } from '../../src/model/battery/confirmed'
import type { ChargeGoal } from '../../src/model/battery/charge'
import {
  converterFault,
  drawnFor,
  givenFor,
  outOfReach,
  powerCurve,
  typicalEfficiency,
} from '../../src/model/battery/converter'
import { SocketCharge } from '../../src/model/battery/mains'
import { marginal, sensibleEnd } from '../../src/model/battery/marginal'
import { packAt } from '../../src/model/battery/pack'
import { near, within } from '../asserts'
import { blocks, bothWays, chargePack } from '../reference/charging-parts'
import { tenSeries } from '../reference/battery-packs'

const cable = { areaMm2: 2.5, length: 1, temperature: 20 }
const parallel = { ...blocks, blocksInSeries: 1, blocksInParallel: 3 }
const arrangement: Arrangement = {
  carried: parallel,
  sourceCable: cable,
  converter: bothWays,
  outputCable: cable,
  pack: { ...tenSeries, capacityAh: 13.9, chargeCurrent: 6 },
  temperature: 20,
}
const stop: BenchStop = { duration: 2700, chargeTo: 0.6, charge: 0.22, sourceCharge: 1 }
const pack = packAt(arrangement.pack, 20)

describe('efficiency by load', () => {
  const converter = { ...bothWays, outputPower: 200 }
  const curve = powerCurve(converter, 38.4)

  it('is that of its table at its loads, and reads the same backwards', () => {
    const { load, efficiency } = typicalEfficiency(0.955)
    load.forEach((share, i) => within((share * 200) / drawnFor(curve, share * 200), efficiency[i]!, 1e-12))
    for (let power = 0.5; power < 250; power += 3.7) within(givenFor(curve, drawnFor(curve, power)), power, 1e-12)
    expect(drawnFor(curve, 0)).toBe(0)
  })

  it('is lower far above the source’s voltage, and scales with the best', () => {
    const at = (ratio: number) => 100 / drawnFor(powerCurve(converter, 42 / ratio), 100)
    for (const [ratio, less] of [
      [0.5, 0],
      [2.5, 0],
      [3, 0.0075],
      [3.5, 0.015],
      [10, 0.015],
    ] as const)
      near(at(ratio), 0.955 - less, 1e-12)
    const better = powerCurve({ ...converter, efficiencyByLoad: typicalEfficiency(0.98) }, 38.4)
    near(100 / drawnFor(better, 100), 0.98, 1e-12)
  })

  it('goes without a step in the ratio of the voltages and in the load, and never upwards with the ratio', () => {
    const efficiency = (voltage: number, power: number) =>
      power / drawnFor(powerCurve({ ...converter, voltage }, 12.8), power)
    const rises: string[] = []
    const steps: string[] = []
    for (let power = 0.5; power < 260; power *= 1.2) {
      for (let voltage = 30; voltage < 50; voltage += 0.1) {
        const less = efficiency(voltage, power) - efficiency(voltage + 0.1, power)
        if (less < 0) rises.push(`${power} W at ${voltage} V`)
        if (less > 2e-4) steps.push(`${power} W at ${voltage} V`)
      }
    }
    expect([rises, steps]).toEqual([[], []])
    for (let power = 0.5; power < 260; power *= 1.0003)
      if (Math.abs(efficiency(42, 1.0003 * power) - efficiency(42, power)) > 1e-4) steps.push(`${power} W`)
    expect(steps).toEqual([])
  })
})

describe('what a kind of converter can do', () => {
  const source = carriedPack({ ...blocks, blockCells: 13, blocksInSeries: 1 }, 20)

  it('names the voltage from which a step-down no longer reaches the one set', () => {
    const reach = outOfReach({ ...bothWays, kind: 'step-down' }, source, 36)!
    expect(reach).toMatchObject({ code: 'belowSet', voltage: 43, set: 42, isAlways: false })
    near(source.series * 3.308, 43, 0.01)
    near(reach.from, 0.577, 0.01)
    expect(outOfReach({ ...bothWays, kind: 'step-down' }, carriedPack(blocks, 20), 36)).toMatchObject({
      code: 'belowSet',
      voltage: 43,
      isAlways: false,
    })
    const low = carriedPack(parallel, 20)
    expect(outOfReach({ ...bothWays, kind: 'step-down' }, low, 36)).toMatchObject({
      code: 'belowSet',
      from: 1,
      set: 42,
      isAlways: true,
    })
  })

  it('says of a step-up that a higher source passes straight through, and finds nothing with one that steps both ways', () => {
    const high = outOfReach({ ...bothWays, kind: 'step-up' }, source, 36)!
    expect(high).toMatchObject({ code: 'passedOn', from: 1, voltage: 35, isAlways: false })
    expect(outOfReach({ ...bothWays, kind: 'step-up' }, carriedPack(parallel, 20), 36)).toBeUndefined()
    expect(outOfReach(bothWays, source, 36)).toBeUndefined()
    const narrow = { ...bothWays, inputVoltageLeast: 38.1 }
    expect(outOfReach(narrow, source, 36)).toMatchObject({ code: 'belowInput', voltage: 38.1, isAlways: false })
    const higher = carriedPack({ ...blocks, blockCells: 20, blocksInSeries: 1 }, 20)
    expect(outOfReach({ ...bothWays, kind: 'step-up' }, higher, 36)).toMatchObject({ code: 'passedOn', isAlways: true })
  })
})

describe('a socket', () => {
  const charger = { voltage: 42, current: 4, efficiency: 0.88 }
  const fromSocket = (free: number, goal: ChargeGoal) => new SocketCharge(pack, charger, free).run(1, 0.2, goal)

  it('free all the time gives just the mains charge', () => {
    const run = fromSocket(1, {})
    const plain = chargePack(pack, 0.2, charger, {})
    expect([run.time, run.charge, run.drawn, run.phases, run.end]).toEqual([
      plain.time,
      plain.charge,
      plain.fromMains,
      plain.phases,
      plain.end,
    ])
    const lost = Object.values(run.losses).reduce((sum: number, loss: number) => sum + loss, 0)
    near(run.drawn - run.stored - lost, 0, 1e-6)
  })

  it('free for half of the stop gives half the time, and none gives nothing', () => {
    expect(fromSocket(0.5, { time: 3600 }).charge).toBe(chargePack(pack, 0.2, charger, { time: 1800 }).charge)
    near(fromSocket(0.5, { charge: 0.5 }).time, 2 * fromSocket(1, { charge: 0.5 }).time, 1e-6)
    expect(fromSocket(0, { time: 3600 })).toMatchObject({ time: 3600, stored: 0, end: 'noSocket' })
    expect(fromSocket(0, {})).toMatchObject({ time: 0, stored: 0, end: 'noSocket' })
    expect(() => fromSocket(1.2, {})).toThrow(/0 to 100 %/)
  })

  it('says the same where only its end is asked for', () => {
    for (const free of [0, 0.4, 1])
      for (const goal of [{}, { time: 3600 }, { time: 1e5, charge: 0.7 }, { charge: 0.1 }]) {
        const filling = new SocketCharge(pack, charger, free)
        filling.fill(1, 0.2, goal.time ?? Infinity, goal.charge ?? 1)
        const { time, charge, sourceCharge } = fromSocket(free, goal)
        expect([filling.time, filling.charge, filling.sourceCharge]).toEqual([time, charge, sourceCharge])
      }
  })
})

describe('the books of a transfer', () => {
  const cold = { ...arrangement, temperature: 5 }
  it.each([
    ['to full', arrangement, {}],
    ['for a while', arrangement, { time: 1500 }],
    ['to a charge', cold, { charge: 0.5 }],
  ])('follow what was drawn through leads and converter into the pack: %s', (_, on, goal) => {
    const { chemistry } = packAt(on.pack, on.temperature)
    const run = transferIn(on).run(1, 0.22, goal)
    const { source, sourceCable, converter, standby, outputCable, pack: inPack, coulombic } = run.losses
    // A cell gives back its coulombic efficiency of what it takes.
    within(coulombic, run.stored * (1 / chemistry.coulombicEfficiency - 1), 1e-9)
    within(run.delivered, run.stored + inPack + coulombic, 1e-12)
    within(run.drawn, run.delivered + source + sourceCable + converter + standby + outputCable, 1e-6)
    within(standby, on.converter.standby * run.time, 1e-12)
    expect(run.phases.at(-1)!.until).toBe(run.time)
    for (const [k, { until }] of run.phases.entries())
      expect(until).toBeGreaterThanOrEqual(run.phases[k - 1]?.until ?? 0)
  })

  it('begin and end with a row of what holds there', () => {
    const { run, columns } = transferIn(arrangement).trace(1, 0.22, { time: 600 }, 60)
    expect([columns.time[0], columns.charge[0], columns.sourceCharge[0]]).toEqual([0, 0.22, 1])
    expect([columns.time.at(-1), columns.charge.at(-1)]).toEqual([run.time, run.charge])
    expect(new Set(Object.values(columns).map(({ length }) => length)).size).toBe(1)
    for (let k = 0; k < columns.time.length; k++) {
      // What the converter draws and gives are its currents at its voltages.
      within(columns.drawn[k]!, columns.inputVoltage[k]! * columns.sourceCurrent[k]!, 1e-9)
      within(columns.given[k]!, columns.outputVoltage[k]! * columns.current[k]!, 1e-9)
    }
  })
})

describe('a charger at a socket', () => {
  const mains = { voltage: 42, current: 4, efficiency: 0.88 }
  it('passes the whole stop where no socket is free, and none where the pack needs nothing', () => {
    const idle = new SocketCharge(pack, mains, 0)
    idle.fill(1, 0.3, 1800, 1)
    expect([idle.time, idle.charge]).toEqual([1800, 0.3])
    idle.fill(1, 0.3, 1800, 0.3)
    expect([idle.time, idle.charge]).toEqual([0, 0.3])
    expect([idle.run(1, 0.3, { time: 1800 }).end, idle.run(1, 1, { time: 1800 }).end]).toEqual(['noSocket', 'full'])
    const half = new SocketCharge(pack, mains, 0.5)
    half.fill(1, 0.3, 1800, 1)
    const whole = new SocketCharge(pack, mains, 1)
    whole.fill(1, 0.3, 900, 1)
    expect([half.time, half.charge]).toEqual([1800, whole.charge])
    for (const free of [-0.1, 1.1, NaN]) expect(() => new SocketCharge(pack, mains, free)).toThrow(RangeError)
  })
})

describe('a lead’s cautions', () => {
  it('begin beyond its rating and beyond what its connectors should carry, not at them', () => {
    const rating = 17
    const codes = (current: number, connector: number) =>
      cableLoad({ areaMm2: 2.5, length: 0.1, temperature: 20 }, current, 40, connector).cautions.map(({ code }) => code)
    expect([codes(rating, 100), codes(rating + 0.1, 100)]).toEqual([[], ['current']])
    const { most } = cableLoad({ areaMm2: 2.5, length: 0.1, temperature: 20 }, 16, 40, 10).cautions.find(
      ({ code }) => code === 'connectors',
    ) as { most: number }
    expect([codes(most, 10), codes(most + 0.1, 10)]).toEqual([[], ['connectors']])
  })
})

describe('one more minute', () => {
  const full = { ...arrangement, carried: { ...blocks, blockAh: 20 } }
  const { run, columns } = transferIn(full).trace(1, 0.22, {}, 60)

  it('adds up to what was stored, and to its reach', () => {
    const { time, wattHoursPerMinute, kmPerMinute } = marginal(columns, 22)
    let wattHours = 0
    for (let i = 1; i < time.length; i++) {
      wattHours += ((wattHoursPerMinute[i]! + wattHoursPerMinute[i - 1]!) / 2) * ((time[i]! - time[i - 1]!) / 60)
    }
    within(wattHours, run.stored / 3600, 1e-3)
    within(kmPerMinute[0]!, (wattHoursPerMinute[0]! * 3600) / 22 / 1000, 1e-12)
  })

  it('is worth half of the best from a moment in the taper', () => {
    const end = sensibleEnd(columns)!
    const best = Math.max(...columns.storing)
    const after = columns.time.findIndex((time) => time >= end.time)
    expect(columns.storing[after]!).toBeLessThanOrEqual(best / 2)
    expect(columns.storing[after - 1]!).toBeGreaterThanOrEqual(best / 2)
    expect(columns.limit[after]).toBe('constantVoltage')
    expect(sensibleEnd(transferIn(full).trace(1, 0.22, { time: 2700 }, 60).columns)).toBeUndefined()
  })
})

describe('a converter’s own figures', () => {
  it('are wrong one at a time, each by its name', () => {
    const fault = (change: Partial<typeof bothWays>) => converterFault({ ...bothWays, ...change })?.code
    const { inputVoltageMost: most } = bothWays
    expect(fault({})).toBeUndefined()
    expect([{ inputVoltageLeast: -1 }, { inputVoltageLeast: most }, { inputVoltageMost: NaN }].map(fault)).toEqual(
      Array(3).fill('inputRange'),
    )
    expect([{ outputVoltageLeast: -1 }, { outputVoltageLeast: bothWays.outputVoltageMost }].map(fault)).toEqual(
      Array(2).fill('outputRange'),
    )
    expect([{ inputCurrent: 0 }, { outputCurrent: 0 }, { outputPower: 0 }].map(fault)).toEqual(
      Array(3).fill('noOutput'),
    )
    expect([{ voltage: 0 }, { current: 0 }].map(fault)).toEqual(Array(2).fill('nothingSet'))
    expect(
      [bothWays.outputVoltageLeast - 0.1, bothWays.outputVoltageMost + 0.1].map((voltage) => fault({ voltage })),
    ).toEqual(Array(2).fill('setOutside'))
    expect([{ standby: -0.1 }, { headroom: -0.1 }].map(fault)).toEqual(Array(2).fill('negativeDraw'))
    const table = (load: number[], efficiency: number[]) => fault({ efficiencyByLoad: { load, efficiency } })
    expect([table([0.5, 1], [0.9, 0.9]), table([1], [1])]).toEqual([undefined, undefined])
    expect([table([], []), table([0.5, 1], [0.9]), table([0.5, 0.5], [0.9, 0.9]), table([0], [0.9])]).toEqual(
      Array(4).fill('converterEfficiency'),
    )
    expect([table([1], [0.1]), table([1], [1.01])]).toEqual(Array(2).fill('converterEfficiency'))
  })
})

describe('what changing one thing would give', () => {
  const charger = { voltage: 42, current: 4, efficiency: 0.88 }
  const rows = alternatives(arrangement, stop, { charger, mass: 0.7, saved: 0.6, free: 1 })
  const row = (change: string) => rows.find((one) => one.change.code === change)!

  it('begins with the arrangement as it is, held by the converter’s input', () => {
    expect(rows.map(({ change }) => change.code)).toEqual([
      'asItIs',
      'blocksInSeries',
      'oneMoreInParallel',
      'higherCurrent',
      'converterInput',
      'mainsCharger',
    ])
    expect(rows[0]!.run!.phases[0]!.limit).toBe('converterInput')
    expect([rows[0]!.timeSaved, rows[0]!.mass]).toEqual([0, 0])
  })

  it('saves minutes by blocks in series and by another input, none by a higher set current', () => {
    expect(row('blocksInSeries').timeSaved!).toBeGreaterThan(20 * 60)
    expect(row('converterInput').timeSaved!).toBeGreaterThan(20 * 60)
    near(row('higherCurrent').timeSaved!, 0, 1)
    expect(row('blocksInSeries').run!.stored).toBeGreaterThan(1.3 * rows[0]!.run!.stored)
  })

  it('counts mass: one block more, or the charger for all the rest', () => {
    near(row('oneMoreInParallel').mass, 1.3, 1e-9)
    near(row('mainsCharger').mass, 0.7 - 0.6 - 3.9, 1e-9)
    expect(row('blocksInSeries').mass).toBe(0)
  })

  it('refuses what is not allowed, with no figures', () => {
    const narrow = { ...arrangement, converter: { ...bothWays, inputVoltageMost: 30, current: 6 } }
    const refused = alternatives(narrow, stop, { charger: { ...charger, voltage: 54.6 }, mass: 0, saved: 0, free: 1 })
    const refusal = (change: string) => refused.find(({ change: { code } }) => code === change)!.refusal
    expect(refusal('blocksInSeries')?.code).toBe('breaksConverter')
    expect(refused.find(({ change }) => change.code === 'blocksInSeries')!.run).toBeUndefined()
    expect(refusal('higherCurrent')).toEqual({ code: 'mostAlready', current: 6 })
    expect(refusal('mainsCharger')?.code).toBe('overcharge')
    expect(alternatives({ ...arrangement, temperature: -1 }, stop)[0]!.refusal).toEqual({ code: 'tooCold', least: 0 })
  })

  it('tries the blocks in every other way, and one more as they are joined', () => {
    const changes = (blocksInSeries: number, blocksInParallel: number) =>
      alternatives({ ...arrangement, carried: { ...blocks, blocksInSeries, blocksInParallel } }, stop)
        .map(({ change, to }) => [change.code, to!.carried.blocksInSeries, to!.carried.blocksInParallel] as const)
        .filter(([code]) => code.startsWith('blocks') || code.startsWith('oneMore'))
    expect(changes(1, 1)).toEqual([['oneMoreInParallel', 1, 2]])
    expect(changes(2, 1)).toEqual([
      ['blocksInParallel', 1, 2],
      ['oneMoreInSeries', 3, 1],
    ])
    expect(changes(2, 2)).toEqual([
      ['blocksInSeries', 4, 1],
      ['blocksInParallel', 1, 4],
      ['oneMoreString', 2, 3],
    ])
  })

  it('offers what gains something, the best first, and the rest apart', () => {
    const { gaining, rest } = bestFirst(rows)
    const gains = gaining.map(({ gain }) => gain!)
    expect(gaining.map(({ change }) => change.code)).toContain('blocksInSeries')
    expect(gains).toEqual(gains.toSorted((a, b) => b - a))
    for (const { run, gain } of gaining) near(gain!, run!.stored - rows[0]!.run!.stored, 1e-9)
    // The input limit binds, so a higher set current changes nothing.
    expect(rest.map(({ change }) => change.code)).toContain('higherCurrent')
    expect(gaining.length + rest.length, 'all but what stands there').toBe(rows.length - 1)
    const refused = alternatives({ ...arrangement, temperature: -1 }, stop)
    expect(bestFirst(refused).gaining).toEqual([])
    expect(bestFirst(refused).rest).toHaveLength(refused.length - 1)
  })

  it('counts the same sooner as a gain, a second or a tenth of a watt-hour not', () => {
    const change = { code: 'oneMoreInParallel' } as const
    const one = (gain: number, timeSaved: number) => bestFirst([{ change, mass: 0, gain, timeSaved }]).gaining.length
    expect([one(0, 60), one(3600, 0), one(360, 1), one(-3600, 0)]).toEqual([1, 1, 0, 0])
  })

  it('asks for polarity and full voltage until they are confirmed', () => {
    expect(openQuestions({ polarityMeasured: true, fullVoltageKnown: true })).toEqual([])
    expect(openQuestions({ polarityMeasured: false, fullVoltageKnown: true })).toEqual(['polarityMeasured'])
    expect(openQuestions({ polarityMeasured: true, fullVoltageKnown: false })).toEqual(['fullVoltageKnown'])
  })
})
