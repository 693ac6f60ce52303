import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { chromium, type Browser, type Page } from 'playwright-core'
import { createServer } from 'vite'
import { chromiumFlags, chromiumPath } from '../browser/chromium'
import { putTable } from '../page-table'
import { fullestDay } from '../fullest'
import { bigGpx } from './big-gpx'
import type * as InPage from './in-page'
import { worstDay } from './plans'

/** Prints the speed table, as markdown with --markdown: real Chromium, warm-up, medians with their spread, the floor in the same run. */
const root = fileURLToPath(new URL('../..', import.meta.url))
const rows: string[][] = []
const ms = (value: number) => (value < 10 ? value.toFixed(2) : value.toFixed(0))
const add = (what: string, value: string, spread = '', must = '') => {
  rows.push([what, value, spread, must])
  console.log(`${what}: ${value}${spread && ` (${spread})`}${must && `, ${must}`}`)
}
const addRow = ({ what, median, least, most }: InPage.Row, must = '') =>
  add(what, `${ms(median)} ms`, `${ms(least)} to ${ms(most)}`, must)

/** Time of one step of the floor, ns, by the machine's C compiler; undefined where there is none. */
function floorOfStep(): number | undefined {
  const program = join(mkdtempSync(join(tmpdir(), 'wattfare-')), 'floor')
  const made = spawnSync('cc', ['-O3', '-o', program, join(root, 'test/bench/floor.c'), '-lm'])
  if (made.status !== 0) return undefined
  const said = spawnSync(program, { encoding: 'utf8' }).stdout
  return Number(/best repetition ([\d.]+) ns/.exec(said)![1])
}

async function inPage(browser: Browser): Promise<void> {
  const server = await createServer({
    root: join(root, 'src'),
    configFile: join(root, 'vite.config.ts'),
    server: { port: 5197 },
    logLevel: 'error',
  })
  await server.listen()
  const page = await browser.newPage()
  await page.goto('http://localhost:5197/plan.schema.json')
  const call = <K extends keyof typeof InPage>(name: K, ...values: Parameters<(typeof InPage)[K]>) =>
    page.evaluate(
      async ([path, name, values]) => {
        const module = (await import(path as string)) as Record<string, (...v: unknown[]) => Promise<unknown>>
        return module[name as string]!(...(values as unknown[]))
      },
      [`/@fs${join(root, 'test/bench/in-page.ts')}`, name, values] as const,
    ) as Promise<InPage.Row[]>
  await call('reading', 2000, 10_000, 1)
  for (const [points, runs] of [
    [100_000, 5],
    [1_000_000, 3],
  ] as const) {
    const [floor, ours] = await call('reading', points, 200_000, runs)
    addRow(floor!)
    addRow(ours!, `ratio ${(ours!.median / floor!.median).toFixed(2)}, must be 0.3 or less`)
  }
  const [some, many] = await call('waypoints', 30_000, 4_000_000)
  addRow(some!)
  addRow(many!, `ratio ${(many!.median / some!.median).toFixed(1)} for 10 times as many, must be within 5 s`)
  const stations = 20_000
  const floor = floorOfStep()
  if (floor === undefined) add('A step in plain C', 'not measured: no C compiler', '', '')
  else add('A step in plain C, the floor', `${floor.toFixed(1)} ns`)
  const [standard, worst, legs] = await call('outcome')
  await page.reload()
  const [tally, tallyOfWorst] = await call('tally')
  const againstFloor = (row: InPage.Row, must: number | undefined) => {
    const each = (row.least / stations) * 1e6
    const ratio = floor === undefined ? '' : `, ${(each / floor).toFixed(1)} times the floor`
    addRow(
      row,
      `${each.toFixed(0)} ns a station at best${ratio}${must === undefined ? '' : `, must be ${must} or less`}`,
    )
  }
  againstFloor(standard!, 2.5)
  againstFloor(worst!, 3.5)
  againstFloor(tally!, 2)
  againstFloor(tallyOfWorst!, undefined)
  addRow(legs!)
  const [million] = await call('outcomeOfMillion')
  againstFloor(million!, undefined)
  addRow((await call('charging'))[0]!, 'must be under 5 ms')
  const [assist, stop] = await call('deciding')
  addRow(assist!, 'must be 300 ms or less')
  addRow(stop!, 'must be under 2 s')
  const [usual, worstDays] = await call('days', 200_000)
  addRow(usual!, 'must be under 1 s')
  addRow(worstDays!)
  const [ride, rides] = await call('learning', 130_000)
  addRow(ride!, 'must be under 3 s')
  addRow(rides!, 'must be under 10 s')
  await server.close()
  await page.close()
}

const betweenSteps = 40 // ms: longer than a frame, timed outside of the page so that only the drag itself is counted

