import { createRequire } from 'node:module'
import { carriedPack, type CarriedSpec } from '../../src/model/battery/carried'
import type { Chemistry } from '../../src/model/battery/chemistry'
import type { Line } from '../../src/model/battery/circuit'
import { packAt, type Pack } from '../../src/model/battery/pack'
import { plainCell, tenSeries } from './battery-packs'
import { blocks, plainConverter, steadyPack, transfer } from './charging-parts'
import type { ReferenceCheck } from './check'

/** By its path, since tsx would follow the compiler's `paths` from the bare name to the declarations alone. */
const { Solver } = createRequire(import.meta.url)('odex/src/odex.js') as typeof import('odex')
/** Its `Outcome.Converged`. */
const converged = 0

/** 10 Ah whose voltage rises straight from 30 V to 42 V, behind 0.3 Ω, from a source that never sags, at 4 A: closed form. */
const straight: Chemistry = { ...plainCell([0, 100], [30, 42], 3), chargeLimitVoltage: 42 }
const straightPack = packAt({ ...tenSeries, series: 1, wiringResistance: 0, cellResistance: 0 }, 25, straight)
const straightRun = () =>
  transfer(
    steadyPack(48, 0, 0),
    1,
    { sourceCable: 0, converter: plainConverter(0.9, { current: 4, voltage: 42 }), outputCable: 0.1 },
    straightPack,
    0.2,
    {},
  )
const [amperes, ohm, coulombs, rise] = [4, 0.4, 36000, 12]
const takeover = (42 - ohm * amperes - 30) / rise
const steadyTime = ((takeover - 0.2) * coulombs) / amperes
const tau = (ohm * coulombs) / rise
const taperTime = tau * Math.log(amperes / 0.5)
const squared = amperes ** 2 * steadyTime + (tau / 2) * (amperes ** 2 - 0.5 ** 2)

const closed = {
  source: 'closed form: z = z₀ + I t/Q, then I = I₀ exp(−t/τ), τ = R Q/(dV_oc/dz)',
  basis: 'computed from published',
} as const
const closedForm: ReferenceCheck[] = [
  {
    ...closed,
    quantity: 'constant current through a converter, constant resistance: until',
    sample: '',
    unit: 's',
    expected: steadyTime,
    ours: () => straightRun().phases[0]!.until,
    tolerance: 0.5,
  },
  {
    ...closed,
    quantity: 'constant current, then constant voltage through a converter: in all',
    sample: '',
    unit: 's',
    expected: steadyTime + taperTime,
    ours: () => straightRun().time,
    tolerance: 0.02,
  },
  {
    ...closed,
    quantity: 'constant current, then constant voltage through a converter: lost in the pack, R ∫ I² dt',
    sample: '',
    unit: 'J',
    expected: 0.3 * squared,
    ours: () => straightRun().losses.pack,
    tolerance: 0.1,
  },
  {
    ...closed,
    quantity: 'constant current, then constant voltage through a converter: lost in the lead, R ∫ I² dt',
    sample: '',
    unit: 'J',
    expected: 0.1 * squared,
    ours: () => straightRun().losses.outputCable,
    tolerance: 0.05,
  },
]

/** Limits and set current, A, efficiency, W, Ω. */
interface OdeCase {
  name: string
  carried: CarriedSpec
  inputCurrent: number
  current: number
  efficiency: number
  standby: number
  sourceCable: number
  outputCable: number
  /** Of the bike's pack and of the carried one at the start. */
  from: [number, number]
}

const odeCases: OdeCase[] = [
  {
    name: '3 blocks of 4 LFP cells in parallel, 10 A in at most',
    carried: { ...blocks, blocksInSeries: 1, blocksInParallel: 3 },
    inputCurrent: 10,
    current: 5,
    efficiency: 0.93,
    standby: 1,
    sourceCable: 0.02,
    outputCable: 0.03,
    from: [0.2, 1],
  },
  {
    name: '3 blocks of 4 LFP cells in series, 5 A set',
    carried: { ...blocks, blockAh: 15 },
    inputCurrent: 10,
    current: 5,
    efficiency: 0.95,
    standby: 0.5,
    sourceCable: 0.04,
    outputCable: 0.02,
    from: [0.3, 0.9],
  },
  {
    name: '7 NMC cells in series, 6 A in at most',
    carried: { ...blocks, chemistry: 'nmc', blockCells: 7, blockAh: 20, blocksInSeries: 1, cellResistance: 0.13 },
    inputCurrent: 6,
    current: 6,
    efficiency: 0.9,
    standby: 2,
    sourceCable: 0.01,
    outputCable: 0.05,
    from: [0.1, 0.8],
  },
  {
    name: '10 NMC cells in series, nearly empty, where their resistance rises',
    carried: { ...blocks, chemistry: 'nmc', blockCells: 10, blockAh: 12, blocksInSeries: 1, cellResistance: 0.2 },
    inputCurrent: 8,
    current: 2,
    efficiency: 0.94,
    standby: 1,
    sourceCable: 0.01,
    outputCable: 0.05,
    from: [0.2, 0.4],
  },
]

