import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, test } from './page'

/** A screen and the theme of its system. */
export interface Look {
  theme: 'light' | 'dark'
  width: number
  height: number
}

export async function takeOn(page: Page, { theme, width, height }: Look): Promise<void> {
  await page.emulateMedia({ colorScheme: theme })
  await page.setViewportSize({ width, height })
}

/** How much wider than the page what is on it is, px. */
export const widerBy = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

/** How far what is seen of the section on screen reaches down from its head, in screens. */
export const screensOfSection = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const section = document.querySelector('div.below')!
    const seen = [...section.querySelectorAll('*')].filter((one) => one.checkVisibility())
    const ends = seen.map((one) => one.getBoundingClientRect().bottom)
    return (Math.max(...ends) - section.getBoundingClientRect().top) / innerHeight
  })

/** What of accessibility is for the theme to spoil; all else is the same in each. */
const rulesOfColour = ['color-contrast', 'link-in-text-block']

/**
 * One look after the other in the same visit: the theme is followed, nothing is wider than the page, nothing wrong for accessibility.
 *
 * @param within what is looked at for accessibility; the whole page where absent
 * @param also asked in each look, first
 */
export async function expectSound(
  page: Page,
  looks: readonly Look[],
  within?: string,
  also?: (look: Look) => Promise<void>,
): Promise<void> {
  for (const [i, look] of looks.entries())
    await test.step(`${look.width} px, ${look.theme}`, async () => {
      await takeOn(page, look)
      await expect(page.locator('html')).toHaveAttribute('data-theme', look.theme)
      await also?.(look)
      const axe = new AxeBuilder({ page }).options({ resultTypes: ['violations'] })
      if (within !== undefined) axe.include(within)
      if (looks.slice(0, i).some(({ width }) => width === look.width)) axe.withRules(rulesOfColour)
      const { violations } = await axe.analyze()
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([])
      expect(await widerBy(page), 'px wider than the page').toBeLessThanOrEqual(0)
    })
}
