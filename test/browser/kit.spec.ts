import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import Papa from 'papaparse'
import { expectSound, takeOn } from './looks'
import { answer, drop, expect, goTo, sampleFile, test, visit } from './page'

const kit = (page: Page): Locator => page.getByRole('region', { name: 'Kit list' })
const row = (page: Page, name: string): Locator =>
  kit(page)
    .getByRole('row')
    .filter({ has: page.getByRole('textbox', { name: `Name of ${name}`, exact: true }) })
const sentence = (page: Page): Locator => kit(page).getByText(/^Each (kilogram|pound) costs/)

async function openKit(page: Page): Promise<void> {
  await goTo(page, 'What comes along')
  await expect(sentence(page)).toBeVisible()
}

/** A long list shows a few rows first. */
const showAll = (page: Page) =>
  kit(page)
    .getByRole('button', { name: /^Show \d+ more$/ })
    .click()

async function paste(page: Page, text: string): Promise<void> {
  const area = kit(page).getByLabel('Rows from a spreadsheet or a CSV, headings first')
  if (!(await area.isVisible())) await kit(page).getByRole('button', { name: 'Paste a list' }).click()
  await area.fill(text)
  await kit(page)
    .getByRole('button', { name: /Take these rows|Replace the list by these rows/ })
    .click()
}

/** Waits until the figures are those of the plan as it stands. */
const settled = (page: Page) => expect(kit(page).getByText('Being worked out.')).toBeHidden()

/** Seconds of `42 s`, `5 min 24 s`, `1 h 05 min`. */
function seconds(text: string): number {
  const parts = [...text.matchAll(/(\d+(?:\.\d+)?) (h|min|s)\b/g)]
  expect(parts.length, text).toBeGreaterThan(0)
  return parts.reduce((sum, [, value, unit]) => sum + Number(value) * { h: 3600, min: 60, s: 1 }[unit as 'h'], 0)
}

/** Minutes of the clock time at the finish, and the energy above or below the reserve that the answer tells, Wh. */
async function read(page: Page): Promise<{ finish: number; margin: number }> {
  const section = page.getByRole('region', { name: 'The answer' })
  const clock = /(\d\d):(\d\d)/.exec(
    await section.locator('div').filter({ hasText: 'Finish' }).locator('dd').innerText(),
  )!
  const said = /([\d,]+)\sWh (above|below) your reserve/.exec(await answer(page).innerText())!
  return {
    finish: 60 * Number(clock[1]) + Number(clock[2]),
    margin: Number(said[1]!.replace(',', '')) * (said[2] === 'above' ? 1 : -1),
  }
}

test('a pasted list tells its cost, and a thing left at home changes the forecast by it', async ({ page }) => {
  await visit(page)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await openKit(page)
  await paste(
    page,
    'Item\tWeight (kg)\tCount\tMark\nTool chest\t8,5\t1\tcomes along\nTent\t1,25\t2\tcame back unused\n',
  )
  await expect(kit(page).getByText('2 things read')).toBeVisible()
  await settled(page)
  await expect(row(page, 'Tent')).toContainText('2.5 kg')
  await expect(sentence(page)).toContainText('leaving the unused 2.5 kg at home saves')
  await expect(kit(page).locator('dl')).toContainText(/The list below.*11\.0 kg/s)

  const cells = row(page, 'Tool chest').getByRole('cell')
  const time = seconds(
    await cells
      .filter({ hasText: /^[\d ]*(min|s)/ })
      .first()
      .innerText(),
  )
  const energy = Number((await row(page, 'Tool chest').locator('.energy').innerText()).replace(' Wh', ''))
  expect(time).toBeGreaterThan(120)
  expect(energy).toBeGreaterThan(10)
  const before = await read(page)
  const saidBefore = await answer(page).innerText()
  await kit(page).getByRole('combobox', { name: 'Mark of Tool chest' }).selectOption('stays home')
  await expect(answer(page)).not.toHaveText(saidBefore)
  const after = await read(page)
  // Clock times are whole minutes and energies whole watt-hours, so that a difference may be one off.
  expect(Math.abs(before.finish - after.finish - time / 60), 'finish, min').toBeLessThan(1.05)
  expect(Math.abs(after.margin - before.margin - energy), 'answer, Wh').toBeLessThan(1 + 0.03 * energy)

  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(answer(page)).toHaveText(saidBefore)
  await kit(page).getByRole('button', { name: 'Leave Tent at home' }).click()
  await expect(kit(page).getByRole('combobox', { name: 'Mark of Tent' })).toHaveValue('stays')
  await settled(page)
  await expect(sentence(page)).not.toContainText('unused')
})

