import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test as base } from '@playwright/test'
import { launch, type Browser, type Page } from 'puppeteer-core'
import { forecastFor } from '../../src/cli/run'
import { firefoxPath, firefoxPreferences } from './firefox'
import { keptPlan, keptStops, sampleFile, servedFromKept } from './page'
import { openHost, type Host } from './server'
import { otherImages, refused, tileImage, trespass } from './trespass'

/*
 * The main job and the job without network in a Firefox, which the test driver of the other files can't steer: the pages here are puppeteer's,
 * over WebDriver BiDi.
 */
const test = base.extend<{ host: Host; folder: string; isAllowed: boolean; firefox: Page }>({
  host: async ({}, use) => {
    const host = await openHost()
    await use(host)
    await host.stop()
  },
  folder: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'wattfare-firefox-'))
    await use(folder)
    rmSync(folder, { recursive: true, force: true })
  },
  isAllowed: [true, { option: true }],
  firefox: async ({ folder, isAllowed }, use) => {
    const browser: Browser = await launch({
      browser: 'firefox',
      executablePath: firefoxPath(),
      args: ['--width=1440', '--height=900'],
      defaultViewport: null,
      extraPrefsFirefox: firefoxPreferences(folder),
    })
    const [page] = await browser.pages()
    const faults: string[] = []
    page!.on('pageerror', (error) => faults.push(String(error)))
    page!.on('console', (message) => {
      if (message.type() === 'error') faults.push(message.text())
    })
    await page!.evaluateOnNewDocument(() =>
      document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
        console.error(`Against the content security policy: ${violatedDirective} ${blockedURI}`),
      ),
    )
    await use(page!)
    await browser.close()
    if (isAllowed) expect(faults, 'faults logged by the page').toEqual([])
  },
})

const answer = (page: Page): Promise<string> =>
  page.evaluate(() => document.querySelector('h1')?.textContent?.trim() ?? '')
const fileShown = (page: Page): Promise<string> =>
  page.evaluate(() => document.querySelector<HTMLElement>('header .route')?.title ?? '')
const press = async (page: Page, name: string) => {
  const button = await page.evaluateHandle(
    (name) => [...document.querySelectorAll('button')].find(({ innerText }) => innerText.trim() === name)!,
    name,
  )
  await button.click()
}
const stop = '[aria-label="Profile"] [role=slider][aria-label="Stop 1"]'
/** Where the stop is, in whole metres; undefined where there is none. */
const stopAt = (page: Page) =>
  page.evaluate((stop) => document.querySelector(stop)?.getAttribute('aria-valuenow') ?? undefined, stop)

async function visit(page: Page, address: string): Promise<void> {
  await page.goto(address)
  await expect.poll(() => answer(page)).toContain('charge')
}

/** Opens a sample as a file of one's own. */
async function openFile(page: Page, name: string): Promise<void> {
  const input = await page.$('header input[type=file][accept*=gpx]')
  await input!.uploadFile(fileURLToPath(new URL(`../../sample-routes/${name}`, import.meta.url)))
  await expect.poll(() => fileShown(page)).toBe(name)
}

/** Pins a stop by a click on the profile, at 0.4 of its width. */
async function pinStop(page: Page): Promise<void> {
  const canvas = (await page.$('[aria-label="Profile"] canvas'))!
  await canvas.scrollIntoView()
  const chart = (await canvas.boundingBox())!
  await page.mouse.click(chart.x + chart.width * 0.4, chart.y + chart.height * 0.6)
  await expect.poll(() => stopAt(page)).toBeDefined()
}

/** Drags the stop to the right in steps; the button stays down. */
async function dragStop(page: Page, dx: number): Promise<void> {
  const pin = (await page.$(stop))!
  await pin.scrollIntoView()
  const box = (await pin.boundingBox())!
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= 10; i++) await page.mouse.move(x + (dx * i) / 10, y)
}

test('the main job in Firefox: a file of one’s own, the answer, a pin that is dragged, CSV, undo, reload', async ({
  firefox: page,
  host,
  folder,
}) => {
  await visit(page, host.address)
  await openFile(page, 'two-passes-62km.gpx')
  const first = await answer(page)
  expect(first).toMatch(/charge (just )?lasts|does not last/)
  await pinStop(page)
  await expect.poll(() => answer(page)).not.toBe(first)
  const [withStop, placed] = [await answer(page), Number(await stopAt(page))]
  expect(placed).toBeGreaterThan(15_000)
  expect(placed).toBeLessThan(35_000)

  // Everything follows before the button is let go.
  await dragStop(page, 200)
  await expect.poll(() => answer(page)).not.toBe(withStop)
  expect(Number(await stopAt(page))).toBeGreaterThan(placed + 5000)
  await page.mouse.up()
  const [dragged, moved] = [await answer(page), (await stopAt(page))!]
  await expect.poll(() => keptStops(page)).toEqual([moved])

  // A script gets the same table by the same plan.
  await press(page, 'Save the legs as CSV')
  const files: Record<string, Buffer> = {
    'ride.gpx': sampleFile('two-passes-62km.gpx'),
    'plan.json': Buffer.from(await keptPlan(page)),
  }
  const asked = ['ride.gpx', '--plan', 'plan.json', '--csv']
  const table = await forecastFor(asked, (name) => files[name]!)
  await expect.poll(() => readdirSync(folder)).toEqual([expect.stringMatching(/legs\.csv$/)])
  const [saved] = readdirSync(folder)
  await expect.poll(() => readFileSync(join(folder, saved!), 'utf8')).toBe(table)

  await press(page, 'Undo')
  await expect.poll(() => answer(page)).toBe(withStop)
  await press(page, 'Redo')
  await expect.poll(() => answer(page)).toBe(dragged)
  await expect.poll(() => keptStops(page)).toEqual([moved])

  await page.reload()
  await expect.poll(() => answer(page)).toBe(dragged)
  expect(await fileShown(page)).toBe('two-passes-62km.gpx')
  expect(await stopAt(page)).toBe(moved)
  await press(page, 'Undo')
  await expect.poll(() => answer(page)).toBe(withStop)
})

test('in Firefox after a first visit without a server: the kept day opens, and a stop of it is dragged', async ({
  firefox: page,
  host,
}) => {
  await visit(page, host.address)
  await servedFromKept(page)
  await openFile(page, 'two-passes-62km.gpx')
  await pinStop(page)
  const at = (await stopAt(page))!
  await expect.poll(() => keptStops(page)).toEqual([at])
  const said = await answer(page)

  await host.stop()
  await page.reload()
  await expect.poll(() => answer(page)).toBe(said)
  expect(await fileShown(page)).toBe('two-passes-62km.gpx')
  expect(await stopAt(page)).toBe(at)
  await dragStop(page, 150)
  await expect.poll(() => answer(page)).not.toBe(said)
  await page.mouse.up()
  const moved = (await stopAt(page))!
  expect(moved).not.toBe(at)
  await expect.poll(() => keptStops(page)).toEqual([moved])
})

test.describe('with what is not allowed', () => {
  test.use({ isAllowed: false })

  test('in Firefox a text is no markup, no script and no worker; images come from the page and the server of the tiles that is set', async ({
    firefox: page,
    host,
  }) => {
    await visit(page, host.address)
    expect(await page.evaluate(trespass, [tileImage, ...otherImages])).toEqual(refused)
  })
})
