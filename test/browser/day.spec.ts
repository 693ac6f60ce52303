import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import ICAL from 'ical.js'
import { XmlDocument, XsdValidator } from 'libxml2-wasm'
import { expectSound, takeOn } from './looks'
import { answer, drop, expect, goTo, pagesOf, sheet, test, unfold, visit } from './page'

const day = (page: Page): Locator => page.getByRole('region', { name: 'Timetable of the day' })
const row = (page: Page, name: string): Locator => day(page).getByRole('row').filter({ hasText: name })

async function openDay(page: Page): Promise<void> {
  await goTo(page, 'The day')
  await expect(day(page)).toBeVisible()
}

/** Minutes of a clock time, the last in a text. */
function minutesOf(text: string): number {
  const [, hours, minutes] = [...text.matchAll(/(\d\d):(\d\d)/g)].at(-1)!
  return 60 * Number(hours) + Number(minutes)
}
const clock = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`

async function typeIn(field: Locator, text: string): Promise<void> {
  await field.fill(text)
  await field.press('Enter')
}

async function download(page: Page, button: string): Promise<string> {
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: button }).click()
  return readFileSync(await (await saving).path(), 'utf8')
}

test('the start moved five minutes over the edge of a sailing moves the finish by one sailing', async ({ page }) => {
  await visit(page)
  await unfold(page, 'Crossings')
  const plan = sheet(page)
  await plan.getByLabel('Timetable').selectOption({ label: 'Leaves at listed times' })
  await expect(plan.getByLabel(/^Leaves at/)).toHaveValue('')
  await expect(plan).toContainText('Until sailings are typed, it counts as before.')
  const said = plan.getByText(/^You are there at/)
  const there = minutesOf((await said.textContent())!.slice(0, 25))
  // Ten minutes for boarding and two to spare; the next leaves 50 minutes later.
  const leaves = plan.getByLabel(/^Leaves at/)
  await typeIn(leaves, `${clock(there + 12)} ${clock(there + 62)}`)
  await expect(said).toContainText(`catch the ${clock(there + 12)}`)
  await expect(plan).toContainText('Ten minutes later it is gone, and you are across 50 min later.')
  await openDay(page)
  const finish = async () =>
    minutesOf(
      await day(page)
        .getByRole('row')
        .filter({ has: page.getByRole('rowheader', { name: /^Finish/ }) })
        .getByRole('cell')
        .first()
        .innerText(),
    )
  const before = await finish()

  const start = plan.getByLabel('Start')
  await typeIn(start, '605')
  await expect(said).toContainText(`miss the ${clock(there + 12)} by `)
  await expect(said).toContainText(`catch the ${clock(there + 62)}`)
  await expect.poll(finish).toBe(before + 50)
  await expect(row(page, 'Crossing from Ockerund Harbour')).toContainText(
    `be there by ${clock(there + 52)}, leaves ${clock(there + 62)}`,
  )
  await typeIn(start, '6:00')
  await expect.poll(finish).toBe(before)

  await typeIn(leaves, '7 am')
  await expect(plan).toContainText('“7” is not a time of day: write sailings as 07:00 09:30 12:00.')
  await expect(leaves).toHaveValue('7 am')
  await expect.poll(finish).toBe(before)
})

test('a control that is missed is the first thing said, and the goal after the controls', async ({ page }) => {
  await visit(page)
  const plan = sheet(page)
  await unfold(page, 'Controls')
  await plan.getByRole('button', { name: 'Add a control' }).click()
  await typeIn(plan.getByLabel('Name', { exact: true }).last(), 'Mill Gate')
  await typeIn(plan.getByLabel(/^Place/).last(), '20.5')
  await plan.getByLabel('Closes').selectOption({ label: 'At a clock time' })
  await expect(plan.getByLabel('At', { exact: true })).toHaveValue('')
  await expect(answer(page)).toHaveText(/^The charge /)
  await typeIn(plan.getByLabel('At', { exact: true }), '06:40')
  await expect(answer(page)).toHaveText(/^You miss the control Mill Gate by 1\d\smin\. The charge /)
  await openDay(page)
  await expect(row(page, 'Mill Gate')).toContainText(/closes 06:40.*min too late/s)
  await typeIn(plan.getByLabel('At', { exact: true }), '08:00')
  await expect(answer(page)).toHaveText(/^The charge /)
  await typeIn(plan.getByLabel('Goal, whole day'), '7:00')
  await expect(answer(page)).toHaveText(/^You miss your goal of 7\sh\s00\smin by .*\smin\. The charge /)
  await expect(page.getByRole('region', { name: 'The answer' })).toContainText(/To your goal.* too late/s)
  await typeIn(plan.getByLabel('Goal, whole day'), '')
  await expect(answer(page)).toHaveText(/^The charge /)
})

test('weather is pasted by the hour; what can’t be read is said and kept', async ({ page }) => {
  await visit(page)
  const before = (await answer(page).textContent())!
  await unfold(page, 'Weather')
  const plan = sheet(page)
  await plan.getByRole('button', { name: 'Paste a table' }).click()
  const paste = plan.getByLabel('Table from a spreadsheet')
  const bad = 'time\ttemp °C\twind\twind from\n06:00\t12\t8\tNE'
  await paste.fill(bad)
  await plan.getByRole('button', { name: 'Use this table' }).click()
  await expect(plan).toContainText('The heading “wind” needs its unit: m/s, km/h or mph.')
  await expect(paste).toHaveValue(bad)
  await expect(answer(page)).toHaveText(before)

  await paste.fill(
    'time\ttemp °C\twind m/s\twind from\train mm/h\n06:00\t12\t8\tNE\t0\n12:00\t18\t8\tNE\t1\n20:00\t15\t8\tNE\t0',
  )
  await plan.getByRole('button', { name: 'Use this table' }).click()
  const table = plan.getByRole('region', { name: 'Weather by the hour' })
  await expect(table.getByLabel('Wind at 12:00')).toHaveValue('8')
  await expect(table.getByLabel('From at 06:00')).toHaveValue('NE')
  await expect(answer(page)).not.toHaveText(before)
  const pasted = (await answer(page).textContent())!

  await typeIn(table.getByLabel('Wind at 12:00'), 'strong')
  await expect(plan).toContainText('“strong” under “Wind” is not a number.')
  await expect(table.getByLabel('Wind at 12:00')).toHaveValue('strong')
  await expect(answer(page)).toHaveText(pasted)
  await typeIn(table.getByLabel('Wind at 12:00'), '1')
  await expect(answer(page)).not.toHaveText(pasted)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(answer(page)).toHaveText(pasted)
  await plan.getByRole('button', { name: 'Back to one weather all day' }).click()
  await expect(answer(page)).toHaveText(before)
})

test('places of the file are ticked to be stops, added in one step, and undone', async ({ page }) => {
  await visit(page)
  const before = (await answer(page).textContent())!
  await sheet(page)
    .getByRole('button', { name: /^Stop at places of the file/ })
    .click()
  const places = sheet(page).getByRole('group', { name: 'Places of the file' })
  const boxes = places.getByRole('checkbox')
  await expect(boxes.first()).toBeFocused()
  await expect(places.getByRole('button', { name: 'Tick where you stop' })).toBeDisabled()
  await expect(places.getByRole('checkbox', { name: /Tollan Spring.*water/ })).toHaveCount(1)
  await boxes.first().press('Space')
  await places.getByRole('checkbox', { name: /^Hallomund/ }).check()
  await places.getByRole('button', { name: 'Stop at 2 places' }).click()
  await expect(sheet(page).getByRole('button', { name: /^Stop at places of the file/ })).toBeFocused()
  await openDay(page)
  await expect(row(page, 'Hallomund')).toContainText(/to/)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(row(page, 'Hallomund')).toHaveCount(0)
  await expect(answer(page)).toHaveText(before)
})

test('the zone is found from the route, and a time that the clock skips is said', async ({ page }) => {
  await visit(page)
  const zone = sheet(page).getByLabel('Time zone')
  await expect(zone.locator('option:checked')).toHaveText('UTC−10, from the route')
  await zone.selectOption('Europe/Berlin')
  const start = sheet(page).getByLabel('Start')
  const date = sheet(page).getByLabel('Date')
  await typeIn(date, '2027-03-28')
  await typeIn(start, '2:30')
  await expect(start).toHaveValue('02:30')
  await expect(sheet(page)).toContainText('The clock is put forward over this time')
  await typeIn(date, '2027-10-31')
  await expect(sheet(page)).toContainText('this time comes twice')
  await typeIn(start, '0030')
  await openDay(page)
  await expect(day(page)).toContainText('On the way the clock is put back by 1 h 00 min')
})

test('the day sheet is one page of A4 and of Letter, with what belongs on it', async ({ page }) => {
  await visit(page)
  await openDay(page)
  const paper = page.getByRole('region', { name: 'As printed' })
  await expect(paper.getByRole('article')).toBeVisible()
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByRole('button', { name: 'Open a route' })).toBeHidden()
  await expect(day(page)).toBeHidden()
  const text = await page.locator('body').innerText()
  for (const part of [
    'Two islands in a day',
    'The charge lasts:',
    'Wh into Pack 1',
    'Sat 2027-06-19, start 06:00',
    'Inn at Querrel Sands',
    'Crossing from Ockerund Harbour',
    'Tollan Spring',
    'closes 15:00',
    'Ride on with at least',
    'Assist',
    'Sunrise at the start',
    'Comes along',
    'Charger 4 A',
    'Take care',
    'not medical advice',
    'never unattended',
  ])
    expect(text).toContain(part)
  expect(text).toMatch(/leaves \d\d:15/)
  expect(text).not.toContain('Open a route')
  for (const format of ['A4', 'Letter']) expect(pagesOf(await page.pdf({ format })), format).toBe(1)

  await page.emulateMedia({ media: 'screen' })
  await page.getByRole('button', { name: 'Strip', exact: true }).click()
  await page.emulateMedia({ media: 'print' })
  const strip = await page.locator('body').innerText()
  expect(strip).toContain('Inn at Querrel Sands')
  expect(strip).toMatch(/be there by \d\d:05, leaves \d\d:15/)
  const width = (await page.locator('.printed').getByRole('article').boundingBox())!.width
  expect(width, 'CSS px: 44 mm').toBeLessThan(170)
  expect(pagesOf(await page.pdf({ format: 'A4' }))).toBe(1)
})

test('whatever is on screen, the day is what is printed', async ({ page }) => {
  await visit(page)
  await unfold(page, 'Assist')
  await typeIn(sheet(page).getByLabel('Assist on the flat'), '400')
  const said = (await answer(page).textContent())!
  expect(said).toContain('does not last')
  await expect
    .poll(() => page.evaluate(() => performance.getEntriesByType('resource').some(({ name }) => /Printed/.test(name))))
    .toBe(true)
  await page.emulateMedia({ media: 'print' })
  const article = page.getByRole('article')
  await expect(article).toContainText(said.slice(0, 30))
  await expect(article).toContainText('As planned the finish is not reached at your reserve')
  expect(await article.innerText()).not.toMatch(/NaN|undefined/)
  await expect(page.getByRole('button', { name: 'Open a route' })).toBeHidden()
  for (const format of ['A4', 'Letter']) expect(pagesOf(await page.pdf({ format })), format).toBe(1)
})

test('a day with thirty stops and a long kit list still stands on one page', async ({ page }) => {
  await visit(page)
  await page.getByText('Plan file').click()
  const plan = JSON.parse(await download(page, 'Save the plan')) as Record<string, unknown>
  const stop = (plan.stops as object[])[0]!
  plan.stops = Array.from({ length: 30 }, (_, k) => ({
    ...stop,
    id: `stop-${k + 1}`,
    name: `Place number ${k + 1}`,
    distance: 5000 * (k + 1),
    source: null,
    duration: 60,
  }))
  plan.kit = Array.from({ length: 60 }, (_, k) => ({
    id: `kit-${k + 1}`,
    name: `Thing number ${k + 1}`,
    mass: 0.1,
    count: 1,
    place: 'bike',
    mark: 'comes',
    use: null,
  }))
  await drop(page, 'long.json', Buffer.from(JSON.stringify(plan)))
  await openDay(page)
  await expect(row(page, 'Place number 30')).toHaveCount(1)
  await expect(page.getByRole('region', { name: 'As printed' })).toContainText('Place number 30')
  for (const format of ['A4', 'Letter']) expect(pagesOf(await page.pdf({ format })), format).toBe(1)
})

test('a day with a hundred controls goes on over pages in type that can be read; its strip stands in columns', async ({
  page,
}) => {
  await visit(page)
  await page.getByText('Plan file').click()
  const plan = JSON.parse(await download(page, 'Save the plan')) as Record<string, unknown>
  plan.controls = Array.from({ length: 100 }, (_, k) => ({
    id: `control-${k + 1}`,
    name: `Gate number ${k + 1}`,
    distance: 1600 * (k + 1),
    opens: null,
    closes: { by: 'clock', day: 0, time: '12:00' },
  }))
  await drop(page, 'gates.json', Buffer.from(JSON.stringify(plan)))
  await openDay(page)
  const paper = page.getByRole('region', { name: 'As printed' })
  await expect(paper).toContainText('Gate number 100')
  const style = (part: string) =>
    paper
      .locator(part)
      .first()
      .evaluate((element) => {
        const { fontSize, display, breakInside } = getComputedStyle(element)
        return { points: (parseFloat(fontSize) * 72) / 96, display, breakInside }
      })
  expect((await style('article')).points).toBeGreaterThanOrEqual(8.9)
  // Headings again on each page, and no row cut in two.
  expect((await style('thead')).display).toBe('table-header-group')
  expect((await style('tbody tr')).breakInside).toBe('avoid')
  for (const format of ['A4', 'Letter']) {
    const pages = pagesOf(await page.pdf({ format }))
    expect(pages, format).toBeGreaterThan(1)
    expect(pages, format).toBeLessThan(6)
  }

  await page.getByRole('button', { name: 'Strip', exact: true }).click()
  await expect(paper.getByRole('listitem').last()).toContainText('Finish')
  expect((await style('article')).points).toBeGreaterThanOrEqual(8.9)
  const lefts = await paper
    .getByRole('listitem')
    .evaluateAll((items) => [...new Set(items.map((item) => Math.round(item.getBoundingClientRect().left)))])
  expect(lefts.length, 'columns to cut apart').toBe(4)
  expect(pagesOf(await page.pdf({ format: 'A4' }))).toBe(2)
})

test('the GPX with stops is valid by its schema, the calendar is read by a general library', async ({ page }) => {
  await visit(page)
  await openDay(page)
  const gpx = await download(page, 'Save as GPX with stops')
  const document = XmlDocument.fromString(gpx)
  const schema = readFileSync(new URL('../reference/gpx-1.1.xsd', import.meta.url), 'utf8')
  XsdValidator.fromDoc(XmlDocument.fromString(schema)).validate(document)
  expect(gpx).toMatch(/<wpt [^>]*>.*<name>Inn at Querrel Sands<\/name>/)
  expect(gpx).toMatch(/<name>Crossing from Ockerund Harbour<\/name><desc>[^<]*leaves \d\d:15/)

  const calendar = new ICAL.Component(ICAL.parse(await download(page, 'Save as calendar')))
  const events = calendar.getAllSubcomponents('vevent').map((part) => new ICAL.Event(part))
  expect(events.map(({ summary }) => summary)).toEqual([
    'Start',
    'Inn at Querrel Sands',
    expect.stringMatching(/^Crossing from Ockerund Harbour, be there by \d\d:05, leaves \d\d:15$/),
    'Tollan Spring',
    'Finish',
  ])
  // 06:00 in the zone of the open sea ten hours behind UTC.
  expect(events[0]!.startDate.toString()).toBe('2027-06-19T16:00:00Z')
})

test('the day on a phone, light and dark: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  const phone = { width: 390, height: 844 }
  await takeOn(page, { theme: 'light', ...phone })
  await visit(page)
  const show = page.getByRole('button', { name: 'Show the plan' })
  if (await show.isVisible()) await show.click()
  for (const group of ['Weather', 'Crossings', 'Controls']) await unfold(page, group)
  await sheet(page).getByRole('button', { name: 'Type it by the hour' }).click()
  await openDay(page)
  const preview = page.getByRole('region', { name: 'As printed' })
  await expect(preview).toBeVisible()
  const [room, paper] = [await preview.boundingBox(), await preview.getByRole('article').boundingBox()]
  expect(paper!.x + paper!.width, 'the paper is shown whole').toBeLessThanOrEqual(room!.x + room!.width)
  expect(room!.height, 'no empty space below it').toBeLessThan(1.2 * paper!.height)
  await expectSound(page, [
    { theme: 'light', ...phone },
    { theme: 'dark', ...phone },
  ])
})
