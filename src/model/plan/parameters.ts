import { kilometresPerHour, secondsPerMinute } from '../units'

/** The unit in which the plan holds each quantity: SI, but for what is rated otherwise. */
export const quantityUnits = {
  mass: 'kg',
  /** Of what is weighed in grams or ounces. */
  smallMass: 'kg',
  carbohydrate: 'kg',
  /** Water by its mass. */
  water: 'kg',
  power: 'W',
  speed: 'm/s',
  windSpeed: 'm/s',
  share: '1',
  area: 'm²',
  coefficient: '1',
  temperature: '°C',
  pressure: 'Pa',
  direction: 'degrees',
  acceleration: 'm/s²',
  torque: 'N·m',
  length: 'm',
  distance: 'm',
  duration: 's',
  /** For each 100 km. */
  haltTime: 's',
  voltage: 'V',
  current: 'A',
  capacity: 'A·h',
  resistance: 'Ω',
  cellResistance: 'Ω·A·h',
  lapse: 'K/m',
  count: 'number',
  crossSection: 'mm²',
  smallCurrent: 'A',
  storage: 's',
  energy: 'J',
  massPerHour: 'kg/h',
  waterPerHour: 'kg/h',
  rain: 'mm/h',
} as const
export type Quantity = keyof typeof quantityUnits

/**
 * How far the true figure may lie from the stated one, which is its middle: one case in ten lies below `low`, one in ten above `high`. Both multiply
 * the stated figure ('factor') or are added to it ('offset', in its unit).
 */
export interface Belief {
  as: 'factor' | 'offset'
  low: number
  high: number
  /** Where the span comes from. */
  source: string
}

/** One number of the plan: what the form, the check at every door, the published schema and the tests read. */
export interface Parameter {
  label: string
  quantity: Quantity
  /** Bounds and default in SI, or in the unit that the key names. */
  min: number
  max: number
  default: number
  /** One line: what it is. */
  meaning: string
  /** Where the number comes from. */
  source: string
  /** Left out where the figure is a choice, or hardly matters. */
  belief?: Belief
  /** Shown only on demand: most riders never change it. */
  fine?: true
}

/** Numbers that a rider knows about himself. */
export const riderParameters = {
  mass: {
    label: 'Rider, dressed',
    quantity: 'mass',
    min: 35,
    max: 180,
    default: 85,
    meaning: 'Body, clothes and shoes.',
    source: 'A scale.',
    belief: { as: 'offset', low: -1.5, high: 1.5, source: 'Judgement: clothes, meals, another scale.' },
  },
  power: {
    label: 'Steady power',
    quantity: 'power',
    min: 0,
    max: 450,
    default: 120,
    meaning: 'What you put on the pedals on the flat, for hours.',
    source: 'A power meter, or try: touring riders give 80 to 150 W.',
    belief: { as: 'factor', low: 0.88, high: 1.12, source: 'Judgement: form of the day, and power never measured.' },
  },
  climbFactor: {
    label: 'Effort on climbs',
    quantity: 'share',
    min: 0.5,
    max: 2.5,
    default: 1.3,
    meaning: 'Power on climbs against the flat; reached at 5 %, none extra below 1 %.',
    source: 'A choice; many riders push a third harder uphill.',
  },
  coastingSpeed: {
    label: 'Stop pedalling above',
    quantity: 'speed',
    min: 15 * kilometresPerHour,
    max: 70 * kilometresPerHour,
    default: 30 * kilometresPerHour,
    meaning: 'From here pedalling fades out over the next 2 km/h.',
    source: 'A choice.',
  },
  criticalPower: {
    label: 'Critical power',
    quantity: 'power',
    min: 60,
    max: 500,
    default: 180,
    meaning: 'The power that could be held for about an hour; decides how fast you fade.',
    source: 'A test of 3 to 20 minutes (Monod and Scherrer 1965); 180 W is a choice.',
    fine: true,
  },
  fade: {
    label: 'Fade',
    quantity: 'share',
    min: 0,
    max: 0.16,
    default: 0.035,
    meaning: 'Power lost for each hour’s work at critical power: less than half as much an hour at an easy pace.',
    source:
      'Clark et al. 2019, J. Appl. Physiol. 127:726: 9 % in two hours unfed, 2 % fed. That ridden power follows measured capacity is an assumption.',
    belief: {
      as: 'factor',
      low: 0.015 / 0.035,
      high: 2,
      source: 'Judgement on Clark et al. 2019: 1.4 % fed to 5.7 % unfed; professionals and a 24 h record 2.1 to 4.5 %.',
    },
  },
  smallHalts: {
    label: 'Small halts, each 100 km',
    quantity: 'haltTime',
    min: 0,
    max: 120 * secondsPerMinute,
    default: 6 * secondsPerMinute,
    meaning: 'Lights, gates, a photograph, a bottle: time that no stop of the plan shows.',
    source: 'Last year’s recording: elapsed less moving time less the planned stops.',
    belief: { as: 'factor', low: 0.5, high: 2, source: 'Judgement.' },
  },
} satisfies Record<string, Parameter>

