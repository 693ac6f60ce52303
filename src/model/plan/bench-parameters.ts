import type { Parameter } from './parameters'

/** Seconds in a week, in which storage is told. */
const week = 7 * 24 * 3600
/** Mean month: a twelfth of a year of 365.25 days, s. */
const month = 730.5 * 3600

/** Numbers of a carried pack, by the names of `CarriedSpec`. */
export const carriedParameters = {
  blockCells: {
    quantity: 'count',
    min: 1,
    max: 20,
    default: 4,
  },
  blockAh: {
    quantity: 'capacity',
    min: 0.5,
    max: 200,
    default: 10,
  },
  blocksInSeries: {
    quantity: 'count',
    min: 1,
    max: 20,
    default: 3,
  },
  blocksInParallel: {
    quantity: 'count',
    min: 1,
    max: 20,
    default: 1,
  },
  health: {
    quantity: 'share',
    min: 0.4,
    max: 1,
    default: 1,
  },
  cellResistance: {
    quantity: 'cellResistance',
    min: 0.005,
    max: 0.6,
    default: 0.16,
    fine: true,
  },
  wiringResistance: {
    quantity: 'resistance',
    min: 0,
    max: 0.5,
    default: 0.02,
    fine: true,
  },
  dischargeCurrent: {
    quantity: 'current',
    min: 0.5,
    max: 200,
    default: 10,
  },
  lowestCellVoltage: {
    quantity: 'voltage',
    min: 2,
    max: 3.5,
    default: 2.5,
    fine: true,
  },
  blockMass: {
    quantity: 'mass',
    min: 0.02,
    max: 30,
    default: 1.3,
  },
  charge: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 1,
  },
  storage: {
    quantity: 'storage',
    min: 0,
    max: 104 * week,
    default: 0,
  },
  boardCurrent: {
    quantity: 'smallCurrent',
    min: 0,
    max: 0.02,
    default: 0.0001,
    fine: true,
  },
} satisfies Record<string, Parameter>

/** Numbers of a converter, by the names of `Converter`; `efficiency` goes through `typicalEfficiency`, the currents through `steadyCurrents`. */
export const converterParameters = {
  voltage: {
    quantity: 'voltage',
    min: 5,
    max: 90,
    default: 42,
  },
  current: {
    quantity: 'current',
    min: 0.1,
    max: 40,
    default: 4,
  },
  inputVoltageLeast: {
    quantity: 'voltage',
    min: 0,
    max: 90,
    default: 10,
  },
  inputVoltageMost: {
    quantity: 'voltage',
    min: 5,
    max: 120,
    default: 60,
  },
  inputCurrent: {
    quantity: 'current',
    min: 0.2,
    max: 100,
    default: 10,
  },
  inputPeak: {
    quantity: 'current',
    min: 0.2,
    max: 200,
    default: 15,
  },
  outputVoltageLeast: {
    quantity: 'voltage',
    min: 0,
    max: 90,
    default: 5,
    fine: true,
  },
  outputVoltageMost: {
    quantity: 'voltage',
    min: 5,
    max: 120,
    default: 60,
    fine: true,
  },
  outputCurrent: {
    quantity: 'current',
    min: 0.2,
    max: 60,
    default: 8,
  },
  outputPeak: {
    quantity: 'current',
    min: 0.2,
    max: 120,
    default: 10,
  },
  outputPower: {
    quantity: 'power',
    min: 5,
    max: 3000,
    default: 300,
  },
  efficiency: {
    quantity: 'share',
    min: 0.5,
    max: 0.99,
    default: 0.955,
  },
  standby: {
    quantity: 'power',
    min: 0,
    max: 10,
    default: 1,
    fine: true,
  },
  headroom: {
    quantity: 'voltage',
    min: 0,
    max: 10,
    default: 1,
    fine: true,
  },
  mass: {
    quantity: 'mass',
    min: 0,
    max: 10,
    default: 0.4,
  },
} satisfies Record<string, Parameter>

/** What is measured of a block before it is joined to others. */
export const blockParameters = {
  voltage: {
    quantity: 'voltage',
    min: 0,
    max: 90,
    default: 13,
  },
  age: {
    quantity: 'age',
    min: 0,
    max: 240 * month,
    default: 0,
  },
} satisfies Record<string, Parameter>

/** With what a trial of charging began. */
export const trialParameters = {
  packCharge: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.5,
  },
  sourceCharge: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 1,
  },
} satisfies Record<string, Parameter>

/** What is read on a meter and on a display while charging. */
export const readingParameters = {
  time: {
    quantity: 'duration',
    min: 0,
    max: 24 * 3600,
    default: 20 * 60,
  },
  voltage: {
    quantity: 'voltage',
    min: 1,
    max: 120,
    default: 38,
  },
  current: {
    quantity: 'current',
    min: 0,
    max: 100,
    default: 4,
  },
  charge: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.6,
  },
} satisfies Record<string, Parameter>

/** Numbers of a lead. The area is in mm². */
export const cableParameters = {
  areaMm2: {
    quantity: 'crossSection',
    min: 0.5,
    max: 25,
    default: 2.5,
  },
  length: {
    quantity: 'length',
    min: 0,
    max: 20,
    default: 1,
  },
  temperature: {
    quantity: 'temperature',
    min: -20,
    max: 69,
    default: 30,
    fine: true,
  },
  connectorRating: {
    quantity: 'current',
    min: 1,
    max: 200,
    default: 15,
  },
  mass: {
    quantity: 'mass',
    min: 0,
    max: 5,
    default: 0.15,
  },
} satisfies Record<string, Parameter>

/** Numbers of a mains charger besides `mainsParameters`. */
export const socketParameters = {
  free: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 1,
  },
  mass: {
    quantity: 'mass',
    min: 0,
    max: 5,
    default: 0,
  },
} satisfies Record<string, Parameter>
