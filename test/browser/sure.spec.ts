import type { Page } from '@playwright/test'
import { chanceFor, type ChanceReport } from '../../src/cli/chance'
import { doorWith } from './door'
import { answer, expect, goTo, keptPlan, test, visit } from './page'

const why = (page: Page) => page.getByRole('region', { name: 'How sure, and why' })
const said = (page: Page) => page.locator('.sure').getByRole('status')
const isWhole = (page: Page) => expect(said(page)).toHaveAttribute('aria-busy', 'false')

/** How long the span of the finish is that the answer tells, minutes. */
async function span(page: Page): Promise<number> {
  await isWhole(page)
  const [, from, to] = /Finish (\d\d:\d\d) to (\d\d:\d\d)/.exec((await said(page).textContent())!)!
  const minutes = (clock: string) => 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3))
  return (minutes(to!) - minutes(from!) + 1440) % 1440
}

/** The share of the finish's spread that comes from a figure, %; 0 where it is not spoken of. */
async function share(page: Page, figure: string): Promise<number> {
  await expect(why(page)).toHaveAttribute('aria-busy', 'false')
  const list = why(page).locator('dl').last()
  const row = list.locator('dt', { hasText: figure }).locator('xpath=following-sibling::dd[1]')
  return (await row.count()) === 0 ? 0 : Number.parseInt((await row.textContent())!)
}

test('what the rider measured narrows the span of the finish and drives it less; undone, all is as before; weather forecast long ago widens it', async ({
  page,
}) => {
  await visit(page)
  await expect(answer(page)).toContainText('charge')
  await goTo(page, 'Choices')
  await why(page).getByText('What would make it surer').click()
  const known = page.getByLabel('How well you know it: tyres')
  await known.selectOption('A guess')
  await expect.poll(() => keptPlan(page)).toContain('"guess"')
  const [wide, most] = [await span(page), await share(page, 'tyres')]
  expect(most).toBeGreaterThan(20)

  // The same plan and seed by the door for scripts: to the digit what is on screen.
  const words = ['two-islands-165km.gpx', '--plan', 'plan', '--json']
  const { reserve_pct, motor_pct, finish, drivers } = JSON.parse(
    await chanceFor(words, doorWith(await keptPlan(page))),
  ) as ChanceReport
  const days = reserve_pct > 99.5 ? 'more than 99' : reserve_pct.toFixed(0)
  await expect(said(page)).toContainText(`${days} of 100 such days`)
  await expect(said(page)).toContainText(`Finish ${finish.low.slice(11)} to ${finish.high.slice(11)}`)
  const tyres = drivers.find(({ figure }) => figure === 'bike.rolling')!
  expect(most).toBe(Math.round(tyres.finish_pct))
  const told = `${tyres.left_pct.toFixed(0)} ± ${tyres.left_error_pct.toFixed(0)} %`
  await expect(why(page).locator('dl').nth(1)).toContainText(told)
  const helps = why(page)
    .locator('dt', { hasText: 'The motor helps to the finish' })
    .locator('xpath=following-sibling::dd[1]')
  await expect(helps).toContainText(`${motor_pct.toFixed(0)} of 100`)

  await known.selectOption('I measured it')
  await expect.poll(() => span(page)).toBeLessThan(wide)
  await expect.poll(() => share(page, 'tyres')).toBeLessThan(most / 2)
  const narrow = await span(page)

  await page.keyboard.press('Control+z')
  await expect.poll(() => span(page)).toBe(wide)
  await expect(known).toHaveValue('guess')
  await expect.poll(() => share(page, 'tyres')).toBe(most)
  expect(narrow).toBeLessThan(wide)

  // A forecast of the weather made long before is worth less.
  await page.getByLabel('How far ahead the weather was forecast').selectOption('Forecast 10 days ahead')
  await expect.poll(() => span(page)).toBeGreaterThan(wide)

  // And what hardly matters can be called a guess all the same.
  await page.getByLabel('How well you know it: the bike’s mass').selectOption('A guess')
  await expect.poll(() => keptPlan(page)).toContain('"bike.mass"')
})
