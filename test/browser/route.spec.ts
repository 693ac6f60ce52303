import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import Papa from 'papaparse'
import {
  answer,
  cursor,
  drop,
  expect,
  keptDay,
  keptPlan,
  legTable,
  mapPin,
  pin,
  profile,
  sampleFile,
  sheet,
  test,
  unfold,
  visit,
} from './page'
import { expectSound } from './looks'
import { gpx, north, track } from './tracks'

/** Ridden length, km. */
const length = async (page: Page) => Number(await cursor(page).getAttribute('aria-valuemax')) / 1000

async function legsAsCsv(page: Page): Promise<Record<string, string>[]> {
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save the legs as CSV' }).click()
  const text = readFileSync(await (await saving).path(), 'utf8')
  return Papa.parse<Record<string, string>>(text.trimEnd(), { header: true }).data
}

test('of several tracks one is chosen, and that outlives a reload', async ({ page }) => {
  await visit(page)
  const tracks = [track('Out', north(1001)), track('Loop', north(501, 45.18)), track('Back', north(1501, 45.27))]
  await drop(page, 'three.gpx', gpx(tracks.join('')))
  await expect(page.getByTitle('three.gpx')).toBeVisible()
  expect(await length(page)).toBeCloseTo(60, 0)
  await unfold(page, 'Route')
  await expect(sheet(page)).toContainText('3 tracks of the file are joined in order.')
  const lines = sheet(page).getByLabel('Line')
  await expect(lines.getByRole('option')).toHaveText([
    'All joined in order',
    /^Out: 1,001 points, 20\.0 km$/,
    /^Loop: 501 points, 10\.0 km$/,
    /^Back: 1,501 points, 30\.0 km$/,
  ])
  await lines.selectOption({ index: 2 })
  await expect.poll(() => length(page)).toBeCloseTo(10, 0)
  await expect(sheet(page)).toContainText('The file has 2 more lines, not used here.')
  const chosen = await answer(page).textContent()
  await expect(page.getByTitle('three.gpx')).toHaveText('Loop')
  await expect.poll(() => keptDay(page)).toMatchObject({ choice: { line: 1 } })
  await page.reload()
  await expect(answer(page)).toHaveText(chosen!)
  expect(await length(page)).toBeCloseTo(10, 0)
  await unfold(page, 'Route')
  await sheet(page).getByLabel('Line').selectOption({ index: 0 })
  await expect.poll(() => length(page)).toBeCloseTo(60, 0)
})

test('of rides of different days one is asked for, with a picture of each, and the answer is one step', async ({
  page,
}) => {
  await visit(page)
  const file = 'tracks-of-two-days.gpx'
  await drop(page, file, readFileSync(new URL(`../files/${file}`, import.meta.url)))
  await expect(page.getByTitle(file)).toHaveText('Second day')
  const asked = page.getByRole('region', { name: /Which do you plan/ })
  await expect(asked.getByRole('heading')).toHaveText(
    'The file holds 2 rides of different days; shown is the longest. Which do you plan?',
  )
  const rides = asked.getByRole('button')
  await expect(rides).toHaveText([
    /First day and 1 more\s.*2031-05-03$/s,
    /Second day\s.*2031-05-04$/s,
    /All as one ride\s.*2031-05-03 to 2031-05-04$/s,
  ])
  await expect(rides.nth(1)).toHaveAttribute('aria-pressed', 'true')
  for (const ride of await rides.all()) await expect(ride.locator('path').last()).toHaveAttribute('d', /^M.*L/)
  await expectSound(
    page,
    [1440, 390].flatMap((width) => (['light', 'dark'] as const).map((theme) => ({ theme, width, height: 900 }))),
    '.story > section:first-child',
  )

  await rides.nth(0).press('Enter')
  await expect(asked).toHaveCount(0)
  await expect.poll(() => keptDay(page)).toMatchObject({ choice: { line: [2, 1] } })
  const chosen = await answer(page).textContent()
  await page.reload()
  await expect(answer(page)).toHaveText(chosen!)
  await expect(asked).toHaveCount(0)
  await page.getByTitle(file).waitFor()
})