/** Processor time of the main thread for each step of a drag of a stop's pin on the profile, all views following, painting included: of 21 runs of ten steps. */
async function dragFrame(page: Page, what: string, must: string): Promise<void> {
  const pin = page
    .getByRole('region', { name: 'Profile' })
    .getByRole('slider', { name: /Stop|Inn|Mill/ })
    .first()
  await pin.scrollIntoViewIfNeeded()
  const box = (await pin.boundingBox())!
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable', { timeDomain: 'threadTicks' })
  const busy = async () =>
    (await session.send('Performance.getMetrics')).metrics.find(({ name }) => name === 'TaskDuration')!.value
  const y = box.y + box.height / 2
  const x = box.x + box.width / 2
  await page.mouse.move(x, y)
  await page.mouse.down()
  let step = 0
  const drag = async (steps: number) => {
    for (let i = 0; i < steps; i++) {
      // Not by the test driver's mouse, which runs two scripts of its own in the page for each step of a drag.
      const to = x + 150 * Math.sin(++step / 12)
      await session.send('Input.dispatchMouseEvent', { type: 'mouseMoved', x: to, y, button: 'left', buttons: 1 })
      await setTimeout(betweenSteps)
    }
  }
  await drag(40)
  const each: number[] = []
  for (let block = 0; block < 21; block++) {
    const before = await busy()
    await drag(10)
    each.push(100 * (await busy()) - 100 * before)
  }
  await page.mouse.up()
  each.sort((one, other) => one - other)
  addRow({ what, median: each[10]!, least: each[0]!, most: each.at(-1)!, result: 0 }, must)
}

async function chargeFromCarriedPack(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Charging' }).click()
  const bench = page.getByRole('region', { name: 'Bench', exact: true })
  await bench.getByRole('button', { name: 'Add a carried pack' }).click()
  const lookedAt = bench.getByLabel('At which halt', { exact: true })
  await lookedAt.selectOption((await lookedAt.locator('option', { hasText: 'Inn' }).first().textContent())!)
  await bench.getByRole('button', { name: /^Charge from/ }).click()
}

/** The worst plan on the sample, all of it unfolded. */
async function openWorstPlan(page: Page): Promise<void> {
  const path = join(mkdtempSync(join(tmpdir(), 'wattfare-')), 'worst.json')
  writeFileSync(path, JSON.stringify(worstDay(165_000)))
  await page.getByLabel('Plan file').setInputFiles(path)
  await page.getByRole('slider', { name: /Mill/ }).first().waitFor()
  await page.getByRole('link', { name: 'Charging' }).click()
  const lookedAt = page.getByRole('region', { name: 'Bench', exact: true }).getByLabel('At which halt', { exact: true })
  await lookedAt.selectOption((await lookedAt.locator('option', { hasText: 'Mill' }).first().textContent())!)
}

async function openBigFile(page: Page): Promise<void> {
  // As a path, since a large file is not handed over as bytes.
  const path = join(mkdtempSync(join(tmpdir(), 'wattfare-')), 'big.gpx')
  writeFileSync(path, bigGpx(1_000_000, 200_000))
  await page.getByLabel('Route file').setInputFiles(path)
  await page.getByText('Bench', { exact: true }).first().waitFor({ timeout: 120_000 })
  // Half-way, so that the drag meets no end of the route.
  await page.getByRole('slider', { name: 'Place on the route' }).click()
}

const openWithin = 3000 // ms
const editWithin = 100

/**
 * The fullest day: from the choice of its file until it is painted, and from a key that moves one of its stops until that is; what is reckoned
 * afterwards, when the plan stands still, is not waited for.
 */
