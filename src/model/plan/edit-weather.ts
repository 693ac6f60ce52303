import { mostOfDay, type WeatherHour, type WeatherPlace } from './day-schema'
import { setWeatherTable } from './edit-day'
import type { Numbered } from './names'
import { merged } from './lists'
import type { Plan } from './schema'

const hourAfter = (local: string, hours: number) =>
  new Date(Date.parse(`${local}Z`) + hours * 3_600_000).toISOString().slice(0, 16)

/**
 * A table at the start that says, hour by hour, what the plan's one weather says, to be changed from there.
 *
 * @param duration of the ride, s
 * @param name of its place, the start
 */
export function beginWeatherTable(plan: Plan, duration: number, name: string): Plan {
  const first = `${plan.start.slice(0, 13)}:00`
  const count = Math.min(mostOfDay.weatherHours, 49, Math.ceil(duration / 3600) + 2)
  const { temperatureCelsius, windSpeed, windFromDegrees } = plan.weather
  const hours = Array.from({ length: count }, (_, k): WeatherHour => ({
    time: hourAfter(first, k),
    temperatureCelsius,
    windSpeed,
    windFromDegrees,
    rainPerHour: 0,
    pressure: null,
  }))
  return setWeatherTable(plan, [{ name, distance: 0, hours }])
}

/** A further place with the hours of the last one; none above the most. @param distance ridden, m */
export function addWeatherPlace(plan: Plan, distance: number, named: Numbered): Plan {
  const { table } = plan.weather
  const last = table.at(-1)
  if (last === undefined || table.length >= mostOfDay.weatherPlaces) return plan
  return setWeatherTable(plan, [...table, { name: named(table.length + 1), distance, hours: last.hours }])
}

export function changeWeatherPlace(plan: Plan, index: number, change: Partial<WeatherPlace>): Plan {
  const { table } = plan.weather
  const next = table.map((place, i) => (i === index ? merged(place, change) : place))
  return next.every((place, i) => place === table[i]) ? plan : setWeatherTable(plan, next)
}

/** Without the last place there is one weather all day. */
export const removeWeatherPlace = (plan: Plan, index: number): Plan =>
  setWeatherTable(
    plan,
    plan.weather.table.filter((_, i) => i !== index),
  )

/**
 * A row of a place's table put in the place of another, the rows in order of time; the last row stays.
 *
 * @param row index of the row, or the number of rows for a further one
 * @param hour undefined to leave the row out
 * @returns the same plan where another row has that time
 */
export function setWeatherHour(plan: Plan, index: number, row: number, hour: WeatherHour | undefined): Plan {
  const hours = plan.weather.table[index]?.hours
  if (hours === undefined) return plan
  const others = hours.filter((_, i) => i !== row)
  if (hour === undefined) return others.length === 0 ? plan : changeWeatherPlace(plan, index, { hours: others })
  if (others.some(({ time }) => time === hour.time) || others.length >= mostOfDay.weatherHours) return plan
  return changeWeatherPlace(plan, index, { hours: [...others, hour].sort((a, b) => (a.time < b.time ? -1 : 1)) })
}

/** A further row an hour after the last, like it. */
export function addWeatherHour(plan: Plan, index: number): Plan {
  const hours = plan.weather.table[index]?.hours ?? []
  const last = hours.at(-1)
  return last === undefined
    ? plan
    : setWeatherHour(plan, index, hours.length, { ...last, time: hourAfter(last.time, 1) })
}