test('points too far apart for a road are said beside the answer, with what that does to the forecast', async ({
  page,
}) => {
  await visit(page)
  const far = (metres: number) =>
    gpx(
      track(
        'Far',
        north(40).map(([latitude, ...rest], i) => [latitude + (i * (metres - 20)) / 111_132, ...rest]),
      ),
    )
  const caution = page
    .getByRole('region', { name: 'The answer' })
    .getByText(/straight lines, not a road/)
    .first()
  await drop(page, 'near.gpx', far(900))
  await expect(page.getByTitle('near.gpx')).toBeVisible()
  await expect(caution).toHaveCount(0)
  await drop(page, 'far.gpx', far(2300))
  await expect(caution).toHaveText(
    /^On 89\.\d\skm of 89\.\d\skm the points .* more than 1\skm apart, up to 2\.3\skm: .* too short and misses bends and climbs/,
  )
})

test('a line that the file draws straight is ridden until it is said to be a crossing', async ({ page }) => {
  await visit(page)
  await drop(page, 'drawn.gpx', gpx(track('Drawn', [...north(1001), ...north(1001, 45.25)])))
  await expect(page.getByTitle('drawn.gpx')).toBeVisible()
  const drawn = await length(page)
  await unfold(page, 'Crossings')
  await expect(sheet(page)).toContainText(
    'km 20.0: a gap of 7.8 km, counted as ridden straight: the file draws a line there, and has no times to tell.',
  )
  await sheet(page).getByLabel('This gap was ridden').click()
  await expect.poll(() => length(page)).toBeCloseTo(drawn - 7.8, 1)
  await expect(sheet(page).getByLabel(/^Time it takes/)).toHaveCount(1)
  await sheet(page).getByRole('button', { name: 'This part was ridden' }).click()
  await expect.poll(() => length(page)).toBeCloseTo(drawn, 3)
  await expect(sheet(page).getByLabel('This gap was ridden')).toBeChecked()
})

test('undo goes back over a choice of an earlier visit, for which the file is read anew', async ({ page }) => {
  await visit(page)
  await drop(page, 'two.gpx', gpx(track('Out', north(1001)) + track('Back', north(1501, 45.18))))
  await expect(page.getByTitle('two.gpx')).toBeVisible()
  expect(await length(page)).toBeCloseTo(50, 0)
  await unfold(page, 'Route')
  await sheet(page).getByLabel('Line').selectOption({ index: 1 })
  await expect.poll(() => length(page)).toBeCloseTo(20, 0)
  await expect.poll(() => keptDay(page)).toMatchObject({ fileName: 'two.gpx', choice: { line: 0 } })
  await page.reload()
  await expect(page.getByTitle('two.gpx')).toHaveText('Out')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => length(page)).toBeCloseTo(50, 0)
  await page.getByRole('button', { name: 'Redo' }).click()
  await expect.poll(() => length(page)).toBeCloseTo(20, 0)
})

test('a gap is a crossing of some time until it is said to be ridden', async ({ page }) => {
  await visit(page)
  await drop(page, 'gap.gpx', gpx(track('Gap', north(1001), north(1001, 45.3))))
  await expect(page.getByTitle('gap.gpx')).toBeVisible()
  expect(await length(page)).toBeCloseTo(40, 0)
  const rests = await answer(page).textContent()
  await unfold(page, 'Crossings')
  await expect(sheet(page)).toContainText(/km 20\.0: a gap of 13\.3 km/)
  const time = sheet(page).getByLabel(/^Time it takes/)
  const finish = async () => (await legTable(page).locator('tbody tr').last().innerText()).match(/\d\d:\d\d/g)!.at(-1)
  const before = await finish()
  await time.fill('300')
  await time.press('Enter')
  await expect.poll(finish).not.toBe(before)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(finish).toBe(before)

  const ridden = sheet(page).getByLabel('This gap was ridden')
  await ridden.check()
  await expect.poll(() => length(page)).toBeCloseTo(53.4, 0)
  await expect(time).toHaveCount(0)
  await expect(answer(page)).not.toHaveText(rests!)
  await ridden.uncheck()
  await expect.poll(() => length(page)).toBeCloseTo(40, 0)
  await expect(answer(page)).toHaveText(rests!)
})

