import type { Page } from '@playwright/test'
import { answer, expect, goTo, legTable, profile, sheet, test, visit } from './page'

const bar = (page: Page) => page.getByRole('navigation', { name: 'Parts of the page' })
const section = (page: Page, name: string) => page.getByRole('heading', { level: 2, name })
const scrolled = (page: Page) => page.evaluate(() => Math.round(scrollY))

test('one section at a time, each with its address and where it was scrolled to, by the browser’s back and forward too', async ({
  page,
}) => {
  await visit(page)
  await expect(legTable(page)).toBeAttached()
  await expect(bar(page)).toBeInViewport({ ratio: 1 })
  await goTo(page, 'The day')
  expect(new URL(page.url()).hash).toBe('#day')
  const day = page.getByRole('region', { name: 'Timetable of the day' })
  await expect(day).toBeInViewport()
  await expect(legTable(page)).toHaveCount(0)
  await expect(answer(page)).not.toBeInViewport()
  await expect(page.getByRole('link', { name: /^Lasts: 15 % left, finish 15:04/ })).toBeInViewport({ ratio: 1 })

  await page.getByText('Wind over the route').scrollIntoViewIfNeeded()
  await page.evaluate(() => scrollBy(0, 333))
  const at = await scrolled(page)
  await goTo(page, 'Charging')
  await expect(section(page, 'Charging')).toBeInViewport()
  await expect(day).toHaveCount(0)
  await page.goBack()
  await expect(day).toHaveCount(1)
  await expect(section(page, 'The day')).toBeFocused()
  await expect.poll(() => scrolled(page)).toBe(at)
  await page.goForward()
  await expect(section(page, 'Charging')).toBeFocused()
  await expect(section(page, 'Charging')).toBeInViewport()
  await page.goBack()
  await page.goBack()
  await expect(answer(page)).toBeInViewport()
  await expect.poll(() => scrolled(page)).toBe(0)

  await page.goto('./#kit')
  await page.reload()
  await expect(section(page, 'What comes along')).toBeFocused()
  await expect(section(page, 'What comes along')).toBeInViewport()
  await page.getByRole('link', { name: /^Lasts/ }).press('Enter')
  await expect(answer(page)).toBeFocused()
  await expect(answer(page)).toBeInViewport()
  await expect(page.getByRole('link', { name: /^Lasts/ })).toHaveCount(0)
})

test('on a phone the plan is two of the sections, the bar at the foot, the answer in one line on top', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 })
  await visit(page)
  await expect(sheet(page).getByLabel('Start')).toBeAttached()
  const box = (await bar(page).boundingBox())!
  expect(box.y + box.height).toBe(844)
  await goTo(page, 'Rider and bike')
  await expect(sheet(page).getByRole('heading', { name: 'Bike', exact: true })).toBeInViewport()
  await expect(sheet(page).getByLabel('Start')).toHaveCount(0)
  const verdict = page.getByRole('link', { name: /^Lasts/ })
  await expect(verdict).toBeInViewport({ ratio: 1 })
  expect((await verdict.boundingBox())!.y).toBe(0)
  await expect(bar(page)).toBeInViewport({ ratio: 1 })
  await goTo(page, 'What comes along')
  await expect(sheet(page)).toHaveCount(0)
  // The name of what is shown is in view, and all of the bar can be reached.
  await expect(bar(page).getByRole('link', { name: 'What comes along' })).toBeInViewport({ ratio: 0.9 })
  await verdict.click()
  await expect(answer(page)).toBeInViewport({ ratio: 1 })
  await expect(profile(page)).toBeAttached()
})

test('by the keyboard the answer, the plan and the section are a link away; a stop leads to its sources and back', async ({
  page,
}) => {
  await visit(page)
  await page.keyboard.press('Tab')
  const skip = page.getByRole('navigation', { name: 'Skip to' })
  await expect(skip.getByRole('link', { name: 'To the answer' })).toBeFocused()
  await expect(skip.getByRole('link', { name: 'To the answer' })).toBeInViewport()
  await page.keyboard.press('Enter')
  await expect(answer(page)).toBeFocused()
  await skip.getByRole('link', { name: 'To the plan' }).press('Enter')
  await expect(sheet(page).getByRole('link', { name: 'This day’s plan' })).toBeFocused()
  await skip.getByRole('link', { name: 'To the section below' }).press('Enter')
  await expect(section(page, 'The ride')).toBeFocused()

  await skip.getByRole('link', { name: 'To the plan' }).press('Enter')
  await sheet(page).getByRole('link', { name: 'Sources and packs' }).click()
  await expect(sheet(page).getByText(/^2\spacks, \d+\sWh of 1,001 when new$/)).toBeVisible()
  await page.goBack()
  await expect(sheet(page).getByRole('link', { name: 'Sources and packs' })).toBeVisible()
})
