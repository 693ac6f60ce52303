import { readFile } from 'node:fs/promises'
import type { Locator, Page } from '@playwright/test'
import { unzipSync } from 'fflate'
import {
  answer,
  drop,
  expect,
  keptDay,
  keptPlan,
  listOfDays,
  pin,
  sampleFile,
  sheet,
  spoil,
  test,
  unfold,
  visit,
} from './page'

const notice = (page: Page) => page.getByRole('complementary', { name: 'Notices' })
const power = (page: Page) =>
  sheet(page)
    .getByRole('textbox', { name: /^Steady power/ })
    .first()

async function setPower(page: Page, watts: number): Promise<void> {
  await power(page).fill(String(watts))
  await power(page).press('Enter')
}

const keptPower = async (page: Page) => (JSON.parse((await keptPlan(page)) || '{}') as Rider).rider?.power
interface Rider {
  rider?: { power: number }
}

/** A day of one's own on screen, kept. */
async function ownDay(page: Page): Promise<void> {
  await drop(page, 'into-town-18km.gpx', sampleFile('into-town-18km.gpx'))
  await expect(page.getByTitle('into-town-18km.gpx')).toBeVisible()
  await expect.poll(() => keptDay(page)).toMatchObject({ fileName: 'into-town-18km.gpx' })
}

/** The parts of the file that a press gives. */
async function savedDay(page: Page, press: Locator): Promise<Record<string, Buffer>> {
  const saving = page.waitForEvent('download')
  await press.click()
  const download = await saving
  expect(download.suggestedFilename()).toMatch(/\.wattfare$/)
  const files = unzipSync(await readFile(await download.path()))
  return Object.fromEntries(Object.entries(files).map(([name, bytes]) => [name, Buffer.from(bytes)]))
}

test('a day whose plan this build cannot read stays untouched in the list, is said, and can be saved', async ({
  page,
}) => {
  await visit(page)
  await ownDay(page)
  const { id, plan } = (await keptDay(page))!
  const newer = JSON.stringify({ ...(JSON.parse(plan) as object), version: 99 })
  await spoil(page, id, { plan: newer })
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await expect(notice(page)).toContainText('stays as it is under Days: This plan is of version 99')
  await notice(page).getByRole('button', { name: 'Close' }).click()
  await unfold(page, 'Rider')
  await setPower(page, 101)
  await expect.poll(() => keptPower(page)).toBe(101)
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(notice(page)).toHaveCount(0)
  const list = await listOfDays(page)
  await expect(list.getByRole('listitem')).toHaveCount(2)
  await expect(list).toContainText('This plan is of version 99')
  const files = await savedDay(page, list.getByRole('button', { name: /^Save as a file: .*town/i }))
  expect(JSON.parse(files['day.json']!.toString())).toMatchObject({ plan: { version: 99 } })
  expect(files.route!.equals(sampleFile('into-town-18km.gpx'))).toBe(true)
})

test('a day that is damaged, or whose route is, stays in the list, and the app goes on with another', async ({
  page,
}) => {
  await visit(page)
  await ownDay(page)
  const first = (await keptDay(page))!.id
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect.poll(() => keptDay(page)).toMatchObject({ fileName: 'two-passes-62km.gpx' })
  const second = (await keptDay(page))!.id
  await spoil(page, second, { route: 'none' })
  await page.reload()
  await expect(page.getByTitle('into-town-18km.gpx')).toBeVisible()
  await expect(answer(page)).toContainText('charge')
  await expect(notice(page)).toContainText('This day is damaged')
  await spoil(page, first, { choice: 17 })
  await page.reload()
  await expect(page.getByTitle('two-islands-165km.gpx')).toBeVisible()
  await expect(answer(page)).toContainText('charge')
  const list = await listOfDays(page)
  await expect(list.getByRole('listitem').filter({ hasText: 'This day is damaged' })).toHaveCount(1)
  const files = await savedDay(page, list.getByRole('button', { name: /^Save as a file: .*town/i }))
  expect(JSON.parse(files['day.json']!.toString())).toMatchObject({ choice: 17 })
  expect(files.route!.equals(sampleFile('into-town-18km.gpx'))).toBe(true)
})

