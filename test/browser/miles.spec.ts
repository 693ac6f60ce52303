import type { Page } from '@playwright/test'
import { expect, goTo, sections, sheet, test, turnTo, visit } from './page'

/**
 * Metric units behind a number. Grams of carbohydrate are what food labels state in the United States too (21 CFR 101.9); mm² of wire, N·m of torque, m² of drag
 * area and all electric units are what data sheets there give.
 */
const metric = /[\d–] ?(km|km\/h|m|cm|mm|kg|g|l|°C|m\/s|hPa)(?![\p{L}\p{N}²·])|Wh\/km|\bkm\b|kilogram|litre|metre/gu
const ofCarbohydrate = /\d+ g of carbohydrate|\d+ to \d+ g\.|Above \d+ g an hour/g
/** The names of the unit systems in the menu and of the file; a limit as the law of other countries has it. */
const mayStand = ['km, m, kg, °C', '25 km/h', 'two-islands-165km.gpx']

/** What of the text on screen is in metric units, with what stands about it. */
async function metricText(page: Page): Promise<string[]> {
  const text = await page.evaluate(() => {
    const typed = [...document.querySelectorAll<HTMLInputElement>('input')]
      .filter((input) => input.checkVisibility())
      .map((input) => `${input.value} ${input.placeholder}`)
    return [document.body.innerText, ...typed].join('\n')
  })
  const plain = mayStand
    .reduce((all, one) => all.replaceAll(one, ''), text.replaceAll('\u00a0', ' '))
    .replace(ofCarbohydrate, '')
  return [...plain.matchAll(metric)].map(({ index }) => plain.slice(Math.max(0, index - 40), index + 30))
}

test('with miles no section says anything in metric units', async ({ page }) => {
  await visit(page)
  await page.getByText('View', { exact: true }).click()
  await page.getByLabel('Units').selectOption('imperial')
  await page.keyboard.press('Escape')
  await expect(page.getByRole('region', { name: 'The answer' })).toContainText('Wh/mi')
  await goTo(page, 'What comes along')
  await page.getByRole('button', { name: 'Start with an example list' }).click()
  await goTo(page, 'Charging')
  await page.getByRole('button', { name: 'Add a carried pack' }).click()
  for (const half of ['This day’s plan', 'Rider and bike'] as const) {
    await turnTo(page, half)
    for (const group of await sheet(page).getByRole('heading', { level: 3 }).all()) {
      await group.click()
      await expect(page.getByText('One moment.')).toHaveCount(0)
      expect(await metricText(page), half).toEqual([])
    }
  }
  for (const section of sections)
    await test.step(section, async () => {
      await goTo(page, section)
      await expect(page.getByText('One moment.')).toHaveCount(0)
      for (const fold of await page.locator('.fold > details > summary').all()) await fold.click()
      expect(await metricText(page)).toEqual([])
    })
})
