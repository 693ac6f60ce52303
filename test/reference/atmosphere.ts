import { airDensity, pressureAt, saturationPressure } from '../../src/model/ride/air'
import { gravity } from '../../src/model/ride/grade'
import type { ReferenceCheck } from './check'

/** Geopotential height, m; pressure, Pa; density, kg/m³. */
const standardAtmosphere: [number, number, number][] = [
  [-500, 107477.5, 1.28489],
  [0, 101325, 1.225],
  [200, 98945.3, 1.20165],
  [500, 95460.8, 1.16727],
  [1000, 89874.6, 1.11164],
  [1500, 84556.0, 1.05807],
  [2000, 79495.2, 1.00649],
  [2500, 74682.5, 0.95686],
  [3000, 70108.5, 0.90912],
]

const heights = standardAtmosphere.flatMap(([height, pressure, density]): ReferenceCheck[] => {
  const common = {
    source: 'ISO 2533:1975, US Standard Atmosphere 1976: its formula and constants',
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'pressure of the standard atmosphere',
      sample: `${height} m`,
      unit: 'Pa',
      expected: pressure,
      ours: () => pressureAt(height),
      tolerance: 0.5,
    },
    {
      ...common,
      quantity: 'density of the standard atmosphere',
      sample: `${height} m`,
      unit: 'kg/m³',
      expected: density,
      ours: () => airDensity(pressureAt(height), 15 - 0.0065 * height, 0),
      tolerance: 2e-5,
    },
  ]
})

/** Saturation vapour pressure, Pa: CIPM-2007 with the constants of Davis 1992. */
const cipmSaturation = (kelvin: number) =>
  Math.exp(1.2378847e-5 * kelvin ** 2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin)

/** Density of moist air by CIPM-2007, kg/m³: Picard, Davis, Gläser and Fujii 2008, Metrologia 45:149-155, for 400 ppm of CO2. */
function cipmDensity(pressure: number, celsius: number, humidity: number): number {
  const kelvin = celsius + 273.15
  const enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * celsius ** 2
  const vapour = (humidity * enhancement * cipmSaturation(kelvin)) / pressure
  const ratio = pressure / kelvin
  const compressibility =
    1 -
    ratio *
      (1.58123e-6 -
        2.9331e-8 * celsius +
        1.1043e-10 * celsius ** 2 +
        (5.707e-6 - 2.051e-8 * celsius) * vapour +
        (1.9898e-4 - 2.376e-6 * celsius) * vapour ** 2) +
    ratio ** 2 * (1.83e-11 - 0.765e-8 * vapour ** 2)
  const dryMass = 28.96546e-3
  return ((pressure * dryMass) / (compressibility * 8.314472 * kelvin)) * (1 - vapour * (1 - 18.01528e-3 / dryMass))
}

/** Pressure, Pa, °C, humidity. */
const moistAir = [70_000, 80_000, 90_000, 101_325, 105_000].flatMap((pressure) =>
  [0, 5, 10, 15, 20, 25, 30, 35].flatMap((celsius) =>
    [0, 0.25, 0.5, 0.75, 1].map((humidity) => [pressure, celsius, humidity] as const),
  ),
)

const moist = moistAir.map(([pressure, celsius, humidity]): ReferenceCheck => {
  const expected = cipmDensity(pressure, celsius, humidity)
  return {
    quantity: 'density of moist air',
    sample: `${pressure} Pa, ${celsius} °C, ${humidity * 100} %`,
    source:
      'CIPM-2007, Picard et al. 2008, Metrologia 45:149-155, doi:10.1088/0026-1394/45/2/004, written out in the test',
    unit: 'kg/m³',
    expected,
    ours: () => airDensity(pressure, celsius, humidity),
    tolerance: 0.001 * expected,
    basis: 'computed from published',
  }
})

const dewPoints = (
  [
    [0, 1.287],
    [10, 1.241],
    [20, 1.199],
    [40, 1.122],
  ] as const
).map(([celsius, expected]): ReferenceCheck => ({
  quantity: 'density of moist air, dew point 10 °C, 760 mmHg',
  sample: `${celsius} °C`,
  source: 'handbook table “Density of moist air”, dew point 10 °C (read second-hand)',
  unit: 'kg/m³',
  expected,
  // Below the dew point the air is taken as supersaturated, as the table does.
  ours: () => airDensity(101325, celsius, saturationPressure(10) / saturationPressure(celsius)),
  tolerance: 0.001,
  basis: 'published',
}))

const saturation = Array.from({ length: 41 }, (_, celsius) => celsius).map((celsius): ReferenceCheck => {
  const expected = cipmSaturation(celsius + 273.15)
  return {
    quantity: 'saturation vapour pressure',
    sample: `${celsius} °C`,
    source: 'CIPM-2007, Picard et al. 2008, appendix A1',
    unit: 'Pa',
    expected,
    ours: () => saturationPressure(celsius),
    tolerance: 0.004 * expected,
    basis: 'computed from published',
  }
})

export const atmosphereChecks: ReferenceCheck[] = [...heights, ...moist, ...dewPoints, ...saturation]

/** Latitude, degrees; normal gravity on the ellipsoid and 1000 m above, m/s². */
const normalGravity: [number, number, number][] = [
  [0, 9.7803253359, 9.7772384],
  [30, 9.7932472692, 9.7901614],
  [45, 9.8061977694, 9.8031129],
  [52, 9.8124740779, 9.8093898],
  [60, 9.8191769531, 9.8160932],
  [90, 9.8321849379, 9.8291023],
]

const standard = 'Somigliana’s formula with the constants of WGS 84, NIMA TR8350.2, 3rd edition'

export const gravityChecks: ReferenceCheck[] = [
  ...normalGravity.flatMap(([latitude, ground, above]): ReferenceCheck[] => [
    {
      quantity: 'gravity on the ellipsoid',
      sample: `${latitude}°`,
      source: standard,
      unit: 'm/s²',
      expected: ground,
      ours: () => gravity(latitude),
      tolerance: 1e-9,
      basis: 'computed from published',
    },
    {
      quantity: 'gravity 1000 m above it',
      sample: `${latitude}°`,
      source: `${standard}; the term in height from memory`,
      unit: 'm/s²',
      expected: above,
      ours: () => gravity(latitude, 1000),
      tolerance: 1e-7,
      basis: 'from memory',
    },
  ]),
  {
    quantity: 'gravity at the pole, tabled apart from the formula',
    sample: '',
    source: 'WGS 84, NIMA TR8350.2: γp',
    unit: 'm/s²',
    expected: 9.8321849378,
    ours: () => gravity(90),
    tolerance: 1e-9,
    basis: 'published',
  },
]
