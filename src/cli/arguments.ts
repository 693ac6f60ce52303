import { parseArgs } from 'node:util'

/** What stops the run: one line for whoever asked. */
export class Fault extends Error {}

/** A value for a path of the plan, as written. */
export interface Setting {
  path: string
  value: string
}

/** A door: how it is called, and its options beside those of every door. */
export interface Door {
  usage: string
  help: string
  options: Readonly<Record<string, { type: 'string' | 'boolean'; /** May be given several times. */ multiple?: true }>>
  /** Whether it takes several files. */
  many?: true
}

export interface Request {
  /** Route files: one, but for a door that takes many. */
  files: readonly [string, ...string[]]
  /** Plan file; the default plan where absent. */
  plan: string | undefined
  /** In the order given. */
  settings: Setting[]
  /** Values of the options that are given, '' for one that takes none. */
  given: ReadonlyMap<string, string>
  /** Values of the options that may be given several times, in the order given. */
  several: ReadonlyMap<string, readonly string[]>
}

const everyDoor = {
  plan: { type: 'string' },
  set: { type: 'string' },
  json: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
} as const

/** Of the help of every door. */
export const planHelp = `  --plan PLAN.json   a plan as the page saves it; else the default one
  --set path=value   a value of the plan in SI units, such as rider.power=108 or stops.0.duration=1800;
                     weather.table=@hours.csv reads a table as the page takes it when pasted
`

/**
 * What is asked for on the command line.
 *
 * @param words without those that started the program
 * @param door which is asked
 * @returns the request, or that help is asked for
 * @throws Fault where the words make no request
 */
export function readArguments(words: readonly string[], { usage, options: own, many }: Door): Request | 'help' {
  const options: Door['options'] = { ...everyDoor, ...own }
  // The parser's own complaints are of several lines: it is only asked what it sees.
  const { tokens } = parseArgs({ args: [...words], options, strict: false, tokens: true })
  const files: string[] = []
  const settings: Setting[] = []
  const given = new Map<string, string>()
  const several = new Map<string, string[]>()
  for (const token of tokens) {
    if (token.kind === 'positional') files.push(token.value)
    if (token.kind !== 'option') continue
    const { name, rawName, value } = token
    const option = Object.hasOwn(options, name) ? options[name] : undefined
    if (option === undefined) throw new Fault(`There is no option ${rawName}. ${usage}`)
    if (option.type === 'boolean') {
      if (value !== undefined) throw new Fault(`${rawName} takes no value.`)
      given.set(name, '')
      continue
    }
    if (value === undefined || value === '') throw new Fault(`${rawName} needs a value. ${usage}`)
    if (name === 'set') settings.push(settingOf(value))
    else if (option.multiple) several.set(name, [...(several.get(name) ?? []), value])
    else if (given.has(name)) throw new Fault(`${rawName} is given twice.`)
    else given.set(name, value)
  }
  if (given.has('help')) return 'help'
  const [first, ...more] = files
  if (first === undefined) throw new Fault(`No route file is named. ${usage}`)
  if (more.length > 0 && !many)
    throw new Fault(`One route file at a time: ${files.map((file) => `“${file}”`).join(', ')}.`)
  return { files: [first, ...more], plan: given.get('plan'), settings, given, several }
}

function settingOf(text: string): Setting {
  const at = text.indexOf('=')
  if (at < 1) throw new Fault(`“--set ${text}” is not of the form path=value, such as --set rider.power=108.`)
  return { path: text.slice(0, at), value: text.slice(at + 1) }
}

/**
 * The number of an option.
 *
 * @param what is wanted, said where it is none
 */
export function numberOf(option: string, text: string, what: string, fits: (value: number) => boolean): number {
  const value = text.trim() === '' ? NaN : Number(text)
  if (!fits(value)) throw new Fault(`--${option} needs ${what}, not “${text}”.`)
  return value
}

/** How many days are ridden. @param replicates sets that they are ridden in */
export const daysOf = (text: string, replicates: number): number =>
  numberOf(
    'days',
    text,
    `a multiple of ${replicates} from 64 to 65536`,
    (value) => value >= 64 && value <= 65_536 && value % replicates === 0,
  )
