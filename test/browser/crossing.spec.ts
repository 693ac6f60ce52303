import { Buffer } from 'node:buffer'
import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { asGpx, ferry, recorded, roads, standing } from '../recordings'
import { cursor, drop, expect, keptDay, pin, sampleFile, sheet, test, unfold, visit } from './page'

/** Ridden length, km. */
const length = async (page: Page) => Number(await cursor(page).getAttribute('aria-valuemax')) / 1000
/** Where a stop's pin stands, km. */
const standsAt = async (page: Page, name: string) => Number(await pin(page, name).getAttribute('aria-valuenow')) / 1000

async function mark(page: Page, begins: string, ends: string): Promise<void> {
  await sheet(page).getByLabel('Begins at').fill(begins)
  await sheet(page).getByLabel('Ends at').fill(ends)
  await sheet(page).getByLabel('Ends at').press('Enter')
}

test('a marked part is a crossing, stops keep their place, and one undo sets all back', async ({ page }) => {
  await visit(page)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  const before = await length(page)
  await sheet(page).getByRole('button', { name: 'Pin a stop' }).click()
  const place = sheet(page).getByLabel(/^Place/)
  await place.fill('40')
  await place.press('Enter')
  await expect.poll(() => standsAt(page, /Stop 1/.source)).toBeCloseTo(40, 1)

  await unfold(page, 'Crossings')
  await mark(page, '30', '20')
  await expect(sheet(page)).toContainText('The part must end after it begins.')
  await mark(page, 'here', '500')
  await expect(sheet(page)).toContainText('Write where the part begins, in km from the start, such as 12.5.')
  await expect(sheet(page)).toContainText('The route ends at km 62.0.')
  await mark(page, '0', '62')
  await expect(sheet(page)).toContainText('The part is the whole route; something of it must be ridden.')
  expect(await length(page)).toBe(before)

  await mark(page, '20', '25.5')
  await expect.poll(() => length(page)).toBeCloseTo(before - 5.5, 1)
  await expect(sheet(page).getByText('a marked part')).toHaveText(
    /^km 20\.0: a marked part of 5\.5 km, \d+ min in the recording\.$/,
  )
  await expect(sheet(page).getByLabel(/^Time it takes/)).toHaveCount(1)
  expect(await standsAt(page, 'Stop 1')).toBeCloseTo(34.5, 1)
  expect((await new AxeBuilder({ page }).include('aside').analyze()).violations).toEqual([])

  await expect.poll(() => keptDay(page)).toHaveProperty('choice.marked')
  await page.reload()
  await expect.poll(() => length(page)).toBeCloseTo(before - 5.5, 1)
  expect(await standsAt(page, 'Stop 1')).toBeCloseTo(34.5, 1)

  await unfold(page, 'Crossings')
  await sheet(page).getByRole('button', { name: 'This part was ridden' }).click()
  await expect.poll(() => length(page)).toBeCloseTo(before, 2)
  expect(await standsAt(page, 'Stop 1')).toBeCloseTo(40, 1)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => length(page)).toBeCloseTo(before - 5.5, 1)
  expect(await standsAt(page, 'Stop 1')).toBeCloseTo(34.5, 1)
})

test('marking is one step of undo', async ({ page }) => {
  await visit(page)
  const before = await length(page)
  const stop = await standsAt(page, 'Inn at Querrel Sands')
  await unfold(page, 'Crossings')
  const timetable = sheet(page).getByLabel('Timetable')
  await expect(timetable).toHaveValue('every')
  await mark(page, '10', '14')
  await expect.poll(() => length(page)).toBeCloseTo(before - 4, 1)
  // The ferry, now the second crossing, keeps its timetable.
  await expect(timetable).toHaveCount(2)
  await expect(timetable.nth(1)).toHaveValue('every')
  expect(await standsAt(page, 'Inn at Querrel Sands')).toBeCloseTo(stop - 4, 1)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => length(page)).toBe(before)
  await expect(timetable).toHaveCount(1)
  expect(await standsAt(page, 'Inn at Querrel Sands')).toBe(stop)
  await page.getByRole('button', { name: 'Redo' }).click()
  await expect(timetable).toHaveCount(2)
  expect(await length(page)).toBeCloseTo(before - 4, 1)
})

test('a ferry in a recorded track is proposed, and taken as a crossing', async ({ page }) => {
  const track = recorded([roads(3600), standing(720), ferry(41 * 60, 4.72), standing(90), roads(3600)])
  await visit(page)
  await drop(page, 'over-the-sound.gpx', Buffer.from(asGpx('Over the sound', track)))
  await expect(page.getByTitle('over-the-sound.gpx')).toBeVisible()
  const before = await length(page)
  await expect(sheet(page)).toContainText('none, 1 proposed')
  await unfold(page, 'Crossings')
  const plan = sheet(page)
  await expect(plan.getByText('looks like a crossing')).toHaveText(
    /^km 2\d\.\d to 3\d\.\d looks like a crossing: 4[01]\smin at a steady 17\skm\/h on level water after a halt of 1[23]\smin\.$/,
  )
  await plan.getByRole('button', { name: 'Take as a crossing' }).first().click()
  await expect.poll(() => length(page)).toBeCloseTo(before - 11.1, 0)
  await expect(plan).not.toContainText('looks like a crossing')
  // 41 min in the recording, and 10 to be there before.
  await expect(plan.getByLabel(/^Time it takes/)).toHaveValue(/^5[01]$/)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(plan).toContainText('looks like a crossing')
  expect(await length(page)).toBe(before)
})