async function openFullest(browser: Browser, address: string): Promise<void> {
  const path = join(mkdtempSync(join(tmpdir(), 'wattfare-')), 'fullest.wattfare')
  writeFileSync(path, fullestDay())
  const opened: number[] = []
  const answered: number[] = []
  for (let run = 0; run < 3; run++) {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' })
    await page.goto(address)
    await page.getByRole('heading', { level: 1 }).waitFor()
    const input = page.getByLabel('Route file')
    const opening = input.evaluate(
      (input) =>
        new Promise<number>((resolve) => {
          let chosen = 0
          input.addEventListener('change', () => (chosen = performance.now()), { capture: true, once: true })
          new MutationObserver((_, observer) => {
            if (document.querySelector('header .route')?.textContent !== 'Fullest day') return
            observer.disconnect()
            requestAnimationFrame(() => globalThis.setTimeout(() => resolve(performance.now() - chosen)))
          }).observe(document, { subtree: true, childList: true, characterData: true })
        }),
    )
    await input.setInputFiles(path)
    opened.push(await opening)
    await page
      .getByRole('region', { name: 'Profile' })
      .getByRole('slider', { name: /^Stop 40 / })
      .focus()
    for (let i = 0; i < 8; i++) {
      await setTimeout(1500)
      const answer = await page.evaluate(
        () =>
          new Promise<number>((resolve) => {
            const pressed = performance.now()
            const key = new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true, cancelable: true })
            document.activeElement?.dispatchEvent(key)
            requestAnimationFrame(() => globalThis.setTimeout(() => resolve(performance.now() - pressed)))
          }),
      )
      if (i >= 3) answered.push(answer)
    }
    await page.close()
  }
  const row = (what: string, times: number[], must: number) => {
    times.sort((one, other) => one - other)
    const [least, median, most] = [times[0]!, times[times.length >> 1]!, times.at(-1)!]
    addRow({ what, median, least, most, result: 0 }, `must be within ${must} ms`)
  }
  row('Opening 20,000 waypoints, 500 crossings and the fullest plan', opened, openWithin)
  row('An edit of it, until it is painted', answered, editWithin)
}

async function inApp(browser: Browser): Promise<void> {
  const port = 5198
  const server = spawn('node', ['node_modules/vite/bin/vite.js', 'preview', '--port', String(port), '--strictPort'], {
    cwd: root,
  })
  await new Promise((resolve) => server.stdout.once('data', resolve))
  try {
    const drags = [
      ['Drag frame, whole page, 165 km sample', async () => {}],
      ['The same, charging from a carried pack, its bench unfolded', chargeFromCarriedPack],
      ['The same, the worst plan, its bench unfolded', openWorstPlan],
      ['Drag frame, whole page, 200 km from 1,000,000 points', openBigFile],
    ] as const
    for (const [what, prepare] of fullest ? [] : drags) {
      const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' })
      await page.goto(`http://localhost:${port}/`)
      await page.getByRole('heading', { level: 1 }).waitFor()
      await prepare(page)
      await dragFrame(page, what, 'a frame is 16.7 ms')
      await page.close()
    }
    if (!fullest) await firstAnswer(browser, `http://localhost:${port}/`)
    await openFullest(browser, `http://localhost:${port}/`)
  } finally {
    server.kill()
  }
}

/** All that the page begins to fetch until its first answer stands, workers counted, by kind. */
async function firstAnswer(browser: Browser, address: string): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' })
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      if (document.querySelector('h1') === null) return
      observer.disconnect()
      performance.mark('answer')
    }).observe(document, { childList: true, subtree: true })
  })
  await page.goto(address)
  await page.getByRole('heading', { level: 1 }).waitFor()
  const names = await page.evaluate(() => {
    const answered = performance.getEntriesByName('answer')[0]!.startTime
    const fetched = performance.getEntriesByType('resource').filter(({ startTime }) => startTime <= answered)
    return fetched.map(({ name }) => name)
  })
  await page.close()
  const paths = names.filter((name) => name.startsWith(address)).map((name) => new URL(name).pathname.slice(1))
  const fetched = new Set(['index.html', ...paths])
  const zipped = (kind: RegExp) => {
    const files = [...fetched].filter((file) => kind.test(file))
    const bytes = files.reduce((sum, file) => sum + gzipSync(readFileSync(join(root, 'dist', file))).length, 0)
    return [`${(bytes / 1000).toFixed(0)} kB`, `${files.length} ${files.length === 1 ? 'file' : 'files'}`] as const
  }
  add(
    'HTML, JavaScript and CSS until the first answer, gzipped',
    ...zipped(/\.(html|js|css)$/),
    'must be within 250 kB',
  )
  add('Land, font and sample', ...zipped(/\.(\w*json|woff2|gpx)$/))
}

const built = spawnSync('npx', ['vite', 'build', '--logLevel', 'warn'], { cwd: root, stdio: 'inherit' })
if (built.status !== 0) process.exit(1)
const quick = process.argv.includes('--model')
const fullest = process.argv.includes('--fullest')
const only = fullest || process.argv.includes('--frames')
const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags })
const machine = `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, ${cpus().length} cores, Node ${process.versions.node}, Chromium ${browser.version()}`
if (!only) await inPage(browser)
if (!quick) await inApp(browser)
await browser.close()
console.log(`\n${machine}\n\n${text()}`)
if (process.argv.includes('--page')) await putTable('speed-table', machine, rows)

function text(): string {
  const widths = [0, 1, 2, 3].map((i) => Math.max(...rows.map((row) => row[i]!.length)))
  const padded = (cell: string, i: number) => cell.padEnd(widths[i]!)
  return rows.map((row) => row.map(padded).join('  ').trimEnd()).join('\n')
}
