import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { Stryker } from '@stryker-mutator/core'
import { equivalent } from './equivalent'
import { rooms, type Room } from './rooms'
import { keyOf, setTake, taken, type MutantResult } from './taken'
import { setTests } from './tests'

/**
 * `npm run mutants -- [ROOM …] [--seed N] [--take N]`: makes small wrong changes to the rooms of the model and sees whether their tests notice.
 * Prints a table with 95 % intervals, and names each change that went unnoticed.
 */
const root = fileURLToPath(new URL('../..', import.meta.url))
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { seed: { type: 'string', default: '1' }, take: { type: 'string' }, file: { type: 'string' } },
})
const unknown = positionals.filter((name) => rooms[name] === undefined)
if (unknown.length > 0) throw new Error(`No room ${unknown.join(', ')}; rooms are ${Object.keys(rooms).join(', ')}.`)

/** What became of a room's mutants. */
interface Row {
  room: string
  all: number
  tried: MutantResult[]
}

const noticed = ({ status }: MutantResult) => status === 'Killed' || status === 'Timeout' || status === 'RuntimeError'

/** Tries a room's mutants on its first list of tests, and those that went unnoticed on the next. */
async function tryRoom(name: string, room: Room): Promise<Row> {
  const count = values.take === undefined ? (room.take ?? null) : Number(values.take)
  const seed = Number(values.seed)
  let row: Row = { room: name, all: 0, tried: [] }
  for (const [k, tests] of room.tests.entries()) {
    const left = row.tried.filter((mutant) => !noticed(mutant)).map((mutant) => keyOf(mutant, seed))
    if (k > 0 && left.length === 0) break
    const take = { count, seed, only: k === 0 ? null : left }
    setTake(take)
    const results = await stryker(name, tests)
    const tried = new Map(taken(results, take).map((mutant) => [keyOf(mutant, seed), mutant]))
    if ([...tried.values()].some(({ status }) => status === 'CompileError'))
      throw new Error('Stryker tried others than were taken.')
    row =
      k === 0
        ? { room: name, all: results.length, tried: [...tried.values()] }
        : { ...row, tried: row.tried.map((mutant) => tried.get(keyOf(mutant, seed)) ?? mutant) }
  }
  return row
}

function stryker(name: string, tests: readonly string[]): Promise<MutantResult[]> {
  // Not by Stryker's own `testFiles`: with it a mutant of what is worked out on loading is switched on only after the loading.
  setTests(tests)
  return new Stryker({
    mutate: [`src/model/${name}/${values.file ?? '**/*'}.ts`],
    buildCommand: 'vite build --logLevel warn --config test/mutants/build.config.ts',
    testRunner: 'vitest',
    vitest: { related: false, configFile: 'test/mutants/vitest.config.ts' },
    plugins: ['@stryker-mutator/vitest-runner', fileURLToPath(new URL('taken.ts', import.meta.url))],
    checkers: ['taken'],
    checkerNodeArgs: ['--import', 'tsx'],
    testRunnerNodeArgs: ['--import', 'tsx'],
    coverageAnalysis: 'perTest',
    concurrency: 1,
    timeoutFactor: 4,
    timeoutMS: 10_000,
    dryRunTimeoutMinutes: 30,
    tempDirName: 'test-results/mutants',
    reporters: ['progress-append-only'],
    warnings: false,
  }).runMutationTest()
}

/** Wilson's interval at 95 %, in percent: E. B. Wilson, Journal of the American Statistical Association 22 (1927), 209–212. */
function wilson(hits: number, tries: number): [number, number] {
  const z = 1.959964
  const share = hits / tries
  const middle = share + (z * z) / (2 * tries)
  const half = z * Math.sqrt((share * (1 - share)) / tries + (z * z) / (4 * tries * tries))
  return [middle - half, middle + half].map((edge) => (100 * edge) / (1 + (z * z) / tries)) as [number, number]
}

function tableRow(room: string, all: number, tried: readonly MutantResult[]): string {
  const hits = tried.filter(noticed).length
  const byTime = tried.filter(({ status }) => status === 'Timeout').length
  const alike = tried.filter((mutant) => !noticed(mutant) && sameAnyway(mutant) !== undefined).length
  const [low, high] = wilson(hits, tried.length)
  const share = (n: number) => `${((100 * hits) / n).toFixed(1)} %`
  const cells = [
    room,
    all,
    tried.length,
    hits,
    byTime,
    share(tried.length),
    `${low.toFixed(1)} to ${high.toFixed(1)} %`,
  ]
  return `| ${[...cells, alike, share(tried.length - alike)].join(' | ')} |`
}

const flat = (text: string) => text.replace(/\s+/g, ' ').trim()
const fileOf = ({ fileName }: MutantResult) => fileName.slice(fileName.indexOf('src/model/'))

/** The text that a mutant replaces. */
function original(mutant: MutantResult): string {
  const { start, end } = mutant.location
  const lines = readFileSync(`${root}/${fileOf(mutant)}`, 'utf8')
    .split('\n')
    .slice(start.line - 1, end.line)
  lines[lines.length - 1] = lines.at(-1)!.slice(0, end.column - 1)
  lines[0] = lines[0]!.slice(start.column - 1)
  return flat(lines.join('\n'))
}

function sameAnyway(mutant: MutantResult): string | undefined {
  const file = fileOf(mutant).replace('src/model/', '')
  return equivalent.find(
    ({ file: where, from, to }) =>
      where === file && flat(from) === original(mutant) && flat(to) === flat(mutant.replacement),
  )?.why
}

const rows: Row[] = []
for (const [name, room] of Object.entries(rooms))
  if (positionals.length === 0 || positionals.includes(name)) rows.push(await tryRoom(name, room))

const left = rows.flatMap(({ tried }) => tried.filter((mutant) => !noticed(mutant)))
const lines = [
  `Seed ${values.seed}.`,
  '',
  '| room | mutants | tried | noticed | of these, by time | share | 95 % interval | of the unnoticed, alike | share without those |',
  '| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |',
  ...rows.map(({ room, all, tried }) => tableRow(room, all, tried)),
  tableRow(
    'whole',
    rows.reduce((sum, { all }) => sum + all, 0),
    rows.flatMap(({ tried }) => tried),
  ),
  '',
  ...left.map((mutant) => {
    const { line, column } = mutant.location.start
    const why = sameAnyway(mutant)
    const never = mutant.status === 'NoCoverage' ? ' (no test passes here)' : ''
    const alike = why === undefined ? '' : ` (alike: ${why})`
    return `${fileOf(mutant)}:${line}:${column} ${original(mutant).slice(0, 160)} -> ${flat(mutant.replacement).slice(0, 160)}${never}${alike}`
  }),
]
console.log(lines.join('\n'))
mkdirSync(`${root}/test-results`, { recursive: true })
writeFileSync(`${root}/test-results/mutants.txt`, lines.join('\n') + '\n')
