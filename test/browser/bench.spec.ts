import AxeBuilder from '@axe-core/playwright'
import type { Locator, Page } from '@playwright/test'
import { dragBy, expect, pin, profile, sheet, test, visit } from './page'

const bench = (page: Page): Locator => page.getByRole('region', { name: 'Bench', exact: true })
const summary = (page: Page): Locator => bench(page).getByText(/^(In \d|Nothing flows)/)
const limits = (page: Page): Locator => bench(page).getByRole('region', { name: 'What limits it' })
const carry = (page: Page): Locator => bench(page).getByRole('region', { name: 'Carry it or not' })

/** Unfolds the bench and puts a carried pack on it. */
async function addCarried(page: Page): Promise<void> {
  await page.getByRole('heading', { name: 'The bench' }).click()
  await expect(bench(page)).toContainText('No carried pack is planned')
  await bench(page).getByRole('button', { name: 'Add a carried pack' }).click()
  await expect(summary(page)).toBeVisible()
}

/** Looks at a stop, and charges from the carried pack there. */
async function useAt(page: Page, stop: RegExp): Promise<void> {
  const looked = bench(page).getByLabel('Looked at', { exact: true })
  await expect(looked.locator('option').filter({ hasText: stop })).toHaveCount(1)
  const options = await looked.locator('option').allInnerTexts()
  await looked.selectOption({ index: options.findIndex((text) => stop.test(text)) })
  await bench(page).getByRole('button', { name: 'Charge from it at' }).click()
  await expect(looked.locator('option:checked')).not.toContainText('does not use it')
}

async function type(field: Locator, text: string): Promise<void> {
  await field.fill(text)
  await field.press('Enter')
}

const share = async (locator: Locator, pattern: RegExp): Promise<number> =>
  Number(pattern.exec((await locator.textContent())!)![1])