test('legs by terrain are climbs, descents and what lies between', async ({ page }) => {
  await visit(page)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  const rows = legTable(page).locator('tbody tr')
  await expect(rows).toHaveCount(7)
  await page.getByLabel('Split').selectOption('terrain')
  await expect(page.getByLabel(/^Leg length/)).toHaveCount(0)
  await expect(rows.filter({ hasText: 'climb' })).toHaveCount(2)
  await expect(rows.filter({ hasText: 'descent' })).toHaveCount(2)
  const legs = await legsAsCsv(page)
  expect(legs.length).toBe(await rows.count())
  const steep = legs.map((leg) => Number(leg.mean_gradient_pct))
  expect(steep.filter((gradient) => gradient > 3).length, 'climbs').toBeGreaterThanOrEqual(2)
  expect(steep.filter((gradient) => gradient < -3).length, 'descents').toBeGreaterThanOrEqual(2)
  const sum = legs.reduce((sum, leg) => sum + Number(leg.length_km), 0)
  expect(sum).toBeCloseTo(await length(page), 1)
  for (const [i, leg] of legs.slice(1).entries()) expect(leg.start_km).toBe(legs[i]!.end_km)
})

test('a name that a spreadsheet would run is harmless in the CSV and as typed on screen', async ({ page }) => {
  await visit(page)
  await sheet(page).getByLabel('Name', { exact: true }).fill('=1+1')
  await sheet(page).getByLabel('Name', { exact: true }).press('Enter')
  await expect(pin(page, '=1+1')).toBeVisible()
  await expect(mapPin(page, '=1+1')).toBeVisible()
  await page.getByRole('button', { name: /^Show \d+ more$/ }).click()
  await expect(legTable(page).getByRole('cell', { name: '=1+1', exact: true })).toHaveCount(2)
  const legs = await legsAsCsv(page)
  expect(legs.map(({ to }) => to)).toContain("'=1+1")
  for (const leg of legs) for (const cell of Object.values(leg)) expect(cell).not.toMatch(/^[=@+\t\r]/)
})

test('what is looked at and the stop are as they were after a reload', async ({ page }) => {
  await visit(page)
  await page.getByRole('button', { name: 'Charge left' }).click()
  await profile(page).getByRole('button', { name: 'Speed' }).click()
  await page.getByText('View', { exact: true }).click()
  await page.getByLabel('Light or dark').selectOption('dark')
  await page.getByLabel('Units').selectOption('imperial')
  await page.keyboard.press('Escape')
  await mapPin(page, 'Inn at Querrel Sands').focus()
  await page.keyboard.press('Shift+ArrowRight')
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveAttribute('aria-valuenow', '88140')
  const said = await answer(page).textContent()
  await page.getByRole('button', { name: 'Fold the plan away' }).click()
  await expect.poll(() => keptPlan(page)).toContain('88140')
  await page.reload()
  await expect(answer(page)).toHaveText(said!)
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveAttribute('aria-valuenow', '88140')
  await expect(page.getByRole('button', { name: 'Charge left' })).toHaveAttribute('aria-pressed', 'true')
  await expect(profile(page).getByRole('button', { name: 'Speed' })).toHaveAttribute('aria-pressed', 'true')
  await expect(page.getByRole('button', { name: 'Show the plan' })).toBeVisible()
  expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('dark')
  await expect(page.getByRole('region', { name: 'At the pointer' })).toContainText('ft')
})