/** Table look-up of its own. */
function restVoltage(pack: Pack, charge: number): number {
  const { charge: at, voltage } = pack.chemistry.openCircuit
  let k = 0
  while (k < at.length - 2 && charge > at[k + 1]!) k++
  return pack.series * (voltage[k]! + ((charge - at[k]!) * (voltage[k + 1]! - voltage[k]!)) / (at[k + 1]! - at[k]!))
}

/** Both charges, then energy into the converter and lost in the carried pack, J, after a time, by odex. */
function integrate(one: OdeCase, source: Pack, pack: Pack, time: number): number[] {
  const solver = new Solver(4)
  solver.relativeTolerance = 1e-9
  solver.absoluteTolerance = 1e-9
  solver.maxSteps = 200000
  const derivative = (_time: number, [z, s]: number[]) => {
    const rest = restVoltage(pack, z!)
    const sourceRest = restVoltage(source, s!)
    const low = Math.min(1, Math.max(0, (0.2 - s!) / 0.05))
    const inner = source.cellsResistance * (1 + 0.5 * low) + source.wiringResistance
    const outer = inner + one.sourceCable
    const ohm = pack.chargeResistance + one.outputCable
    const byInput = one.efficiency * (one.inputCurrent * (sourceRest - outer * one.inputCurrent) - one.standby)
    const current = Math.min(
      one.current,
      (42 - rest) / ohm,
      (Math.sqrt(rest * rest + 4 * ohm * byInput) - rest) / (2 * ohm),
    )
    const drawn = (current * (rest + ohm * current)) / one.efficiency + one.standby
    const sourceCurrent = (sourceRest - Math.sqrt(sourceRest * sourceRest - 4 * outer * drawn)) / (2 * outer)
    return [
      (0.998 * current) / pack.capacity,
      -sourceCurrent / source.capacity,
      drawn,
      inner * sourceCurrent * sourceCurrent,
    ]
  }
  const solution = solver.solve(derivative, 0, [...one.from, 0, 0], time)
  if (solution.outcome !== converged) throw new Error('odex did not converge.')
  return solution.y
}

const odeRuns = odeCases.flatMap((one): ReferenceCheck[] => {
  const source = carriedPack(one.carried, 20)
  const pack = packAt({ ...tenSeries, capacityAh: 14, health: 0.9 }, 20)
  const { inputCurrent, current, efficiency, standby, sourceCable, outputCable } = one
  const converter = plainConverter(efficiency, { inputCurrent, current, standby })
  const line: Line = { sourceCable, converter, outputCable }
  const [charge, sourceCharge] = one.from
  const run = transfer(source, sourceCharge, line, pack, charge, { time: 5400 })
  const [z, s, drawn, lost] = integrate(one, source, pack, run.time) as [number, number, number, number]
  const common = {
    source: 'both charges by ODEX (Hairer, Nørsett and Wanner 1993), tolerance 1e-9',
    basis: 'computed from published',
  } as const
  const { losses } = run
  return [
    {
      ...common,
      quantity: 'charge from a carried pack, 90 min: charge of the bike’s pack',
      sample: one.name,
      unit: '1',
      expected: z,
      ours: () => run.charge,
      tolerance: 2e-6,
    },
    {
      ...common,
      quantity: 'charge from a carried pack, 90 min: charge of the carried pack',
      sample: one.name,
      unit: '1',
      expected: s,
      ours: () => run.sourceCharge,
      tolerance: 2e-6,
    },
    {
      ...common,
      quantity: 'charge from a carried pack, 90 min: into the converter',
      sample: one.name,
      unit: 'Wh',
      expected: drawn / 3600,
      ours: () => (run.drawn - losses.source - losses.sourceCable) / 3600,
      tolerance: 1e-3,
    },
    {
      ...common,
      quantity: 'charge from a carried pack, 90 min: lost in the carried pack',
      sample: one.name,
      unit: 'Wh',
      expected: lost / 3600,
      ours: () => losses.source / 3600,
      tolerance: 1e-3,
    },
  ]
})

export const transferChecks: ReferenceCheck[] = [...closedForm, ...odeRuns]
