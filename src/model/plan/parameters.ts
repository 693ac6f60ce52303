import { kilometresPerHour, secondsPerMinute } from '../units'

/** What a number is of. The plan holds it in SI, but for what is rated otherwise; its published schema tells the units. */
export type Quantity =
  | 'mass'
  | 'smallMass'
  | 'carbohydrate'
  | 'water'
  | 'power'
  | 'speed'
  | 'windSpeed'
  | 'share'
  | 'area'
  | 'coefficient'
  | 'temperature'
  | 'pressure'
  | 'direction'
  | 'acceleration'
  | 'torque'
  | 'length'
  | 'distance'
  | 'duration'
  | 'haltTime'
  | 'voltage'
  | 'current'
  | 'capacity'
  | 'resistance'
  | 'cellResistance'
  | 'lapse'
  | 'count'
  | 'crossSection'
  | 'smallCurrent'
  | 'storage'
  | 'age'
  | 'cadence'
  | 'crank'
  | 'gear'
  | 'energy'
  | 'packEnergy'
  | 'massPerHour'
  | 'waterPerHour'
  | 'rain'

/**
 * How far the true figure may lie from the stated one, which is its middle: one case in ten lies below `low`, one in ten above `high`. Both multiply
 * the stated figure ('factor') or are added to it ('offset', in its unit).
 */
export interface Belief {
  as: 'factor' | 'offset'
  low: number
  high: number
}

/** One number of the plan: what the form, the check at every door, the published schema and the tests read. */
export interface Parameter {
  quantity: Quantity
  /** Bounds and default in SI, or in the unit that the key names. */
  min: number
  max: number
  default: number
  /** Left out where the figure is a choice, or hardly matters. */
  belief?: Belief
  /** Shown only on demand: most riders never change it. */
  fine?: true
}

/** Numbers that a rider knows about himself. */
export const riderParameters = {
  mass: {
    quantity: 'mass',
    min: 35,
    max: 180,
    default: 85,
    belief: { as: 'offset', low: -1.5, high: 1.5 },
  },
  power: {
    quantity: 'power',
    min: 0,
    max: 450,
    default: 120,
    belief: { as: 'factor', low: 0.88, high: 1.12 },
  },
  climbFactor: {
    quantity: 'share',
    min: 0.5,
    max: 2.5,
    default: 1.3,
  },
  coastingSpeed: {
    quantity: 'speed',
    min: 15 * kilometresPerHour,
    max: 70 * kilometresPerHour,
    default: 30 * kilometresPerHour,
  },
  criticalPower: {
    quantity: 'power',
    min: 60,
    max: 500,
    default: 180,
    fine: true,
  },
  fade: {
    quantity: 'share',
    min: 0,
    max: 0.16,
    default: 0.035,
    belief: {
      as: 'factor',
      low: 0.015 / 0.035,
      high: 2,
    },
  },
  smallHalts: {
    quantity: 'haltTime',
    min: 0,
    max: 120 * secondsPerMinute,
    default: 6 * secondsPerMinute,
    belief: { as: 'factor', low: 0.5, high: 2 },
  },
} satisfies Record<string, Parameter>

export const bikeParameters = {
  mass: {
    quantity: 'mass',
    min: 10,
    max: 80,
    default: 27,
    belief: {
      as: 'offset',
      low: -1,
      high: 1,
    },
  },
  luggage: {
    quantity: 'mass',
    min: 0,
    max: 80,
    default: 12,
    belief: { as: 'factor', low: 0.85, high: 1.2 },
  },
  dragArea: {
    quantity: 'area',
    min: 0.15,
    max: 1.5,
    default: 0.6,
    belief: {
      as: 'offset',
      low: -0.218,
      high: 0.218,
    },
  },
  rolling: {
    quantity: 'coefficient',
    min: 0.001,
    max: 0.05,
    default: 0.008,
    belief: {
      as: 'offset',
      low: -0.00461,
      high: 0.00461,
    },
  },
  surfaceFactor: {
    quantity: 'share',
    min: 0.5,
    max: 4,
    default: 1,
  },
  topSpeed: {
    quantity: 'speed',
    min: 15 * kilometresPerHour,
    max: 90 * kilometresPerHour,
    default: 40 * kilometresPerHour,
  },
  lateralAcceleration: {
    quantity: 'acceleration',
    min: 0.8,
    max: 3.5,
    default: 2.2,
    fine: true,
  },
  braking: {
    quantity: 'acceleration',
    min: 0.5,
    max: 3,
    default: 1.5,
    fine: true,
  },
  drivetrain: {
    quantity: 'share',
    min: 0.8,
    max: 1,
    default: 0.95,
    fine: true,
  },
  rotatingMass: {
    quantity: 'mass',
    min: 0,
    max: 10,
    default: 3,
    fine: true,
  },
  wheelRadius: {
    quantity: 'length',
    min: 0.2,
    max: 0.42,
    default: 0.35,
    fine: true,
  },
} satisfies Record<string, Parameter>