test('blocks in series or parallel: the limit is read, the source used at a dragged stop, its energy shared by two', async ({
  page,
}) => {
  await visit(page)
  await addCarried(page)
  await useAt(page, /^Inn at Querrel Sands/)

  // Three blocks in parallel: the converter may not draw enough. In series it does.
  await bench(page).getByText('What stands on the bench').click()
  await type(bench(page).getByRole('textbox', { name: 'Blocks in series' }), '1')
  await type(bench(page).getByRole('textbox', { name: 'Blocks in parallel' }), '3')
  await expect(summary(page)).toContainText('the converter’s input limit binds all the time')
  const inParallel = await share(summary(page), /this puts (\d+) Wh/)
  const series = limits(page).getByRole('row', { name: /All 3 blocks in series/ })
  await expect(series).toContainText('the set current')
  const offered = await share(series, /(\d+) Wh/)
  expect(offered).toBeGreaterThan(inParallel)
  await limits(page).getByRole('button', { name: 'Take over: All 3 blocks in series' }).click()
  await expect(summary(page)).toContainText('the set current binds all the time')
  expect(await share(summary(page), /this puts (\d+) Wh/)).toBe(offered)
  await expect(bench(page).getByRole('textbox', { name: 'Blocks in series' })).toHaveValue('3')

  // What a charge gives beyond the pack's full voltage is refused, and nothing flows in the plan either.
  const voltage = bench(page).getByLabel('Set voltage')
  await type(voltage, '43')
  await expect(
    bench(page)
      .getByText(/43\.0 V set would overcharge this pack, which is full at 42\.0 V/)
      .first(),
  ).toBeVisible()
  await expect(sheet(page)).toContainText('would overcharge this pack')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(voltage).toHaveValue('42')

  // Time and charges on arrival follow the stop as it is dragged.
  const arrival = /\(from (\d+) % to/
  const before = await share(summary(page), arrival)
  await dragBy(page, pin(page, 'Inn at Querrel Sands'), -150)
  await expect.poll(() => share(summary(page), arrival)).not.toBe(before)
  await page.mouse.up()

  // A second stop takes what the first has left.
  const left = bench(page).getByText(/comes with \d+ % and has \d+ % left/)
  const comes = /comes with (\d+) %/
  const leaves = /has (\d+) % left/
  expect(await share(left, comes)).toBe(100)
  const afterFirst = await share(left, leaves)
  expect(afterFirst).toBeLessThan(85)
  const box = (await profile(page).locator('canvas').boundingBox())!
  await page.mouse.click(box.x + box.width * 0.8, box.y + box.height * 0.6)
  await expect(pin(page, 'Stop 2')).toBeVisible()
  await useAt(page, /^Stop 2/)
  await expect.poll(() => share(left, comes)).toBe(afterFirst)
  expect(await share(left, leaves)).toBeLessThan(afterFirst)
  await expect(sheet(page)).toContainText(new RegExp(`comes with ${afterFirst} % and has \\d+ % left`))
  await expect(sheet(page)).toContainText('Have you measured plus and minus')
})

test('slider and drawing show one moment; a confirmed source asks no more', async ({ page }) => {
  await visit(page)
  await addCarried(page)
  const slider = bench(page).getByRole('slider', { name: 'Time on the slider' })
  const drawing = bench(page).getByRole('img', { name: /^Carried pack/ })
  const percents = async () =>
    [...(await drawing.getAttribute('aria-label'))!.matchAll(/([\d.]+) %/g)].map(([, text]) => Number(text))
  await slider.focus()
  await slider.press('Home')
  expect(await percents()).toEqual([100, 20])
  await expect(slider).toHaveAttribute('aria-valuetext', /^minute 0: Pack 1 .* V, 4\.0 A, .*the set current binds$/)
  await slider.press('End')
  const [source, pack] = await percents()
  expect(source).toBeLessThan(60)
  expect(pack).toBeGreaterThan(50)
  await bench(page).getByText('What stands on the bench').click()
  await bench(page)
    .getByLabel(/Plus and minus are measured/)
    .check()
  await bench(page)
    .getByLabel(/full voltage is read from/)
    .check()
  await expect(bench(page).getByText(/Have you measured|do not guess/)).toHaveCount(0)
})

test('carry it or not: another pack is taken over in one step', async ({ page }) => {
  await visit(page)
  await addCarried(page)
  await expect(carry(page)).toContainText('No stop and no crossing')
  await useAt(page, /^Inn at Querrel Sands/)
  const instead = carry(page).getByRole('region', { name: 'Another bike pack instead' })
  const finish = (await instead.getByText(/after \d+ h/).textContent())!
  await instead.getByRole('button', { name: 'Take this over' }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveCount(0)
  await expect(page.getByRole('region', { name: 'The answer' })).toContainText(finish.trim().slice(0, 5))
  await expect(page.getByText('3 packs', { exact: false }).first()).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await expect(instead.getByRole('button', { name: 'Take this over' })).toBeEnabled()
})

const widerBy = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

for (const [name, width, theme] of [
  ['desk', 1440, 'light'],
  ['phone', 390, 'dark'],
] as const)
  test(`bench on a ${name}, ${theme}: nothing serious for accessibility, nothing wider than the page`, async ({
    page,
  }) => {
    await page.emulateMedia({ colorScheme: theme })
    await page.setViewportSize({ width, height: 900 })
    await visit(page)
    await addCarried(page)
    await expect(bench(page).getByText(/^In 45 min this puts/)).toBeVisible()
    expect(await widerBy(page), 'px wider than the page, apart from the plan').toBeLessThanOrEqual(0)
    await useAt(page, /^Inn at Querrel Sands/)
    await bench(page).getByText('What stands on the bench').click()
    await expect(limits(page)).toContainText('As it is')
    await expect(carry(page)).toContainText('Neither')
    const wide = await widerBy(page)
    expect(wide, 'px wider than the page').toBeLessThanOrEqual(0)
    const { violations } = await new AxeBuilder({ page }).include('section.bench').analyze()
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
    expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([])
  })
