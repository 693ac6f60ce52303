import { AxeBuilder } from '@axe-core/playwright'
import { answer, expect, sheet, test, unfold, visit } from './page'

test('a field opens the documentation at its formula, in a tab of its own; until then nothing of it is fetched', async ({
  page,
}) => {
  const fetched: string[] = []
  page.on('request', (request) => fetched.push(request.url()))
  await visit(page)
  await expect(answer(page)).toBeVisible()
  await unfold(page, 'Bike')
  await sheet(page).getByRole('button', { name: 'Drag area (CdA)' }).click()
  const link = sheet(page).getByRole('link', { name: 'How this is worked out' })
  const [tab] = await Promise.all([page.context().waitForEvent('page'), link.click()])
  await expect(tab.getByRole('heading', { name: 'Drag of the air' })).toBeInViewport()
  expect(new URL(tab.url()).hash).toBe('#air')
  expect(fetched.filter((url) => url.includes('/docs/'))).toEqual([])
})

test('the documentation on a desk and a phone, light and dark: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  await page.goto('docs/index.html')
  const links = page.getByRole('navigation').getByRole('link')
  const names = await links.allTextContents()
  expect(names.length).toBe(7)
  for (const name of names) {
    await links.filter({ hasText: name }).click()
    // A click does not wait for the page that it opens, nor for its style sheet.
    await expect(links.filter({ hasText: name })).toHaveAttribute('aria-current', 'page')
    await page.waitForLoadState()
    for (const width of [1440, 390, 320]) {
      await page.setViewportSize({ width, height: 844 })
      expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name}, ${width} px`).toBe(width)
    }
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      const { violations } = await new AxeBuilder({ page }).analyze()
      expect(violations.map(({ id, nodes }) => `${name}, ${colorScheme}, ${id}: ${nodes[0]!.html}`)).toEqual([])
    }
  }
})