/** How the rider pedals: nothing of it changes the forecast. */
export const pedallingParameters = {
  /** Turns of the cranks, 1/s. */
  cadence: {
    quantity: 'cadence',
    min: 0.5,
    max: 2,
    default: 75 / 60,
  },
  /** Teeth in front over teeth at the rear. */
  lowestGear: {
    quantity: 'gear',
    min: 0.3,
    max: 4,
    default: 1,
  },
  crankLength: {
    quantity: 'crank',
    min: 0.1,
    max: 0.2,
    default: 0.17,
  },
} satisfies Record<string, Parameter>

/** A figure that the rider was given for a knee. */
export const kneeParameters = {
  mostTorque: {
    quantity: 'torque',
    min: 1,
    max: 200,
    default: 20,
  },
} satisfies Record<string, Parameter>

export const assistParameters = {
  ratio: {
    quantity: 'share',
    min: 0,
    max: 4,
    default: 0.5,
  },
  climbRatio: {
    quantity: 'share',
    min: 0,
    max: 4,
    default: 1,
  },
  limitSpeed: {
    quantity: 'speed',
    min: 6 * kilometresPerHour,
    max: 45.1 * kilometresPerHour,
    default: 25 * kilometresPerHour,
  },
  peakPower: {
    quantity: 'power',
    min: 50,
    max: 1000,
    default: 450,
  },
  torque: {
    quantity: 'torque',
    min: 10,
    max: 250,
    default: 80,
    fine: true,
  },
  lossFactor: {
    quantity: 'share',
    min: 0.3,
    max: 3,
    default: 1,
    belief: { as: 'factor', low: 0.75, high: 1.3 },
    fine: true,
  },
  electronics: {
    quantity: 'power',
    min: 0,
    max: 50,
    default: 5,
  },
  lights: {
    quantity: 'power',
    min: 0,
    max: 60,
    default: 3,
  },
} satisfies Record<string, Parameter>

export const weatherParameters = {
  temperatureCelsius: {
    quantity: 'temperature',
    min: -20,
    max: 45,
    default: 15,
    belief: {
      as: 'offset',
      low: -2.5,
      high: 2.5,
    },
  },
  windSpeed: {
    quantity: 'windSpeed',
    min: 0,
    max: 30,
    default: 3,
    belief: {
      as: 'offset',
      low: -2.2,
      high: 2.2,
    },
  },
  windFromDegrees: {
    quantity: 'direction',
    min: 0,
    max: 360,
    default: 250,
    belief: {
      as: 'offset',
      low: -40,
      high: 40,
    },
  },
  seaLevelPressure: {
    quantity: 'pressure',
    min: 93000,
    max: 107000,
    default: 101325,
    fine: true,
  },
  humidity: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.6,
    fine: true,
  },
  lapseRate: {
    quantity: 'lapse',
    min: 0,
    max: 0.01,
    default: 0.0065,
    fine: true,
  },
} satisfies Record<string, Parameter>

export const batteryParameters = {
  reserve: {
    quantity: 'share',
    min: 0,
    max: 0.5,
    default: 0.1,
  },
  temperatureCelsius: {
    quantity: 'temperature',
    min: -20,
    max: 45,
    default: 18,
  },
  swapTime: {
    quantity: 'duration',
    min: 0,
    max: 30 * secondsPerMinute,
    default: 2 * secondsPerMinute,
  },
} satisfies Record<string, Parameter>