export const bikeParameters = {
  mass: {
    label: 'Bike without packs',
    quantity: 'mass',
    min: 10,
    max: 80,
    default: 27,
    meaning: 'Bike, racks and lights, without battery packs and luggage.',
    source: 'A scale.',
    belief: {
      as: 'offset',
      low: -1,
      high: 1,
      source: 'Judgement: what a maker states is without rack, lights and mud.',
    },
  },
  luggage: {
    label: 'Luggage and water',
    quantity: 'mass',
    min: 0,
    max: 80,
    default: 12,
    meaning: 'Everything carried that is neither bike, pack nor rider.',
    source: 'A scale.',
    belief: { as: 'factor', low: 0.85, high: 1.2, source: 'Judgement: luggage is added up, rarely weighed.' },
  },
  dragArea: {
    label: 'Drag area (CdA)',
    quantity: 'area',
    min: 0.15,
    max: 1.5,
    default: 0.6,
    meaning: 'Frontal area times drag coefficient, rider and bags.',
    source: 'Tengattini and Bigazzi 2018: urban riders 0.56 ± 0.17 m², and bags.',
    belief: {
      as: 'offset',
      low: -0.218,
      high: 0.218,
      source: 'Between bikes and riders, SD 0.170 m²: Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391.',
    },
  },
  rolling: {
    label: 'Rolling coefficient (Crr)',
    quantity: 'coefficient',
    min: 0.001,
    max: 0.05,
    default: 0.008,
    meaning: 'Tyres on average asphalt.',
    source: 'Tengattini and Bigazzi 2018: 0.0077 ± 0.0036.',
    belief: {
      as: 'offset',
      low: -0.00461,
      high: 0.00461,
      source: 'Between bikes, SD 0.0036: Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391.',
    },
  },
  surfaceFactor: {
    label: 'Surface factor',
    quantity: 'share',
    min: 0.5,
    max: 4,
    default: 1,
    meaning: 'Multiplies rolling: 75 % very smooth, 125 % rough asphalt, 150 % packed gravel.',
    source: 'Ratios of handbook coefficients by surface; judgement.',
  },
  topSpeed: {
    label: 'Fastest downhill',
    quantity: 'speed',
    min: 15 * kilometresPerHour,
    max: 90 * kilometresPerHour,
    default: 40 * kilometresPerHour,
    meaning: 'You brake rather than pass this speed.',
    source: 'A choice.',
  },
  lateralAcceleration: {
    label: 'Bends',
    quantity: 'acceleration',
    min: 0.8,
    max: 3.5,
    default: 2.2,
    meaning: 'Sideways acceleration accepted in bends.',
    source: 'FHWA-HRT-04-103, table 19: 1.8 to 2.6 m/s² on 15 to 25 m radius.',
    fine: true,
  },
  braking: {
    label: 'Braking',
    quantity: 'acceleration',
    min: 0.5,
    max: 3,
    default: 1.5,
    meaning: 'Comfortable deceleration before bends and stops.',
    source: 'From memory of cycle-road design guides; 2.45 m/s² is a wet design stop.',
    fine: true,
  },
  drivetrain: {
    label: 'Chain efficiency',
    quantity: 'share',
    min: 0.8,
    max: 1,
    default: 0.95,
    meaning: 'Share of pedal power that reaches the wheel.',
    source: 'Smit et al. 2023: 97.9 % when clean; less for dirt.',
    fine: true,
  },
  rotatingMass: {
    label: 'Rotating mass',
    quantity: 'mass',
    min: 0,
    max: 10,
    default: 3,
    meaning: 'Extra inertia of the wheels, as mass at the rim.',
    source: 'Martin et al. 1998 give 1.45 kg for light wheels (from memory); heavier tyres here.',
    fine: true,
  },
  wheelRadius: {
    label: 'Wheel radius',
    quantity: 'length',
    min: 0.2,
    max: 0.42,
    default: 0.35,
    meaning: 'Rolling radius of the driven wheel.',
    source: 'A tape measure; 0.35 m is 28 inches with a wide tyre.',
    fine: true,
  },
} satisfies Record<string, Parameter>