test('what version 1 kept is a day, and what it had set aside stands in the list', async ({ page }) => {
  await visit(page)
  await ownDay(page)
  const { plan } = (await keptDay(page))!
  await page.goto('./icon.svg')
  await page.evaluate(
    async ([plan, gpx]) => {
      const done = <T>(request: IDBRequest<T>) =>
        new Promise<T>((resolve, reject) => {
          request.onsuccess = () => resolve(request.result)
          request.onerror = () => reject(request.error)
        })
      await done(indexedDB.deleteDatabase('wattfare'))
      const opening = indexedDB.open('wattfare', 1)
      opening.onupgradeneeded = () => opening.result.createObjectStore('desk')
      const database = await done(opening)
      const transaction = database.transaction('desk', 'readwrite')
      const desk = transaction.objectStore('desk')
      const bytes = new TextEncoder().encode(gpx)
      desk.put({ bytes, fileName: 'my ride.gpx', choice: { line: 'proposed', riddenGaps: [] } }, 'file')
      desk.put(plan!.replace('"power": 120', '"power": 133'), 'plan')
      desk.put({ half: 'plan', value: 'half a pl', at: 1_790_000_000_000 }, 'aside 1790000000000 plan')
      await new Promise((resolve) => (transaction.oncomplete = resolve))
      database.close()
    },
    [plan, sampleFile('into-town-18km.gpx').toString()] as const,
  )
  await visit(page)
  await expect(page.getByTitle('my ride.gpx')).toBeVisible()
  await unfold(page, 'Rider')
  await expect(power(page)).toHaveValue('133')
  const list = await listOfDays(page)
  await expect(list.getByRole('listitem')).toHaveCount(2)
  const files = await savedDay(page, list.getByRole('button', { name: 'Save as a file: A day without a name' }))
  expect(files['day.json']!.toString()).toContain('half a pl')
})

test('what is typed when the page is left counts, and an edit is kept at once', async ({ page, context }) => {
  await visit(page)
  await unfold(page, 'Rider')
  await power(page).fill('97')
  await page.goto('about:blank')
  const again = await context.newPage()
  await visit(again)
  expect(await keptPower(again)).toBe(97)
  await pin(again, /Inn/).focus()
  const stops = async (page: Page) => (JSON.parse(await keptPlan(page)) as { stops: { distance: number }[] }).stops
  const before = (await stops(again))[0]!.distance
  await again.keyboard.press('ArrowRight')
  await again.close()
  const last = await context.newPage()
  await visit(last)
  expect((await stops(last))[0]!.distance).toBe(before + 100)
})

test('samples come whole each time; what is done to one is a day of the rider’s', async ({ page }) => {
  await visit(page)
  const first = await answer(page).textContent()
  await pin(page, 'Inn at Querrel Sands').focus()
  await page.keyboard.press('Delete')
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveCount(0)
  await page.getByText('Samples', { exact: true }).click()
  await page.getByRole('button', { name: /Two passes/ }).click()
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await expect.poll(() => keptDay(page)).toBeUndefined()
  await page.reload()
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await page.getByText('Samples', { exact: true }).click()
  await page.getByRole('button', { name: /Two islands/ }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await expect(answer(page)).toHaveText(first!)
  const list = await listOfDays(page)
  await expect(list.getByRole('listitem')).toHaveCount(1)
  await list.getByRole('button', { name: /^Two islands/ }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveCount(0)
  await expect
    .poll(async () => JSON.parse((await keptPlan(page)) || '{}') as unknown)
    .toMatchObject({ stops: [], controls: [{ name: 'Tollan Spring' }] })
})

test('a day of one’s own begins with rider and bike of the last, never with a sample’s', async ({ page }) => {
  await visit(page)
  await unfold(page, 'Rider')
  await setPower(page, 99)
  await expect.poll(() => keptPower(page)).toBe(99)
  await ownDay(page)
  await expect(power(page)).toHaveValue('120')
  await setPower(page, 143)
  await expect.poll(() => keptPower(page)).toBe(143)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await expect(power(page)).toHaveValue('143')
  await page.getByRole('button', { name: 'Days', exact: true }).click()
  await page
    .getByRole('dialog')
    .getByRole('button', { name: /^Two islands/ })
    .click()
  await expect(power(page)).toHaveValue('99')
})
