import type { Page } from '@playwright/test'
import { fullDay } from '../full-day'
import { screensOfSection, widerBy } from './looks'
import { expect, goTo, sections, test, visit } from './page'

/** Lines of a section that unfold a part of it. */
const folds = (page: Page) => page.locator('div.below .fold > details > summary')

/** Fills what the sample leaves empty: a list of things, and a carried pack with its lead. */
async function fill(page: Page): Promise<void> {
  await goTo(page, 'What comes along')
  await page.getByRole('button', { name: 'Start with an example list' }).click()
  await goTo(page, 'Charging')
  await page.getByRole('button', { name: 'Add a carried pack' }).click()
}

for (const [width, height, most, also] of [
  [1440, 900, 3, []],
  [390, 844, 6, ['This day’s plan', 'Rider and bike']],
] as const)
  test(`at ${width}×${height} each section of a full day is at most ${most} screens high, with any part of it unfolded`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await visit(page)
    const buffer = fullDay()
    await page.getByLabel('Route file').setInputFiles({ name: 'full.wattfare', mimeType: 'application/zip', buffer })
    await expect(page.locator('header .route')).toHaveText('Round both islands')
    for (const section of [...also, ...sections])
      await test.step(section, async () => {
        await goTo(page, section)
        await page.waitForLoadState('networkidle')
        await expect(page.getByText('One moment.')).toHaveCount(0)
        if (section === 'Charging') await expect(page.getByText(/^not ready: 3 of 7 questions answered$/)).toBeVisible()
        const screens = () => screensOfSection(page)
        expect(await screens(), 'screens').toBeLessThanOrEqual(most)
        for (const fold of await folds(page).all()) {
          await fold.click()
          await expect(page.getByText('One moment.')).toHaveCount(0)
          expect(await screens(), `screens with ${await fold.innerText()}`).toBeLessThanOrEqual(most)
          await fold.click()
        }
      })
  })

/** Controls whose text does not find room in them, by their text, and what of the section lies beyond the page's edge. */
const cutOff = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const shown = (one: Element) =>
      one.checkVisibility() && one.closest('.visually-hidden, .leaflet-container') === null
    const cut = [...document.querySelectorAll<HTMLElement>('main button, main a, main label, nav a')].filter(
      (one) =>
        shown(one) &&
        getComputedStyle(one).textOverflow !== 'ellipsis' &&
        getComputedStyle(one).overflowX === 'hidden' &&
        one.scrollWidth > one.clientWidth + 1,
    )
    const inScroller = (one: Element): boolean =>
      one.parentElement !== null &&
      (/auto|scroll|hidden/.test(getComputedStyle(one.parentElement).overflowX) || inScroller(one.parentElement))
    const beyond = [
      ...document.querySelectorAll<HTMLElement>('div.below :is(button, a, input, select, summary, p, h3)'),
    ].filter(
      (one) =>
        shown(one) && !inScroller(one) && one.getBoundingClientRect().right > document.documentElement.clientWidth + 1,
    )
    return [...cut, ...beyond].map((one) => `${one.tagName} ${one.innerText.slice(0, 40)}`)
  })

// WCAG 2.2, 1.4.10 (320 CSS px wide) and 1.4.4 (text at 200 %).
for (const [name, width, text] of [
  ['320 px wide', 320, '100%'],
  ['390 px wide with text at 200 %', 390, '200%'],
  ['1440 px wide with text at 200 %', 1440, '200%'],
] as const)
  test(`${name} nothing scrolls sideways and no control is cut off`, async ({ page }) => {
    await page.setViewportSize({ width, height: 900 })
    await page.addInitScript((text) => {
      document.addEventListener('DOMContentLoaded', () => (document.documentElement.style.fontSize = text))
    }, text)
    await visit(page)
    await fill(page)
    for (const section of sections)
      await test.step(section, async () => {
        await goTo(page, section)
        await page.waitForLoadState('networkidle')
        for (const fold of await folds(page).all()) await fold.click()
        expect(await widerBy(page), 'px wider than the page').toBeLessThanOrEqual(0)
        expect(await cutOff(page)).toEqual([])
      })
  })
