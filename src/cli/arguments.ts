import { parseArgs } from 'node:util'

/** What stops the run: one line for whoever asked. */
export class Fault extends Error {}

/** A value for a path of the plan, as written. */
export interface Setting {
  path: string
  value: string
}

export interface Request {
  /** Route file. */
  file: string
  /** Plan file; the default plan where absent. */
  plan: string | undefined
  /** In the order given. */
  settings: Setting[]
  /** Distance between the stations that are told of, m; none where absent. */
  every: number | undefined
  form: 'text' | 'json' | 'csv'
}

export const usage =
  'Usage: npm run -s forecast -- FILE [--plan PLAN.json] [--set path=value]... [--every METRES] [--json | --csv]'

export const help = `${usage}

  --plan PLAN.json   a plan as the page saves it; else the default one
  --set path=value   a value of the plan in SI units, such as rider.power=108 or stops.0.duration=1800;
                     weather.table=@hours.csv reads a table as the page takes it when pasted
  --json             everything, with the unit in each number's name
  --csv              the table of legs
  --every METRES     also the ride at each multiple of so many metres
`

const options = {
  plan: { type: 'string' },
  set: { type: 'string' },
  every: { type: 'string' },
  json: { type: 'boolean' },
  csv: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
} as const

/**
 * What is asked for on the command line.
 *
 * @param words without those that started the program
 * @returns the request, or that help is asked for
 * @throws Fault where the words make no request
 */
export function readArguments(words: readonly string[]): Request | 'help' {
  // The parser's own complaints are of several lines: it is only asked what it sees.
  const { tokens } = parseArgs({ args: [...words], options, strict: false, tokens: true })
  const files: string[] = []
  const settings: Setting[] = []
  const given = new Map<string, string>()
  for (const token of tokens) {
    if (token.kind === 'positional') files.push(token.value)
    if (token.kind !== 'option') continue
    const { name, rawName, value } = token
    const option = Object.hasOwn(options, name) ? options[name as keyof typeof options] : undefined
    if (option === undefined) throw new Fault(`There is no option ${rawName}. ${usage}`)
    if (option.type === 'boolean') {
      if (value !== undefined) throw new Fault(`${rawName} takes no value.`)
      given.set(name, '')
      continue
    }
    if (value === undefined || value === '') throw new Fault(`${rawName} needs a value. ${usage}`)
    if (name === 'set') settings.push(settingOf(value))
    else if (given.has(name)) throw new Fault(`${rawName} is given twice.`)
    else given.set(name, value)
  }
  if (given.has('help')) return 'help'
  if (given.has('json') && given.has('csv')) throw new Fault('Only one of --json and --csv can be written.')
  if (files.length === 0) throw new Fault(`No route file is named. ${usage}`)
  if (files.length > 1) throw new Fault(`One route file at a time: ${files.map((file) => `“${file}”`).join(', ')}.`)
  const every = given.get('every')
  if (every !== undefined && given.has('csv'))
    throw new Fault('--csv is the table of legs; the stations of --every come with --json.')
  return {
    file: files[0]!,
    plan: given.get('plan'),
    settings,
    every: every === undefined ? undefined : metresOf(every),
    form: given.has('json') ? 'json' : given.has('csv') ? 'csv' : 'text',
  }
}

function settingOf(text: string): Setting {
  const at = text.indexOf('=')
  if (at < 1) throw new Fault(`“--set ${text}” is not of the form path=value, such as --set rider.power=108.`)
  return { path: text.slice(0, at), value: text.slice(at + 1) }
}

function metresOf(text: string): number {
  const metres = text.trim() === '' ? NaN : Number(text)
  if (!(metres > 0 && metres < Infinity)) throw new Fault(`--every needs a number of metres above 0, not “${text}”.`)
  return metres
}