export const packParameters = {
  series: {
    quantity: 'count',
    min: 3,
    max: 20,
    default: 10,
  },
  capacityAh: {
    quantity: 'capacity',
    min: 1,
    max: 100,
    default: 13.9,
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
    max: 104 * 7 * 86_400,
    default: 0,
  },
  health: {
    quantity: 'share',
    min: 0.4,
    max: 1,
    default: 1,
    belief: { as: 'offset', low: -0.06, high: 0.04 },
  },
  mass: {
    quantity: 'mass',
    min: 0.3,
    max: 20,
    default: 3,
  },
  boardCurrent: {
    quantity: 'smallCurrent',
    min: 0,
    max: 0.02,
    default: 0.0001,
    fine: true,
  },
  floor: {
    quantity: 'share',
    min: 0,
    max: 0.4,
    default: 0.08,
    fine: true,
  },
  cellResistance: {
    quantity: 'cellResistance',
    min: 0.005,
    max: 0.6,
    default: 0.13,
    fine: true,
  },
  wiringResistance: {
    quantity: 'resistance',
    min: 0,
    max: 0.5,
    default: 0.03,
    fine: true,
  },
  dischargeCurrent: {
    quantity: 'current',
    min: 2,
    max: 100,
    default: 20,
    fine: true,
  },
  chargeCurrent: {
    quantity: 'current',
    min: 0.5,
    max: 50,
    default: 6,
  },
} satisfies Record<string, Parameter>

export const mainsParameters = {
  voltage: {
    quantity: 'voltage',
    min: 5,
    max: 90,
    default: 42,
  },
  current: {
    quantity: 'current',
    min: 0.2,
    max: 40,
    default: 4,
  },
  efficiency: {
    quantity: 'share',
    min: 0.5,
    max: 1,
    default: 0.88,
    fine: true,
  },
} satisfies Record<string, Parameter>

export const stopParameters = {
  duration: {
    quantity: 'duration',
    min: 0,
    max: 24 * 60 * secondsPerMinute,
    default: 45 * secondsPerMinute,
    belief: {
      as: 'factor',
      low: 0.9,
      high: 1.5,
    },
  },
  chargeTo: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.8,
  },
} satisfies Record<string, Parameter>

/** What a stretch may have of its own; the default is what it takes when the rider first says something. */
export const stretchParameters = {
  shelter: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.5,
  },
  speedLimit: {
    quantity: 'speed',
    min: 5 * kilometresPerHour,
    max: 90 * kilometresPerHour,
    default: 15 * kilometresPerHour,
  },
  assistRatio: {
    quantity: 'share',
    min: 0,
    max: 4,
    default: 0.5,
  },
} satisfies Record<string, Parameter>

export const crossingParameters = {
  duration: {
    quantity: 'duration',
    min: 0,
    max: 48 * 60 * secondsPerMinute,
    default: 75 * secondsPerMinute,
  },
} satisfies Record<string, Parameter>

export const legParameters = {
  length: {
    quantity: 'distance',
    min: 500,
    max: 200_000,
    default: 10_000,
  },
} satisfies Record<string, Parameter>

/** Roughness length of the surroundings, m, by name: Davenport and Wieringa's classes, WMO-No. 8. */
export const surroundings = {
  'open water': 0.0002,
  'open grassland': 0.03,
  'farmland with low crops': 0.1,
  'farmland with hedges': 0.25,
} as const
export type Surroundings = keyof typeof surroundings
/** Where nothing else is said. */
export const usualSurroundings: Surroundings = 'farmland with low crops'

/**
 * Factor on the rolling coefficient of average asphalt, by surface. Rough asphalt, judgement: 0.010 against 0.008. Packed gravel, judgement: 0.012
 * against 0.008; loose gravel may take twice that. Cobbles by handbook coefficients, 0.008 rough paved against 0.004 asphalt.
 *
 * @see Hölzel et al. 2012, Procedia Eng. 34:479: a pendulum ran out 22.1 m on slabs, 10.2 m on cobbles, on asphalt less than on slabs
 */
export const surfaces = { asphalt: 1, 'rough asphalt': 1.25, gravel: 1.5, cobbles: 2 } as const
export type Surface = keyof typeof surfaces