test('typing is one step, a new unit is understood, and bad input is said and not taken', async ({ page }) => {
  await visit(page)
  await openKit(page)
  await kit(page).getByRole('button', { name: 'Start with an example list' }).click()
  const each = kit(page).getByRole('textbox', { name: /^Mass of each Lock and chain/ })
  await expect(each).toHaveValue('1.6')
  const before = await answer(page).innerText()
  await each.focus()
  await each.press('Control+a')
  await page.keyboard.type('9500 g')
  await expect(answer(page)).not.toHaveText(before)
  await each.press('Enter')
  await expect(each).toHaveValue('9.5')
  await page.keyboard.press('Control+z')
  await expect(each).toHaveValue('1.6')
  await expect(answer(page)).toHaveText(before)

  await each.fill('heavy')
  await expect(each).toHaveAttribute('aria-invalid', 'true')
  await expect(kit(page).getByText('This is not a number; until then 1.6 kg counts.')).toBeVisible()
  await expect(answer(page)).toHaveText(before)
  await each.press('Escape')
  await expect(each).toHaveValue('1.6')

  // Bad lists leave all as it is.
  await paste(page, 'item,mass g\nLock,heavy')
  await expect(kit(page).getByText(/“heavy” in row 2, column “mass g” is not a number\./)).toBeVisible()
  await expect(kit(page).getByLabel(/^Rows from a spreadsheet/)).toHaveValue('item,mass g\nLock,heavy')
  await expect(each).toHaveValue('1.6')
  await kit(page)
    .getByLabel('Kit list file')
    .setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from('nothing of use') })
  await expect(kit(page).getByText(/The list stays as it was\./)).toBeVisible()
  await expect(each).toHaveValue('1.6')

  // What is in the plan already is not counted twice.
  const luggage = kit(page).getByRole('textbox', { name: /^Luggage that is not on the list/ })
  await expect(luggage).toHaveValue('0')
  await page.getByRole('button', { name: 'Hold this plan' }).click()
  const sum = kit(page).getByRole('region', { name: 'What it adds up to' })
  await luggage.fill('2.5')
  await luggage.press('Enter')
  await expect(sum).toContainText(/Ride in all\s*[\d.]+ kg\s*\+2\.5 kg/)
  await expect(sum.getByRole('checkbox', { name: /^Charger 4 A/ })).toBeDisabled()
  await each.fill('2.6')
  await each.press('Enter')
  await expect(row(page, 'Lock and chain').locator('.mass')).toContainText('+1.0 kg')
  await expect(row(page, 'Lock and chain').locator('.energy .change')).toHaveText(/^\+\d\.\d Wh$/)

  // Food and water are what the day asks for, and as many as it asks for at one press.
  const needs = kit(page).getByText(/^Up to the farthest next stop/)
  await expect(needs).toContainText(/asks for 7 bars, \d+ gels and \d+ bottles\. The list has just that\./)
  await showAll(page)
  const bars = kit(page).getByRole('textbox', { name: 'Count of Bar' })
  await bars.fill('30')
  await bars.press('Enter')
  await expect(needs).toContainText('The list has 30, ')
  await kit(page).getByRole('button', { name: 'Take what the day asks for' }).click()
  await expect(bars).toHaveValue('7')
  await goTo(page, 'The day')
  await expect(
    page.getByRole('row', { name: /Start.*take 7 bars and \d+ gels to Finish, 60 g of carbohydrate an hour/ }),
  ).toBeVisible()
})

