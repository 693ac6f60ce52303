import type { Quantity } from '../model/plan/parameters'
import {
  joulesPerWattHour,
  kilogramsPerPound,
  kilometresPerHour,
  litresPerFluidOunce,
  metresPerFoot,
  metresPerInch,
  metresPerKilometre,
  metresPerMile,
  milesPerHour,
  pascalsPerInchOfMercury,
  secondsPerMinute,
} from '../model/units'
import type { ViewState } from '../state/survives'
import { measures } from './words/measures'

export type Units = ViewState['units']

/** How a quantity is read and typed: shown = (SI − offset) / factor. */
export interface DisplayUnit {
  symbol: string
  factor: number
  offset: number
  digits: number
  step: number
}

const unit = (symbol: string, factor = 1, digits = 0, step = 10 ** -digits, offset = 0): DisplayUnit => ({
  symbol,
  factor,
  offset,
  digits,
  step,
})

const metric: Record<Quantity, DisplayUnit> = {
  mass: unit('kg', 1, 1, 0.5),
  smallMass: unit('g', 0.001, 0, 5),
  carbohydrate: unit('g', 0.001, 0, 5),
  water: unit('kg', 1, 1, 0.5),
  power: unit('W', 1, 0, 5),
  speed: unit('km/h', kilometresPerHour, 1, 0.5),
  windSpeed: unit('m/s', 1, 1, 0.5),
  share: unit('%', 0.01, 0, 5),
  area: unit('m²', 1, 2, 0.01),
  coefficient: unit('', 1, 4, 0.0005),
  temperature: unit('°C', 1, 0, 1),
  pressure: unit('hPa', 100, 0, 1),
  direction: unit('°', 1, 0, 5),
  acceleration: unit('m/s²', 1, 1, 0.1),
  torque: unit('N·m', 1, 0, 5),
  length: unit('m', 1, 3, 0.005),
  distance: unit('km', metresPerKilometre, 1),
  duration: unit('min', secondsPerMinute, 0, 1),
  haltTime: unit('min', secondsPerMinute, 0, 1),
  voltage: unit('V', 1, 1, 0.1),
  current: unit('A', 1, 1, 0.5),
  capacity: unit('Ah', 1, 1, 0.1),
  resistance: unit('mΩ', 0.001, 0, 5),
  cellResistance: unit('Ω·Ah', 1, 3, 0.01),
  lapse: unit('K/km', 0.001, 1, 0.5),
  count: unit('', 1, 0, 1),
  crossSection: unit('mm²', 1, 2, 0.5),
  smallCurrent: unit('mA', 0.001, 2, 0.1),
  storage: unit(measures.weeks, 7 * 86_400, 0, 1),
  age: unit(measures.months, 730.5 * 3600, 0, 1),
  cadence: unit(measures.turnsPerMinute, 1 / 60, 0, 1),
  crank: unit('mm', 0.001, 0, 2.5),
  gear: unit('', 1, 2, 0.05),
  energy: unit('kJ', 1000, 1, 0.5),
  packEnergy: unit('Wh', joulesPerWattHour, 0, 5),
  massPerHour: unit('g/h', 0.001, 0, 5),
  waterPerHour: unit('g/h', 0.001, 0, 5),
  rain: unit('mm/h', 1, 1, 0.5),
}

/** A litre of water counts as a kilogram. */
const kilogramsPerFluidOunce = litresPerFluidOunce

/**
 * US customary units. Electric units, newton metres, square metres of drag area and square millimetres of wire are what data sheets and tables
 * give there too, and grams of carbohydrate what food labels state by law (21 CFR 101.9).
 */
const imperial: Record<Quantity, DisplayUnit> = {
  ...metric,
  smallMass: unit('oz', kilogramsPerPound / 16, 1, 0.5),
  water: unit('fl oz', kilogramsPerFluidOunce, 0, 1),
  waterPerHour: unit('fl oz/h', kilogramsPerFluidOunce, 0, 1),
  acceleration: unit('ft/s²', metresPerFoot, 1, 0.5),
  length: unit('in', metresPerInch, 1, 0.5),
  pressure: unit('inHg', pascalsPerInchOfMercury, 2, 0.05),
  haltTime: unit('min', (secondsPerMinute * metresPerKilometre) / metresPerMile, 0, 1),
  lapse: unit('°F/1,000 ft', 5 / 9 / (1000 * metresPerFoot), 1, 0.5),
  rain: unit('in/h', 1000 * metresPerInch, 2, 0.05),
  mass: unit('lb', kilogramsPerPound, 0, 1),
  speed: unit('mph', milesPerHour, 1, 0.5),
  distance: unit('mi', metresPerMile, 1),
  windSpeed: unit('mph', milesPerHour, 0, 1),
  temperature: unit('°F', 5 / 9, 0, 1, -160 / 9),
}

export const unitOf = (quantity: Quantity, units: Units): DisplayUnit =>
  units === 'metric' ? metric[quantity] : imperial[quantity]

export const toShown = (si: number, { factor, offset }: DisplayUnit): number => (si - offset) / factor
export const fromShown = (shown: number, { factor, offset }: DisplayUnit): number => shown * factor + offset

/** Made once for each number of digits: a new one for each number takes 40 times as long. */
const formats = Array.from(
  { length: 6 },
  (_, digits) =>
    new Intl.NumberFormat(measures.locale, { minimumFractionDigits: digits, maximumFractionDigits: digits }),
)