export const assistParameters = {
  ratio: {
    label: 'Assist on the flat',
    quantity: 'share',
    min: 0,
    max: 4,
    default: 0.5,
    meaning: 'Motor power for each watt of yours.',
    source: 'A choice; 0 % is no motor.',
  },
  climbRatio: {
    label: 'Assist on climbs',
    quantity: 'share',
    min: 0,
    max: 4,
    default: 1,
    meaning: 'The same on climbs; reached at 5 %, blended from 1 %.',
    source: 'A choice.',
  },
  limitSpeed: {
    label: 'Assist ends at',
    quantity: 'speed',
    min: 6 * kilometresPerHour,
    max: 45.1 * kilometresPerHour,
    default: 25 * kilometresPerHour,
    meaning: 'Legal limit of the motor; it fades out over the last 2 km/h.',
    source: 'EN 15194: 25 km/h. 36 CFR 1.4: 20 or 28 mph. Local law decides.',
  },
  peakPower: {
    label: 'Motor, greatest power',
    quantity: 'power',
    min: 50,
    max: 1000,
    default: 450,
    meaning: 'Mechanical, for a climb; not the rated continuous power.',
    source: 'From memory: 400 to 600 W for motors rated 250 W.',
  },
  torque: {
    label: 'Torque at the wheel',
    quantity: 'torque',
    min: 10,
    max: 250,
    default: 80,
    meaning: 'Greatest torque of the motor, as it arrives at the wheel.',
    source: 'The maker’s figure, geared down.',
    fine: true,
  },
  lossFactor: {
    label: 'Motor losses',
    quantity: 'share',
    min: 0.3,
    max: 3,
    default: 1,
    meaning: 'Against the built-in curve: 0.0013 W for each W squared up to 200 W, then 79 % efficient.',
    source: 'Fitted to one measured mid-drive, 2024, up to 202 W; above by common practice, 75 to 80 % near the peak.',
    belief: { as: 'factor', low: 0.75, high: 1.3, source: 'Judgement: one ride of one motor was measured.' },
    fine: true,
  },
  electronics: {
    label: 'Electronics',
    quantity: 'power',
    min: 0,
    max: 50,
    default: 5,
    meaning: 'Display, controller and chargers on the bike, while moving.',
    source: 'Judgement: 2 to 10 W.',
  },
  lights: {
    label: 'Lights',
    quantity: 'power',
    min: 0,
    max: 60,
    default: 3,
    meaning: 'Drawn from the pack all the way; 0 is off.',
    source: 'The lamp’s label.',
  },
} satisfies Record<string, Parameter>

export const weatherParameters = {
  temperatureCelsius: {
    label: 'Air at the start',
    quantity: 'temperature',
    min: -20,
    max: 45,
    default: 15,
    meaning: 'At the height of the start; falls with height.',
    source: 'The forecast. 15 °C is the standard atmosphere.',
    belief: {
      as: 'offset',
      low: -2.5,
      high: 2.5,
      source: 'Twelve weather models against stations, matrunich.com, spring 2026: 1.2 to 2.2 K in the mean.',
    },
  },
  windSpeed: {
    label: 'Wind',
    quantity: 'windSpeed',
    min: 0,
    max: 30,
    default: 3,
    meaning: 'Mean at 10 m height, as forecasts give it.',
    source: 'The forecast.',
    belief: {
      as: 'offset',
      low: -2.2,
      high: 2.2,
      source: 'Twelve weather models against stations, matrunich.com, spring 2026: 1.5 to 2.4 m/s rms.',
    },
  },
  windFromDegrees: {
    label: 'Wind from',
    quantity: 'direction',
    min: 0,
    max: 360,
    default: 250,
    meaning: 'Where it comes from: 0 is north, 90 east.',
    source: 'The forecast.',
    belief: {
      as: 'offset',
      low: -40,
      high: 40,
      source:
        'Twelve weather models against stations, matrunich.com, spring 2026: 22 to 49° in the mean, light winds counted.',
    },
  },
  seaLevelPressure: {
    label: 'Pressure at sea level',
    quantity: 'pressure',
    min: 93000,
    max: 107000,
    default: 101325,
    meaning: 'As on a weather map; decides with temperature how thick the air is.',
    source: 'The forecast. ISO 2533: 1013.25 hPa.',
    fine: true,
  },
  humidity: {
    label: 'Humidity',
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.6,
    meaning: 'Relative humidity of the air.',
    source: 'The forecast.',
    fine: true,
  },
  lapseRate: {
    label: 'Cooling with height',
    quantity: 'lapse',
    min: 0,
    max: 0.01,
    default: 0.0065,
    meaning: 'Temperature lost for each metre of height.',
    source: 'ISO 2533: 6.5 K for each km.',
    fine: true,
  },
} satisfies Record<string, Parameter>

