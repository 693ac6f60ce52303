import { readPlan } from '../model/plan/check'
import { defaultPlan } from '../model/plan/defaults'
import type { Plan } from '../model/plan/schema'
import { readWeather } from '../model/text/weather-table'
import { typedWordsIn } from '../view/words/typed'
import { wordsIn } from '../view/words/words'
import { Fault, type Setting } from './arguments'

const words = wordsIn('metric')

/** The one path whose value may be a file, as `@hours.csv`. */
const tablePath = 'weather.table'

/**
 * The plan to ride by: the default one, or that of a file, with values set. It comes through the same door as any plan.
 *
 * @param text of a plan file; the default plan where absent
 * @param settings in order, but the start before all others, for the clock times of a weather table count from its date
 * @param readText text of a file named in a setting
 * @throws Fault where a path is not in the plan, a value does not fit, or the plan is refused
 */
export function planWith(
  text: string | undefined,
  settings: readonly Setting[],
  readText: (file: string) => string,
): Plan {
  const plan = text === undefined ? defaultPlan() : checked(text)
  if (settings.length === 0) return plan
  const inOrder = [
    ...settings.filter(({ path }) => path === 'start'),
    ...settings.filter(({ path }) => path !== 'start'),
  ]
  for (const { path, value } of inOrder) {
    const isTable = path === tablePath && value.startsWith('@')
    put(plan, path, isTable ? weatherOf(readText(value.slice(1)), plan.start) : valueOf(path, value))
  }
  return checked(JSON.stringify(plan))
}

function checked(text: string): Plan {
  const reading = readPlan(text)
  if (!reading.ok) throw new Fault(words.plan(reading.fault))
  return reading.plan
}

function weatherOf(text: string, start: string): unknown {
  const reading = readWeather(text, start.slice(0, 10), words.names.weatherAt)
  if (!reading.ok) throw new Fault(`--set ${tablePath}: ${typedWordsIn('metric').fault(reading.fault)}`)
  return reading.value
}

/** JSON, or else the bare words. */
function valueOf(path: string, text: string): unknown {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return text
  }
  if (value === Infinity || value === -Infinity) throw new Fault(`--set ${path}: ${text} is too large a number.`)
  return value
}

/** Puts a value where something stands already, or at the end of a list. */
function put(plan: Plan, path: string, value: unknown): void {
  const keys = path.split('.')
  let here: unknown = plan
  keys.forEach((key, i) => {
    const place = i === 0 ? 'the plan' : `“${keys.slice(0, i).join('.')}”`
    if (typeof here !== 'object' || here === null) throw new Fault(`--set ${path}: nothing is inside ${place}.`)
    const isLast = i === keys.length - 1
    if (Array.isArray(here) ? !isIndex(key, here.length + (isLast ? 1 : 0)) : !Object.hasOwn(here, key))
      throw new Fault(`--set ${path}: ${place} has no “${key}”; it ${holds(here)}.`)
    const inside = here as Record<string, unknown>
    if (isLast) inside[key] = value
    else here = inside[key]
  })
}

const isIndex = (key: string, end: number): boolean => /^(0|[1-9]\d*)$/.test(key) && Number(key) < end

const holds = (here: object): string =>
  !Array.isArray(here)
    ? `has ${Object.keys(here).join(', ')}`
    : here.length === 0
      ? 'is empty'
      : `has numbers from 0 to ${here.length - 1}`
