import { readFile } from 'node:fs/promises'
import { readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import { expect, test as base, type Browser, type BrowserContext, type Locator, type Page } from '@playwright/test'

/**
 * A page that fails its test where the program logs an error, throws, or breaks the content security policy.
 * Nothing but the site itself is to be had, unless a test serves it: map tiles fail as they do without network.
 */
export const test = base.extend({
  page: async ({ page }, use) => {
    const faults: string[] = []
    await page.addInitScript(() =>
      document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
        console.error(`Against the content security policy: ${violatedDirective} ${blockedURI}`),
      ),
    )
    page.on('pageerror', (error) => faults.push(error.message))
    page.on('console', (message) => {
      if (message.type() === 'error' && !/net::ERR_|Failed to load resource/.test(message.text()))
        faults.push(message.text())
    })
    await use(page)
    expect(faults, 'faults logged by the page').toEqual([])
  },
})
export { expect }

export const sampleFile = (name: string): Buffer =>
  readFileSync(new URL(`../../sample-routes/${name}`, import.meta.url))

/** Sections below the story, as the bar names them. */
export const sections = [
  'The ride',
  'The day',
  'Charging',
  'What comes along',
  'Choices',
  'Last time',
  'On the road',
  'Side by side',
] as const

export const answer = (page: Page): Locator => page.getByRole('heading', { level: 1 })
export const profile = (page: Page): Locator => page.getByRole('region', { name: 'Profile' })
export const pin = (page: Page, name: string | RegExp): Locator => profile(page).getByRole('slider', { name })
export const map = (page: Page): Locator => page.getByRole('region', { name: 'Map' })
export const mapPin = (page: Page, name: string | RegExp): Locator => map(page).getByRole('slider', { name })
/** Where the keyboard's cursor is, and what it moves. */
export const cursor = (page: Page): Locator => profile(page).getByRole('slider', { name: 'Place on the route' })
export const readout = (page: Page): Locator => page.getByRole('region', { name: 'At the pointer' })
export const legTable = (page: Page): Locator => page.getByRole('region', { name: 'Leg table' })
export const sheet = (page: Page): Locator => page.getByRole('complementary', { name: 'Plan' })

/** A telephone with a touch screen. */
export const phone = (browser: Browser, baseURL: string | undefined): Promise<BrowserContext> =>
  browser.newContext({
    ...(baseURL === undefined ? {} : { baseURL }),
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  })

/** Opens the page and waits for an answer. */
export async function visit(page: Page): Promise<void> {
  await page.goto('./')
  await expect(answer(page)).toContainText('charge')
}

/** Drops a file on the page, or a part of it, as the browser tells it: enter, over, drop. */
export async function drop(page: Page, name: string, bytes: Buffer, on = 'body'): Promise<void> {
  // What goes to the page goes as text, which for some tens of megabytes takes it longer than the file: packed.
  const data = await page.evaluateHandle(
    async ([name, packed]) => {
      const transfer = new DataTransfer()
      const bytes = new Blob([Uint8Array.from(atob(packed!), (c) => c.charCodeAt(0))])
      const whole = new Response(bytes.stream().pipeThrough(new DecompressionStream('gzip')))
      transfer.items.add(new File([await whole.arrayBuffer()], name!))
      return transfer
    },
    [name, gzipSync(bytes, { level: 1 }).toString('base64')],
  )
  for (const type of ['dragenter', 'dragover', 'drop']) await page.dispatchEvent(on, type, { dataTransfer: data })
}

/** What a press gives as a file. */
export async function given(page: Page, press: () => Promise<void>): Promise<{ fileName: string; bytes: Buffer }> {
  const saving = page.waitForEvent('download')
  await press()
  const download = await saving
  return { fileName: download.suggestedFilename(), bytes: await readFile(await download.path()) }
}

/** The middle of an element, in page coordinates. */
export async function middle(locator: Locator): Promise<{ x: number; y: number }> {
  await locator.scrollIntoViewIfNeeded()
  const box = (await locator.boundingBox())!
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}

/** Drags with the mouse in steps. */
export async function dragBy(page: Page, locator: Locator, dx: number, dy = 0): Promise<void> {
  const { x, y } = await middle(locator)
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= 10; i++) await page.mouse.move(x + (dx * i) / 10, y + (dy * i) / 10)
}

/** Drags with a finger in steps, and lets go. */
export async function dragByFinger(page: Page, locator: Locator, dx: number): Promise<void> {
  const { x, y } = await middle(locator)
  const session = await page.context().newCDPSession(page)
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', dx: number) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x: x + dx, y }] })
  await touch('touchStart', 0)
  for (let i = 1; i <= 12; i++) await touch('touchMove', (dx * i) / 12)
  await touch('touchEnd', 0)
}

export interface Spot {
  x: number
  y: number
}