export const batteryParameters = {
  reserve: {
    label: 'Reserve',
    quantity: 'share',
    min: 0,
    max: 0.5,
    default: 0.1,
    meaning: 'Charge of all packs together that you refuse to go below before the finish.',
    source: 'A choice.',
  },
  temperatureCelsius: {
    label: 'Packs’ temperature',
    quantity: 'temperature',
    min: -20,
    max: 45,
    default: 18,
    meaning: 'Cold raises resistance and takes capacity.',
    source: 'Kept indoors, then air temperature and some own heat.',
  },
  swapTime: {
    label: 'Time for a swap',
    quantity: 'duration',
    min: 0,
    max: 30 * secondsPerMinute,
    default: 2 * secondsPerMinute,
    meaning: 'Halt to change to the next pack where one is used up.',
    source: 'A choice.',
  },
} satisfies Record<string, Parameter>

export const packParameters = {
  series: {
    label: 'Cells in series',
    quantity: 'count',
    min: 3,
    max: 20,
    default: 10,
    meaning: 'Decides the voltage: 10 of the NMC type are 36 V nominal, 42 V full.',
    source: 'The label: nominal voltage over 3.6 V (LFP 3.2 V).',
  },
  capacityAh: {
    label: 'Rated capacity',
    quantity: 'capacity',
    min: 1,
    max: 100,
    default: 13.9,
    meaning: 'Ampere-hours when new; 13.9 Ah at 36 V are 500 Wh.',
    source: 'The label (IEC 61960: at a fifth of an hour’s rate, 20 °C).',
  },
  charge: {
    label: 'Charge at the start',
    quantity: 'share',
    min: 0,
    max: 1,
    default: 1,
    meaning: 'Of all the pack holds.',
    source: 'The display before you set off.',
  },
  health: {
    label: 'Health',
    quantity: 'share',
    min: 0.4,
    max: 1,
    default: 1,
    meaning: 'Capacity left against new.',
    source: 'A measured full discharge; 85 % is a common guess for a used pack.',
    belief: { as: 'offset', low: -0.06, high: 0.04, source: 'Judgement: rarely measured, and new cells vary by 2 %.' },
  },
  mass: {
    label: 'Mass',
    quantity: 'mass',
    min: 0.3,
    max: 20,
    default: 3,
    meaning: 'Pack with its case and mount.',
    source: 'A scale.',
  },
  floor: {
    label: 'Motor stops at',
    quantity: 'share',
    min: 0,
    max: 0.4,
    default: 0.08,
    meaning: 'Charge at which the bike cuts the motor; 0 % on display.',
    source: 'Judgement: 90 to 97 % of the rated energy can be used.',
    fine: true,
  },
  cellResistance: {
    label: 'Cell resistance × Ah',
    quantity: 'cellResistance',
    min: 0.005,
    max: 0.6,
    default: 0.13,
    meaning: 'Direct-current resistance of one cell times its ampere-hours, at 25 °C.',
    source: 'From published discharge curves: 0.13 Ω·Ah NMC type, 0.16 LFP.',
    fine: true,
  },
  wiringResistance: {
    label: 'Wiring resistance',
    quantity: 'resistance',
    min: 0,
    max: 0.5,
    default: 0.03,
    meaning: 'Protection board, leads and plug.',
    source: 'Judgement: 20 to 50 mΩ.',
    fine: true,
  },
  dischargeCurrent: {
    label: 'Greatest current',
    quantity: 'current',
    min: 2,
    max: 100,
    default: 20,
    meaning: 'What the pack gives at most; the motor gets less above it.',
    source: 'The label.',
    fine: true,
  },
  chargeCurrent: {
    label: 'Greatest charging current',
    quantity: 'current',
    min: 0.5,
    max: 50,
    default: 6,
    meaning: 'What the pack takes at most.',
    source: 'The label; common practice, no source: 4 A standard, 6 A fast.',
  },
} satisfies Record<string, Parameter>