/** A number with its thousands parted, as the rest of the page writes it; up to 5 digits. */
export const number = (value: number, digits = 0): string => {
  const text = formats[digits]!.format(value)
  return /^-[0.,]*$/.test(text) ? text.slice(1) : text.replace('-', '−')
}

export const distanceUnit = (units: Units): string => (units === 'metric' ? 'km' : 'mi')
export const heightUnit = (units: Units): string => (units === 'metric' ? 'm' : 'ft')
export const speedUnit = (units: Units): string => (units === 'metric' ? 'km/h' : 'mph')

/** Metres as kilometres or miles, without the unit. */
export const inDistance = (metres: number, units: Units): number =>
  metres / (units === 'metric' ? metresPerKilometre : metresPerMile)
export const inHeight = (metres: number, units: Units): number => (units === 'metric' ? metres : metres / metresPerFoot)
export const inSpeed = (speed: number, units: Units): number =>
  speed / (units === 'metric' ? kilometresPerHour : milesPerHour)

/** `12.3 km` or `7.6 mi`. */
export const distance = (metres: number, units: Units, digits = 1): string =>
  `${number(inDistance(metres, units), digits)} ${distanceUnit(units)}`

/** `410 m` or `1,345 ft`, from a kilometre on as `distance`. */
export const shortDistance = (metres: number, units: Units): string =>
  metres < 1000 ? height(metres, units) : distance(metres, units)

/** `km 12.3` or `mile 7.6`: a place on the route. */
export const place = (metres: number, units: Units, digits = 1): string =>
  `${measures.placeAt[units]} ${number(inDistance(metres, units), digits)}`

export const height = (metres: number, units: Units): string =>
  `${number(inHeight(metres, units))} ${heightUnit(units)}`
export const speed = (metresPerSecond: number, units: Units): string =>
  `${number(inSpeed(metresPerSecond, units), 1)} ${speedUnit(units)}`
export const wattHours = (joules: number): string => `${number(joules / joulesPerWattHour)} Wh`
export const drainUnit = (units: Units): 'Wh/km' | 'Wh/mi' => (units === 'metric' ? 'Wh/km' : 'Wh/mi')
/** J/m as Wh/km or Wh/mi, without the unit. */
export const inDrain = (joulesPerMetre: number, units: Units): number =>
  joulesPerMetre / (inDistance(1, units) * joulesPerWattHour)
export const drain = (joulesPerMetre: number, units: Units): string =>
  `${number(inDrain(joulesPerMetre, units), 1)} ${drainUnit(units)}`
export const percent = (share: number, digits = 0): string => `${number(100 * share, digits)} %`

/** `10:45` hours and minutes, for columns. */
export function hoursAndMinutes(seconds: number): string {
  const minutes = Math.round(seconds / secondsPerMinute)
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`
}

/** `10 h 45 min`, `45 min`. */
export function duration(seconds: number): string {
  const minutes = Math.round(seconds / secondsPerMinute)
  const hours = Math.floor(minutes / 60)
  return hours === 0 ? `${minutes} min` : `${hours} h ${String(minutes % 60).padStart(2, '0')} min`
}

/** `0.75 l` or `25 fl oz`, from litres. */
export const volume = (litres: number, units: Units): string =>
  units === 'metric'
    ? `${number(litres, Number.isInteger(litres * 10) ? 1 : 2)} l`
    : `${number(litres / litresPerFluidOunce)} fl oz`

/** A value with its unit, in the digits that its unit is written with, or in others. */
export function measure(value: number, quantity: Quantity, units: Units, digits?: number): string {
  const unit = unitOf(quantity, units)
  return `${number(toShown(value, unit), digits ?? unit.digits)} ${unit.symbol}`
}

/** The same text, with its numbers tied to their units, and minutes to their hours, so that no line breaks between them. */
export const unbroken = (text: string): string =>
  text
    .replace(/(\d h) (?=\d)/g, '$1\u00a0')
    .replace(/(\d) (?=(?:%|Wh|km|oz|fl|mi|mph|m|ft|min|h|W|kg|lb)(?![\p{L}\p{N}]))/gu, '$1\u00a0')

/** Numbers as a rider reads them, in the rider's units: what words are made with. All take SI. */
const boundTo = (units: Units) => ({
  units,
  number,
  percent,
  duration,
  /** `412 Wh`, from J. */
  energy: wattHours,
  /** `12.3 km`. */
  distance: (metres: number, digits?: number) => distance(metres, units, digits),
  /** `410 m`, from a kilometre on as `distance`. */
  shortDistance: (metres: number) => shortDistance(metres, units),
  /** `km 12.3`: a place on the route. */
  place: (metres: number, digits?: number) => place(metres, units, digits),
  height: (metres: number) => height(metres, units),
  volume: (litres: number) => volume(litres, units),
  speed: (metresPerSecond: number) => speed(metresPerSecond, units),
  /** Anything else that the plan's catalogue has a quantity for: `36.0 V`, `12 °C`. */
  measure: (value: number, quantity: Quantity, digits?: number) => measure(value, quantity, units, digits),
})

export type Format = ReturnType<typeof boundTo>

const made = { metric: boundTo('metric'), imperial: boundTo('imperial') }
export const formatIn = (units: Units): Format => made[units]