/** Middle of the dot that shows the cursor on the map, in page coordinates. */
export async function dotOnMap(page: Page): Promise<Spot> {
  const dot = map(page).locator('.dot')
  await expect(dot).toBeVisible()
  const box = (await dot.boundingBox())!
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}

/**
 * Where places of the route lie on the map, in page coordinates; found with the keyboard's cursor.
 *
 * @param kilometres whole, ascending
 */
export async function placesOnMap(page: Page, kilometres: readonly number[]): Promise<Spot[]> {
  await map(page).scrollIntoViewIfNeeded()
  await cursor(page).focus()
  await page.keyboard.press('Home')
  let at = 0
  const spots: Spot[] = []
  for (const km of kilometres) {
    for (; at < km; at++) await page.keyboard.press('PageUp')
    await expect(cursor(page)).toHaveAttribute('aria-valuenow', String(1000 * km))
    spots.push(await dotOnMap(page))
  }
  await page.keyboard.press('Escape')
  return spots
}

/** The point of a pin on the map, in page coordinates. */
export async function footOf(pin: Locator): Promise<Spot> {
  const box = (await pin.boundingBox())!
  return { x: box.x + box.width / 2, y: box.y + box.height - 2 }
}

/** Goes to a section by the bar, and waits until it is there. */
export async function goTo(page: Page, section: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Parts of the page' }).getByRole('link', { name: section }).click()
  await expect(page.getByRole('heading', { level: 2, name: section })).toBeFocused()
}

/** Turns to one of the two halves of the plan: beside the story, or on a narrow screen among the sections. */
export async function turnTo(page: Page, half: 'This day’s plan' | 'Rider and bike'): Promise<void> {
  const link = page.getByRole('link', { name: half })
  await link.click()
  await expect(link).toHaveAttribute('aria-current', 'true')
}

/** Folds a group of the sheet open, or shut again. */
export async function unfold(page: Page, group: string): Promise<void> {
  await turnTo(page, ['Rider', 'Bike', 'Batteries', 'Assist'].includes(group) ? 'Rider and bike' : 'This day’s plan')
  await sheet(page).getByRole('heading', { name: group, exact: true }).click()
}

/** A day as the browser keeps it. */
export interface KeptDay {
  id: string
  name: string
  plan: string
  choice: unknown
  fileName: string
  bytes: Record<number, number> | undefined
}

/** A page of whichever driver. */
interface Asked {
  evaluate<T>(inPage: () => Promise<T>): Promise<T>
}

/** The day that the browser keeps as the one on screen, with its route's bytes; undefined where a sample stands there as it came. */
export const keptDay = (page: Asked): Promise<KeptDay | undefined> =>
  page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
    const database = await done(indexedDB.open('wattfare'))
    const transaction = database.transaction(['desk', 'days', 'routes'])
    const shown = (await done(transaction.objectStore('desk').get('open'))) as { day?: string } | undefined
    const day = (await done(transaction.objectStore('days').get(shown?.day ?? ''))) as { route: string } | undefined
    const bytes: unknown = await done(transaction.objectStore('routes').get(day?.route ?? ''))
    database.close()
    return day && ({ ...day, bytes } as never)
  })

/** Of the day on screen the plan that the browser keeps. */
export const keptPlan = async (page: Asked): Promise<string> => (await keptDay(page))?.plan ?? ''

/** Where the stops of that plan lie, in whole metres. */
export const keptStops = async (page: Asked): Promise<string[]> => {
  const { stops } = JSON.parse((await keptPlan(page)) || '{"stops":[]}') as { stops: { distance: number }[] }
  return stops.map(({ distance }) => String(Math.round(distance)))
}

/** Waits until all of the page is kept and it is served from there. */
export const servedFromKept = (page: Asked): Promise<void> =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready
    if (navigator.serviceWorker.controller === null)
      await new Promise((resolve) => navigator.serviceWorker.addEventListener('controllerchange', resolve))
  })

/** Changes what the browser keeps of a day, as another build or a fault may have left it. */
export const spoil = (page: Page, id: string, change: object): Promise<void> =>
  page.evaluate(
    async ([id, change]) => {
      const done = <T>(request: IDBRequest<T>) =>
        new Promise<T>((resolve, reject) => {
          request.onsuccess = () => resolve(request.result)
          request.onerror = () => reject(request.error)
        })
      const database = await done(indexedDB.open('wattfare'))
      const days = database.transaction('days', 'readwrite').objectStore('days')
      await done(days.put({ ...((await done(days.get(id))) as object), ...change }))
      database.close()
    },
    [id, change] as const,
  )

/** How many pages a PDF has. */
export const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0

/** The list of days, opened. */
export async function listOfDays(page: Page): Promise<Locator> {
  await page.getByRole('button', { name: 'Days', exact: true }).click()
  return page.getByRole('dialog', { name: 'Days' })
}
