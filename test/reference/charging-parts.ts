import { chemistries, type Chemistry } from '../../src/model/battery/chemistry'
import type { CarriedSpec } from '../../src/model/battery/carried'
import { MainsCharge, type ChargeGoal, type ChargeRun } from '../../src/model/battery/charge'
import type { MainsCharger } from '../../src/model/battery/charger'
import type { Line } from '../../src/model/battery/circuit'
import { typicalEfficiency, type Converter, type EfficiencyByLoad } from '../../src/model/battery/converter'
import { packAt, type Pack } from '../../src/model/battery/pack'
import { Transfer } from '../../src/model/battery/transfer'
import type { TransferRun } from '../../src/model/battery/transfer-run'
import { plainCell, tenSeries } from './battery-packs'

/** Three blocks of four LFP cells, 10 Ah each. */
export const blocks: CarriedSpec = {
  chemistry: 'lfp',
  blockCells: 4,
  blockAh: 10,
  blocksInSeries: 3,
  blocksInParallel: 1,
  health: 1,
  cellResistance: chemistries.lfp.dischargeResistance,
  wiringResistance: 0.02,
  dischargeCurrent: 20,
  blockMass: 1.3,
  charge: 1,
  storage: 0,
  boardCurrent: 0.0001,
}

/** The same efficiency at every load. */
export const flat = (efficiency: number): EfficiencyByLoad => ({ load: [1], efficiency: [efficiency] })

/** Steps both ways, 42 V and 5 A set, at most 10 A at its input. */
export const bothWays: Converter = {
  kind: 'step-up-down',
  inputVoltageLeast: 9,
  inputVoltageMost: 60,
  inputCurrent: 10,
  outputVoltageLeast: 5,
  outputVoltageMost: 60,
  outputCurrent: 8,
  voltage: 42,
  current: 5,
  efficiencyByLoad: typicalEfficiency(0.955),
  standby: 1,
  headroom: 1,
}

/** A converter without standby draw, the same efficiency at every load and limits out of the way but for those given. */
export const plainConverter = (efficiency: number, limits: Partial<Converter>): Converter => ({
  ...bothWays,
  inputVoltageLeast: 0,
  inputVoltageMost: 100,
  inputCurrent: 1000,
  outputVoltageLeast: 0,
  outputVoltageMost: 100,
  outputCurrent: 1000,
  current: 1000,
  efficiencyByLoad: flat(efficiency),
  standby: 0,
  ...limits,
})

/** A cell of nearly one voltage at every charge: a thousandth of a volt below at empty, above at full. */
const steadyCell = (voltage: number, chargeResistance: number): Chemistry => ({
  ...plainCell([0, 100], [voltage - 1e-6, voltage + 1e-6], chargeResistance),
  chargeLimitVoltage: voltage * 2,
  nominalVoltage: voltage,
  lowVoltage: voltage / 10,
})

/** One such cell as a pack of 100 Ah without resistance but for those given, Ω. */
export function steadyPack(voltage: number, resistance: number, chargeResistance: number): Pack {
  const spec = {
    ...tenSeries,
    series: 1,
    capacityAh: 100,
    cellResistance: 0,
    wiringResistance: 0,
    dischargeCurrent: 1000,
    chargeCurrent: 1000,
  }
  const pack = packAt(spec, 25, steadyCell(voltage, 100 * chargeResistance))
  return { ...pack, cellsResistance: resistance }
}

/** One charge from a carried pack: charges of both at the start, and where to stop. */
export const transfer = (
  source: Pack,
  sourceCharge: number,
  line: Line,
  pack: Pack,
  charge: number,
  goal: ChargeGoal,
): TransferRun => new Transfer(source, line, pack).run(sourceCharge, charge, goal)

/** One charge by a charger, from a charge of the pack. */
export const chargePack = (pack: Pack, charge: number, charger: MainsCharger, goal: ChargeGoal): ChargeRun =>
  new MainsCharge(pack, charger).run(charge, goal)
