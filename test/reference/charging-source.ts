import { carriedFacts, carriedPack, chargeAfterStorage } from '../../src/model/battery/carried'
import { Circuit, Moment } from '../../src/model/battery/circuit'
import type { Converter } from '../../src/model/battery/converter'
import type { Pack } from '../../src/model/battery/pack'
import { blocks, bothWays, plainConverter, steadyPack } from './charging-parts'
import type { ReferenceCheck } from './check'

/** What flows through a converter without cables. */
export function flowing(source: Pack, converter: Converter, pack: Pack, charge = 0.5, sourceCharge = 0.5): Moment {
  const moment = new Moment()
  Object.assign(moment, { charge, sourceCharge })
  new Circuit(source, { sourceCable: 0, converter, outputCable: 0 }, pack).solve(moment)
  return moment
}

const tiny = 1e-7

/** V in, A in at most, V out, efficiency, A out. */
const balance = (
  [
    [12, 10, 42, 1, 2.857],
    [12, 10, 42, 0.95, 2.714],
    [12, 10, 42, 0.9, 2.571],
    [12, 10, 36, 0.95, 3.167],
    [12.8, 8, 36, 0.93, 2.645],
    [38.4, 5, 42, 0.95, 4.343],
    [24, 10, 54.6, 0.95, 4.176],
    [39.6, 5, 40, 0.95, 4.7025],
  ] as const
).map(([input, inputCurrent, output, efficiency, expected]): ReferenceCheck => ({
  quantity: 'current out of a converter with an input limit',
  sample: `${input} V, at most ${inputCurrent} A in, to ${output} V at ${100 * efficiency} %`,
  source: 'balance of power: η V_in I_in = V_out I_out, by hand',
  unit: 'A',
  expected,
  ours: () =>
    flowing(
      steadyPack(input, 0, 0),
      plainConverter(efficiency, { inputCurrent, voltage: 80 }),
      steadyPack(output, 0, tiny),
    ).current,
  tolerance: 0.0006,
  basis: 'computed from published',
}))

const limitedOutput = (): Moment =>
  flowing(
    steadyPack(39.6, 0, 0),
    plainConverter(0.95, { inputCurrent: 5, outputCurrent: 4, voltage: 80 }),
    steadyPack(40, 0, tiny),
  )

/** V_oc, Ω, W: A, V, W lost. */
const sagging = (
  [
    [36, 0.15, 250, 7.157927, 34.926311],
    [36, 0.15, 1000, 32.060627, 31.190906],
    [37.4, 0.16, 500, 14.235994, 35.122241],
    [41.94, 0.13, 250, 6.075303, 41.150211],
    [36, 0.3, 250, 7.400887, 33.779734],
    [39.6, 0.2, 150, 3.863256, 38.827349],
  ] as const
).flatMap(([open, ohm, power, current, voltage]): ReferenceCheck[] => {
  const moment = () =>
    flowing(steadyPack(open, ohm, 0), plainConverter(1, { outputPower: power, voltage: 80 }), steadyPack(48, 0, tiny))
  const common = {
    sample: `${power} W from ${open} V behind ${ohm} Ω`,
    source: 'Johnson 2002, J. Power Sources 110:321-329: P = I (V_oc − R I), by hand',
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'current drawn by a converter from a sagging source',
      unit: 'A',
      expected: current,
      ours: () => moment().sourceCurrent,
      tolerance: 1e-6,
    },
    {
      ...common,
      quantity: 'voltage of the sagging source',
      unit: 'V',
      expected: voltage,
      ours: () => moment().inputVoltage,
      tolerance: 1e-6,
    },
  ]
})

const mostPower: ReferenceCheck[] = (
  [
    ['half the voltage', 3.6, 2160],
    ['a lowest voltage of 30 V', 30, 1200],
  ] as const
).map(([name, cutOffVoltage, expected]) => ({
  quantity: 'greatest power from 36 V behind 0.15 Ω',
  sample: `by ${name}`,
  source: 'Johnson 2002, J. Power Sources 110:321-329: V²/4R; V_min (V_oc − V_min)/R',
  unit: 'W',
  expected,
  ours: () =>
    flowing({ ...steadyPack(36, 0.15, 0), cutOffVoltage }, plainConverter(1, { voltage: 80 }), steadyPack(48, 0, tiny))
      .given,
  tolerance: 1e-3,
  basis: 'computed from published',
}))

const month = 730.5 * 3600
/** Time until nothing is left, s, found by halving. */
function timeToFlat(charge: number, boardCurrent: number): number {
  const stored = { ...blocks, chemistry: 'nmc', blocksInSeries: 1, charge, boardCurrent } as const
  let [holds, flat] = [0, 100 * month]
  for (let k = 0; k < 50; k++) {
    const storage = (holds + flat) / 2
    if (chargeAfterStorage({ ...stored, storage }) > 0) holds = storage
    else flat = storage
  }
  return flat
}
const flatTimes = (
  [
    [0.1, 0.02, 4.66, 0.005],
    [0.1, 0.1, 3.66, 0.005],
    [0.1, 2, 0.6, 0.005],
    [0.5, 0.1, 18.3, 0.05],
  ] as const
).map(([charge, milliampere, expected, tolerance]): ReferenceCheck => ({
  quantity: 'time in store until a 10 Ah NMC pack is flat',
  sample: `from ${100 * charge} %, ${milliampere} mA drawn`,
  source: '2 % a month of the cells (usual figure) and the draw, by hand',
  unit: 'months',
  expected,
  ours: () => timeToFlat(charge, milliampere / 1000) / month,
  tolerance,
  basis: 'computed from published',
}))

const practice = 'common practice, no source' as const
const inParallel = carriedPack({ ...blocks, blocksInSeries: 1, blocksInParallel: 3 }, 20)
const trade: ReferenceCheck[] = [
  {
    quantity: '12 V blocks in parallel, 10 A at a converter’s input, into 42 V: just under 3 A',
    sample: '',
    source: 'trade',
    unit: 'A',
    expected: 2.85,
    ours: () => flowing(inParallel, { ...bothWays, voltage: 43 }, steadyPack(42, 0, tiny), 0.5, 0.9).current,
    tolerance: 0.15,
    basis: practice,
  },
  ...(
    [
      ['full', 43.8],
      ['nominal', 38],
      ['empty', 30],
    ] as const
  ).map(([name, expected]): ReferenceCheck => ({
    quantity: 'voltage of 12 LFP cells in series in three blocks',
    sample: name,
    source: 'trade',
    unit: 'V',
    expected,
    ours: () => carriedFacts(blocks)[`${name}Voltage`],
    tolerance: 0.5,
    basis: practice,
  })),
]

export const sourceChecks: ReferenceCheck[] = [
  ...balance,
  {
    quantity: 'current drawn by a converter from 39.6 V to 40 V, 4 A out at most',
    sample: '',
    source: 'balance of power, by hand',
    unit: 'A',
    expected: 4.253,
    ours: () => limitedOutput().sourceCurrent,
    tolerance: 0.0006,
    basis: 'computed from published',
  },
  ...sagging,
  ...mostPower,
  ...flatTimes,
  ...trade,
]
