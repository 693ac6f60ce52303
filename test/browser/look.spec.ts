import AxeBuilder from '@axe-core/playwright'
import { answer, dragBy, expect, pin, profile, test, visit } from './page'

for (const theme of ['light', 'dark'] as const)
  for (const [name, width, height] of [
    ['desk', 1440, 900],
    ['phone', 390, 844],
    ['narrow', 360, 640],
  ] as const)
    test(`${name}, ${theme}: nothing serious for accessibility, nothing wider than the page`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: theme })
      await page.setViewportSize({ width, height })
      await visit(page)
      await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
      expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe(theme)
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      )
      expect(wide, 'px wider than the page').toBeLessThanOrEqual(0)
      const { violations } = await new AxeBuilder({ page }).analyze()
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([])
    })

test('touch: a tap on the profile pins, a finger drags the pin', async ({ browser, baseURL }) => {
  const context = await browser.newContext({
    ...(baseURL === undefined ? {} : { baseURL }),
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  })
  const page = await context.newPage()
  await visit(page)
  const chart = profile(page).locator('canvas')
  await chart.scrollIntoViewIfNeeded()
  const box = (await chart.boundingBox())!
  await page.touchscreen.tap(box.x + box.width * 0.75, box.y + box.height * 0.6)
  const stop = pin(page, 'Stop 2')
  await expect(stop).toBeVisible()
  const before = Number(await stop.getAttribute('aria-valuenow'))
  const answerBefore = await answer(page).textContent()
  const session = await context.newCDPSession(page)
  const at = (await stop.boundingBox())!
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', dx: number) =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: type === 'touchEnd' ? [] : [{ x: at.x + at.width / 2 + dx, y: at.y + at.height / 2 }],
    })
  await touch('touchStart', 0)
  for (let dx = 10; dx <= 120; dx += 10) await touch('touchMove', -dx)
  await touch('touchEnd', 0)
  await expect.poll(async () => Number(await stop.getAttribute('aria-valuenow'))).toBeLessThan(before - 20_000)
  expect(await answer(page).textContent()).not.toBe(answerBefore)
  await context.close()
})

test('what a drag draws of the ribbon is what drawing all of it anew gives', async ({ page }) => {
  const drawn = () =>
    profile(page)
      .locator('canvas')
      .evaluate((canvas: HTMLCanvasElement) =>
        Array.from(
          new Uint32Array(canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height).data.buffer),
        ),
      )
  /** Pixels that differ: edges between two colours are rounded differently where they are cut. */
  const differing = (one: number[], other: number[]) => one.filter((pixel, i) => pixel !== other[i]).length
  await page.emulateMedia({ colorScheme: 'light' })
  await visit(page)
  const before = await drawn()
  await dragBy(page, pin(page, /Inn/), 137)
  const dragged = await drawn()
  expect(differing(before, dragged)).toBeGreaterThan(400)
  await page.emulateMedia({ colorScheme: 'dark' })
  await expect.poll(async () => differing(await drawn(), dragged)).toBeGreaterThan(10_000)
  await page.emulateMedia({ colorScheme: 'light' })
  await expect.poll(async () => differing(await drawn(), dragged)).toBeLessThan(200)
})
