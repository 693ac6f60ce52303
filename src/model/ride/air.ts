import { kelvinAtZeroCelsius } from '../units'

/** Specific gas constants of dry air and water vapour, J/(kg K): ISO 2533 and CIPM's molar mass of water. */
const gasConstantDryAir = 287.05287
const gasConstantVapour = 461.495

/** Drag area of the turning wheels, m²: Martin et al. 1998, J. Appl. Biomech. 14:276-291 (as used by van Druenen and Blocken 2021). */
export const wheelDragArea = 0.0044

/**
 * Static pressure of the standard atmosphere's troposphere, scaled to a sea-level pressure.
 *
 * @param height m, taken as geopotential
 * @param seaLevelPressure Pa
 * @returns Pa
 * @see ISO 2533:1975; US Standard Atmosphere 1976, eq. 33a
 */
export const pressureAt = (height: number, seaLevelPressure = 101325): number =>
  seaLevelPressure * (1 - (0.0065 * height) / 288.15) ** 5.255876

/**
 * Saturation vapour pressure over water, Magnus form.
 *
 * @param celsius °C
 * @returns Pa
 * @see WMO-No. 8, annex 4.B (coefficients from memory, checked against CIPM-2007 within 0.4 % from 0 to 40 °C)
 */
export const saturationPressure = (celsius: number): number => 611.2 * Math.exp((17.62 * celsius) / (243.12 + celsius))

const tableFrom = -60 // °C
const tableTo = 60
const perKelvin = 4
const saturated = Float64Array.from({ length: (tableTo - tableFrom) * perKelvin + 2 }, (_, i) =>
  saturationPressure(tableFrom + i / perKelvin),
)

/** As `saturationPressure`, from a table of quarter kelvins where it reaches: off by less than 1 Pa, and so much quicker that a ride may ask at each step. */
function saturationInTable(celsius: number): number {
  const place = (celsius - tableFrom) * perKelvin
  if (!(place >= 0 && place < saturated.length - 1)) return saturationPressure(celsius)
  const i = place | 0
  return saturated[i]! + (place - i) * (saturated[i + 1]! - saturated[i]!)
}

/**
 * Density of moist air as a mixture of ideal gases; within 0.1 % of CIPM-2007 (Picard et al. 2008, Metrologia 45:149-155).
 *
 * @param pressure Pa
 * @param celsius °C
 * @param humidity relative, 0 to 1
 * @returns kg/m³
 */
export function airDensity(pressure: number, celsius: number, humidity: number): number {
  const kelvin = celsius + kelvinAtZeroCelsius
  const vapour = humidity * saturationInTable(celsius)
  return (pressure - vapour * (1 - gasConstantDryAir / gasConstantVapour)) / (gasConstantDryAir * kelvin)
}

/**
 * Wind at a rider's height over that at 10 m, by the logarithmic profile over one surface.
 *
 * @param roughness roughness length of the surroundings, m; below 0.5
 * @param height m above ground
 * @returns dimensionless, 0 to 1
 * @see WMO-No. 8; Jia, Sill and Reinhold 1998, J. Wind Eng. Ind. Aerodyn. 73:215-230, eq. 1
 */
export const windShare = (roughness: number, height = 1.5): number =>
  Math.log(height / roughness) / Math.log(10 / roughness)