export const mainsParameters = {
  voltage: {
    label: 'Charger voltage',
    quantity: 'voltage',
    min: 5,
    max: 90,
    default: 42,
    meaning: 'Its constant voltage; never above the pack’s full voltage.',
    source: 'The charger’s label.',
  },
  current: {
    label: 'Charger current',
    quantity: 'current',
    min: 0.2,
    max: 40,
    default: 4,
    meaning: 'Its constant current.',
    source: 'The charger’s label; common practice, no source: 4 A standard, 6 A fast.',
  },
  efficiency: {
    label: 'Charger efficiency',
    quantity: 'share',
    min: 0.5,
    max: 1,
    default: 0.88,
    meaning: 'Energy into the pack for energy from the socket.',
    source: 'Judgement, by analogy with EU 2019/1782.',
    fine: true,
  },
} satisfies Record<string, Parameter>

export const stopParameters = {
  duration: {
    label: 'Stay for',
    quantity: 'duration',
    min: 0,
    max: 24 * 60 * secondsPerMinute,
    default: 45 * secondsPerMinute,
    meaning: 'From arrival to departure.',
    source: 'A choice.',
    belief: {
      as: 'factor',
      low: 0.9,
      high: 1.5,
      source: 'Judgement: a stop lasts longer than meant more often than not.',
    },
  },
  chargeTo: {
    label: 'Charge up to',
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.8,
    meaning: 'Charge of all packs together at which you leave.',
    source: 'A choice; the last tenth charges slowest.',
  },
} satisfies Record<string, Parameter>

/** What a stretch may have of its own; the default is what it takes when the rider first says something. */
export const stretchParameters = {
  shelter: {
    label: 'Wind that gets through',
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.5,
    meaning: 'Share of the wind of open land that reaches you: 0 % in a tunnel or deep wood.',
    source: 'Judgement: about half behind hedges and houses.',
  },
  speedLimit: {
    label: 'No faster than',
    quantity: 'speed',
    min: 5 * kilometresPerHour,
    max: 90 * kilometresPerHour,
    default: 15 * kilometresPerHour,
    meaning: 'You ride no faster here: a town, a shared path, a rough descent.',
    source: 'A choice, or the sign.',
  },
  assistRatio: {
    label: 'Assist',
    quantity: 'share',
    min: 0,
    max: 4,
    default: 0.5,
    meaning: 'Motor power for each watt of yours, on climbs as on the flat.',
    source: 'A choice; 0 % is no motor.',
  },
} satisfies Record<string, Parameter>

export const crossingParameters = {
  duration: {
    label: 'Time it takes',
    quantity: 'duration',
    min: 0,
    max: 48 * 60 * secondsPerMinute,
    default: 75 * secondsPerMinute,
    meaning: 'From arriving to riding on, waiting included.',
    source: 'The timetable. Until you set it: 20 minutes and 6 m/s, a guess.',
  },
} satisfies Record<string, Parameter>

export const legParameters = {
  length: {
    label: 'Leg length',
    quantity: 'distance',
    min: 500,
    max: 200_000,
    default: 10_000,
    meaning: 'Legs are cut at multiples of this length, and at every stop.',
    source: 'A choice.',
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

/** Factor on the rolling coefficient of average asphalt, by surface. */
export const surfaces = {
  asphalt: { factor: 1, source: 'The rolling coefficient is that of average asphalt.' },
  'rough asphalt': { factor: 1.25, source: 'Judgement: 0.010 against 0.008.' },
  gravel: {
    factor: 1.5,
    source: 'Judgement for packed gravel: 0.012 against 0.008; loose gravel may take twice that.',
  },
  cobbles: {
    factor: 2,
    source:
      'Handbook coefficients, 0.008 rough paved against 0.004 asphalt. Hölzel et al. 2012, Procedia Eng. 34:479: a pendulum ran out 22.1 m on slabs, 10.2 m on cobbles, on asphalt less than on slabs.',
  },
} as const
export type Surface = keyof typeof surfaces
