import AxeBuilder from '@axe-core/playwright'
import { expect, goTo, mapPin, pin, profile, sections, test, turnTo, visit } from './page'

/** Sections that no test of their own looks at in the dark. */
const unseenInDark = new Set<string>(['The ride', 'On the road', 'Side by side'])

// WCAG 2.2, 2.5.8: 24 by 24 CSS px, or as much room around the middle of what is smaller.
for (const [width, height] of [
  [1440, 900],
  [390, 844],
] as const)
  test(`at ${width} px all that can be pressed has room for a finger, with all unfolded, pins and handles too`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await visit(page)
    await goTo(page, 'What comes along')
    await page.getByRole('button', { name: 'Start with an example list' }).click()
    await goTo(page, 'Charging')
    await page.getByRole('button', { name: 'Add a carried pack' }).click()
    await profile(page)
      .getByRole('button', { name: /^Pin a stop/ })
      .click()
    await profile(page)
      .getByRole('button', { name: /^Mark a stretch/ })
      .click()
    await expect(pin(page, 'Stop 2')).toBeVisible()
    await expect(mapPin(page, 'Stop 2')).toBeVisible()
    const ends = profile(page).getByRole('slider', { name: /^(Start|End) of/ })
    await expect(ends).toHaveCount(2)
    // As long on the map as on the road: of a short one the ends stand as near to each other as they are (essential), and its fields do as well (equivalent).
    for (let i = 0; i < 45; i++) await ends.last().press('Shift+ArrowRight')

    const tooSmall = async (within: string) => {
      await page.waitForLoadState('networkidle')
      await page.evaluate(() =>
        document.querySelectorAll<HTMLDetailsElement>('main details').forEach((one) => (one.open = true)),
      )
      await expect(page.getByText('One moment.')).toHaveCount(0)
      // A stretch's badge on the map stands between its ends, as near to them as they are (essential); its band and its fields do as well (equivalent).
      const axe = new AxeBuilder({ page }).include(within).exclude('.sign.stretch').withRules('target-size')
      const { violations, passes } = await axe.analyze()
      expect(passes.flatMap(({ nodes }) => nodes).length, 'targets looked at').toBeGreaterThan(2)
      expect(violations.flatMap(({ nodes }) => nodes.map(({ html }) => html.slice(0, 200)))).toEqual([])
    }
    const readInDark = async () => {
      await page.emulateMedia({ colorScheme: 'dark' })
      await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
      const axe = new AxeBuilder({ page }).include('div.below').withRules(['color-contrast', 'link-in-text-block'])
      const { violations } = await axe.analyze()
      expect(violations.flatMap(({ nodes }) => nodes.map(({ html }) => html.slice(0, 200)))).toEqual([])
      await page.emulateMedia({ colorScheme: 'light' })
      await expect(page.locator('html')).toHaveAttribute('data-theme', 'light')
    }
    await test.step('the story and the plan', async () => {
      await tooSmall('body')
      await turnTo(page, 'Rider and bike')
      await tooSmall(width > 960 ? 'aside' : 'div.below')
    })
    for (const section of sections)
      await test.step(section, async () => {
        await goTo(page, section)
        await tooSmall('div.below')
        if (width > 960 && unseenInDark.has(section)) await readInDark()
      })
  })