test('the list goes out as CSV and comes back, by file or dropped', async ({ page }) => {
  await visit(page)
  await openKit(page)
  await kit(page).getByRole('button', { name: 'Start with an example list' }).click()
  await showAll(page)
  const names = kit(page).getByRole('textbox', { name: /^Name of/ })
  const shown = () => names.evaluateAll((inputs) => inputs.map((input) => (input as HTMLInputElement).value))
  const first = names.first()
  await first.fill('=HYPERLINK("x")')
  await first.press('Enter')
  const before = await shown()
  expect(before.length).toBeGreaterThan(10)
  await settled(page)
  const total = await kit(page).locator('dl').innerText()
  const saving = page.waitForEvent('download')
  await kit(page).getByRole('button', { name: 'Save the list as CSV' }).click()
  const download = await saving
  expect(download.suggestedFilename()).toMatch(/kit\.csv$/)
  const csv = readFileSync(await download.path())
  const rows = Papa.parse<Record<string, string>>(csv.toString(), { header: true, skipEmptyLines: true })
  expect(rows.errors).toEqual([])
  expect(rows.data).toHaveLength(before.length)
  expect(rows.data[0]!.item).toBe(`'=HYPERLINK("x")`)

  for (let i = 0; i < 3; i++)
    await kit(page)
      .getByRole('button', { name: /^Remove / })
      .first()
      .click()
  await expect(names).toHaveCount(before.length - 3)
  await expect(names.first()).toBeFocused()
  await kit(page).getByLabel('Kit list file').setInputFiles({ name: 'kit.csv', mimeType: 'text/csv', buffer: csv })
  await expect(names).toHaveCount(before.length)
  expect(await shown()).toEqual(before)
  await expect.poll(() => kit(page).locator('dl').innerText()).toBe(total)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(names).toHaveCount(before.length - 3)

  // Dropped on the list it is a list; the route stays.
  const data = await page.evaluateHandle((text) => {
    const transfer = new DataTransfer()
    transfer.items.add(new File([text], 'kit.csv', { type: 'text/csv' }))
    return transfer
  }, csv.toString())
  for (const type of ['dragenter', 'dragover', 'drop']) await kit(page).dispatchEvent(type, { dataTransfer: data })
  await expect(names).toHaveCount(before.length)
  await expect(page.getByTitle('two-islands-165km.gpx')).toBeVisible()
  await expect(page.getByText('Drop a GPX or KML route')).toBeHidden()
})

test('rows sort by any column and hold still under the hand; another thing shows its difference', async ({ page }) => {
  await visit(page)
  await openKit(page)
  await kit(page).getByRole('button', { name: 'Start with an example list' }).click()
  await settled(page)
  const names = kit(page).getByRole('textbox', { name: /^Name of/ })
  const head = kit(page).getByRole('button', { name: /^Mass/ })
  await head.click()
  await head.click()
  await expect(kit(page).getByRole('columnheader', { name: /^Mass/ })).toHaveAttribute('aria-sort', 'descending')
  await expect(names.first()).toHaveValue('Water, bottle of 0.75 l')
  const each = kit(page).getByRole('textbox', { name: /^Mass of each Water, bottle of 0.75 l/ })
  await each.fill('0.1')
  await expect(names.first()).toHaveValue('Water, bottle of 0.75 l')
  await each.blur()
  await expect(names.first()).toHaveValue('Pannier bag')

  const saidBefore = await sentence(page).innerText()
  const perKilogram = seconds(/costs (.*?) and/.exec(saidBefore)![1]!)
  const form = kit(page).getByRole('form', { name: 'Replace a thing by another' })
  await form.getByLabel('Instead of').selectOption({ label: 'Lock and chain' })
  await form.getByLabel('Take').fill('Cable lock')
  await form.getByLabel(/^Each/).fill('600 g')
  const difference = form.getByText(/lighter: saves/)
  await expect(difference).toHaveText(/^1\.0 kg lighter: saves/)
  // The last kilogram, off, and the next one, on: about the same, and not the same.
  expect(Math.abs(seconds(await difference.innerText()) - perKilogram)).toBeLessThanOrEqual(0.2 * perKilogram)
  await form.getByRole('button', { name: 'Replace' }).click()
  await expect(row(page, 'Cable lock')).toContainText('600 g')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(row(page, 'Lock and chain')).toContainText('1.6 kg')
})

test('the kit on wide and narrow screens: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  const looks = [
    { theme: 'dark', width: 360, height: 800 },
    { theme: 'light', width: 390, height: 800 },
    { theme: 'dark', width: 800, height: 800 },
    { theme: 'light', width: 1440, height: 800 },
  ] as const
  await takeOn(page, looks[0])
  await visit(page)
  await openKit(page)
  await kit(page).getByRole('button', { name: 'Start with an example list' }).click()
  await settled(page)
  await showAll(page)
  await kit(page).getByRole('button', { name: 'More of Water, bottle of 0.75 l' }).click()
  await kit(page).getByText('500 g/h').click()
  await kit(page).getByRole('button', { name: 'Paste a list' }).click()
  await expectSound(page, looks, '[aria-label="Kit list"]', () =>
    expect(kit(page).getByRole('textbox', { name: /^Water, bottle of 0.75 l used up/ })).toBeVisible(),
  )
})
