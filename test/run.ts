import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync } from 'node:fs'

/** Everything: types, lint, format, unused code, unit, reference and invariant tests, wrong files, the table of reference checks, browser tests, killed browsers. Goes on after a failure, so that one run tells all. */
interface Step {
  name: string
  words: string[]
}

const steps: Step[] = [
  { name: 'types in views', words: ['svelte-check', '--fail-on-warnings', '--output', 'human'] },
  { name: 'types', words: ['tsc', '--noEmit'] },
  { name: 'lint', words: ['eslint', '.'] },
  { name: 'format', words: ['prettier', '--check', '--log-level', 'warn', '.'] },
  { name: 'unused code and dependencies', words: ['knip'] },
  {
    name: 'unit, reference and invariant tests',
    words: ['vitest', 'run', '--reporter=default', '--reporter=json', '--outputFile.json=test-results/unit.json'],
  },
  { name: 'wrong files', words: ['tsx', 'test/fuzz/run.ts', '--cases', '1000'] },
  { name: 'table of reference checks', words: ['tsx', 'test/reference/report.ts'] },
  { name: 'browser tests', words: ['tsx', 'test/browser/run.ts'] },
  { name: 'killed browsers', words: ['tsx', 'test/kills/run.ts', '--built', '--kills', '50'] },
]

mkdirSync('test-results', { recursive: true })
const failed: string[] = []
for (const { name, words } of steps) {
  console.log(`\n== ${name}`)
  const { status } = spawnSync('npx', words, { stdio: 'inherit' })
  if (status !== 0) failed.push(name)
}

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
