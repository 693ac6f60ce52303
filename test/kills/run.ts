import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { chromium, type Page } from 'playwright-core'
import { seeded } from '../bench/big-gpx'
import { chromiumFlags, chromiumPath } from '../browser/chromium'
import { isMadeBy, nextEdits, type Edit, type Seen, type Told } from './edits'
import { make, seen } from './in-page'

/**
 * `npm run kills -- [--kills N] [--at-once N] [--seed N] [--built]`: kills browsers with SIGKILL while the built page is edited, starts them again
 * on the same profile and looks at what came back. Half of the kills come 50 to 150 ms after the end of an edit, the others at any moment; page and
 * script read the same clock. An edit that ended 50 ms before the kill must be there, and what is there must be all of one moment.
 *
 * A killed process is no power cut: what the browser has given to the system survives it.
 */
const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '500' },
    'at-once': { type: 'string', default: String(availableParallelism()) },
    seed: { type: 'string', default: '1' },
    built: { type: 'boolean', default: false },
  },
})
const kills = Number(values.kills)
const durableWithin = 50 // ms
const port = Number(process.env.BROWSER_PORT ?? 5198)
const root = fileURLToPath(new URL('../..', import.meta.url))

interface Running {
  page: Page
  kill: () => Promise<number>
}

/** Starts a browser in a process group of its own, with the page on its way. */
async function start(profile: string): Promise<Running> {
  const flags = [...chromiumFlags, '--headless', '--remote-debugging-port=0', `--user-data-dir=${profile}`]
  const child = spawn(chromiumPath(), [...flags, `http://localhost:${port}/`], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()))
  const address = await new Promise<string>((resolve, reject) => {
    let said = ''
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      said += text
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1]
      if (found !== undefined) resolve(found)
    })
    void ended.then(() => reject(new Error(`The browser did not start: ${said.slice(-500)}`)))
  })
  const browser = await chromium.connectOverCDP(address)
  const [context] = browser.contexts()
  const page = context!.pages()[0] ?? (await context!.waitForEvent('page'))
  return {
    page,
    kill: async () => {
      const at = Date.now()
      process.kill(-child.pid!, 'SIGKILL')
      await ended
      await browser.close().catch(() => undefined)
      return at
    },
  }
}

/** What the page shows once it shows a day. */
async function look(page: Page): Promise<Seen> {
  // tsx names functions by a helper that the page has not.
  await page.evaluate('globalThis.__name = (named) => named')
  await page.waitForFunction(seen, undefined, { polling: 20, timeout: 60_000 })
  return (await page.evaluate(seen))!
}

type Loss = 'lost' | 'mixed' | 'corrupt'

const never = new Promise<never>(() => undefined)

/** What one profile lives through. */
async function lane(random: () => number, isLeft: () => boolean, found: (what: string, loss?: Loss) => void) {
  const profile = mkdtempSync(join(tmpdir(), 'wattfare-kills-'))
  let number = 1
  /** What was seen, the latest last, and by which edit each came. */
  let history: Seen[] = []
  /** From which of them on one must have come back, and the edit that may have been made beside. */
  let from = 0
  let underway: Edit | undefined
  for (;;) {
    const { page, kill } = await start(profile)
    const now = await look(page)
    if (history.length > 0) {
      const same = (one: Seen) => JSON.stringify(one) === JSON.stringify(now)
      const isThere =
        history.slice(from).some(same) || (underway !== undefined && isMadeBy(underway, history.at(-1)!, now))
      const isOlder = history.some(same)
      const isHalf = history.some(({ file }) => file === now.file)
      const asItWas = `${JSON.stringify(now)} in place of ${JSON.stringify(history.slice(from))}`
      if (isThere) found('')
      else found(asItWas, isOlder ? 'lost' : isHalf ? 'mixed' : 'corrupt')
    }
    if (!isLeft()) {
      await kill()
      break
    }

    const edits = nextEdits(random, number, now.stops.length > 0)
    number += edits.length
    const told: Told[] = []
    const last = edits.at(-1)!.number
    const done = new Promise<void>((resolve) =>
      page.on('console', (message) => {
        if (!message.text().startsWith('kills ')) return
        told.push(JSON.parse(message.text().slice(6)) as Told)
        const latest = told.at(-1)!
        if (latest.number === last && 'ended' in latest) resolve()
      }),
    )
    let isKilled = false
    const making = page.evaluate(`(${make.toString()})(${JSON.stringify(edits)}, ${seen.toString()})`).then(
      () => done,
      (error: unknown) => {
        if (!isKilled) throw error
      },
    )
    if (random() < 0.5) {
      await making
      const ended = told.flatMap((each) => ('ended' in each ? [each.ended] : [])).at(-1)!
      await setTimeout(Math.max(0, ended + 50 + 100 * random() - Date.now()))
    } else {
      const whole = edits.reduce((sum, { pause }) => sum + pause, 0)
      await Promise.race([setTimeout(1.2 * whole * random()), making.then(() => never)])
    }
    isKilled = true
    const killed = await kill()

    const ends = told.filter((each) => 'ended' in each)
    history = [now, ...ends.map(({ seen }) => seen)]
    from = ends.filter(({ ended }) => ended <= killed - durableWithin).length
    const latest = told.at(-1)
    underway =
      latest === undefined || 'ended' in latest ? undefined : edits.find((edit) => edit.number === latest.number)
  }
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
}

if (!values.built) {
  const { status } = spawnSync('npx', ['vite', 'build', '--logLevel', 'warn'], { cwd: root, stdio: 'inherit' })
  if (status !== 0) process.exit(status ?? 1)
}
const server = spawn('node', ['node_modules/vite/bin/vite.js', 'preview', '--port', String(port), '--strictPort'], {
  cwd: root,
  stdio: ['ignore', 'pipe', 'inherit'],
})
await new Promise((resolve) => server.stdout.once('data', resolve))
const began = Date.now()
let left = kills
let tried = 0
const losses: Record<Loss, number> = { lost: 0, mixed: 0, corrupt: 0 }
try {
  await Promise.all(
    Array.from({ length: Number(values['at-once']) }, (_, i) =>
      lane(
        seeded(1000 * Number(values.seed) + i),
        () => left-- > 0,
        (what, loss) => {
          tried++
          if (loss !== undefined) {
            losses[loss]++
            console.log(`${loss}: ${what}`)
          }
          if (tried % 50 === 0) console.log(`${tried} of ${kills} kills`)
        },
      ),
    ),
  )
} finally {
  server.kill()
}
const { lost, mixed, corrupt } = losses
const each = ((Date.now() - began) / 1000 / tried).toFixed(1)
console.log(
  `${tried} browsers killed, ${each} s each: ${lost} lost, ${mixed} mixed, ${corrupt} corrupt (seed ${values.seed})`,
)
process.exit(lost + mixed + corrupt > 0 || tried < kills ? 1 : 0)
