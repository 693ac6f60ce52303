import { spawn } from 'node:child_process'
import { mkdirSync, readFileSync } from 'node:fs'

/**
 * Everything: types, lint, format, unused code, unit, reference and invariant tests, wrong files, the table of reference checks, browser tests, killed
 * browsers. Goes on after a failure, so that one run tells all.
 */
interface Step {
  name: string
  words: string[]
}

/** Each takes one core: two are done side by side, begun in this order. The browsers come first, since they may have to be fetched; then the longest. */
const onOneCore: Step[] = [
  { name: 'browsers and the built site', words: ['tsx', 'test/browser/ready.ts'] },
  {
    name: 'unit, reference and invariant tests',
    words: ['vitest', 'run', '--reporter=default', '--reporter=json', '--outputFile.json=test-results/unit.json'],
  },
  { name: 'lint', words: ['eslint', '.'] },
  { name: 'types', words: ['svelte-check', '--fail-on-warnings', '--output', 'human'] },
  { name: 'wrong files', words: ['tsx', 'test/fuzz/run.ts', '--cases', '1000'] },
  { name: 'format', words: ['prettier', '--check', '--log-level', 'warn', '.'] },
  { name: 'table of reference checks', words: ['tsx', 'test/reference/report.ts'] },
  { name: 'unused code and dependencies', words: ['knip'] },
]

/** These take all cores, one after the other. */
const onAll: Step[] = [
  { name: 'browser tests', words: ['playwright', 'test', '-c', 'test/browser/playwright.config.ts'] },
  { name: 'killed browsers', words: ['tsx', 'test/kills/run.ts', '--built', '--kills', '50'] },
]

mkdirSync('test-results', { recursive: true })
const failed: string[] = []

/** @param isAlone what it says is told as it comes; else all together at its end */
async function take({ name, words }: Step, isAlone: boolean): Promise<void> {
  const began = Date.now()
  if (isAlone) console.log(`\n== ${name}`)
  const child = spawn('npx', words, { stdio: ['ignore', isAlone ? 'inherit' : 'pipe', isAlone ? 'inherit' : 'pipe'] })
  const said: Buffer[] = []
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (piece: Buffer) => said.push(piece))
  const status = await new Promise((resolve) => child.once('close', resolve))
  if (status !== 0) failed.push(name)
  const seconds = Math.round((Date.now() - began) / 1000)
  console.log(isAlone ? `${seconds} s` : `\n== ${name}, ${seconds} s\n${Buffer.concat(said).toString()}`)
}

const left = [...onOneCore]
const lane = async () => {
  for (let step = left.shift(); step !== undefined; step = left.shift()) await take(step, false)
}
await Promise.all([lane(), lane()])
for (const step of onAll) await take(step, true)

const read = (file: string): unknown => {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    return {}
  }
}
const unit = read('test-results/unit.json') as { numPassedTests?: number; numFailedTests?: number }
const browser = (
  read('test-results/browser.json') as {
    stats?: { expected: number; unexpected: number; flaky: number; skipped: number }
  }
).stats
const passed = (unit.numPassedTests ?? 0) + (browser?.expected ?? 0)
const broken = (unit.numFailedTests ?? 0) + (browser?.unexpected ?? 0) + (browser?.flaky ?? 0)
if (!(unit.numPassedTests! > 0)) failed.push('no unit test ran')
if (!(browser !== undefined && browser.expected > 0)) failed.push('no browser test ran')
if ((browser?.skipped ?? 0) > 0) failed.push('a browser test was skipped')
if (failed.length > 0) console.log(`\nFailed: ${failed.join('; ')}`)
console.log(`\n${passed} passed, ${broken + (failed.length > 0 && broken === 0 ? failed.length : 0)} failed`)
process.exit(failed.length > 0 ? 1 : 0)
