import type { Page } from '@playwright/test'
import { answer, dragBy, drop, expect, map, pin, profile, sampleFile, sheet, test, turnTo, visit } from './page'

/** Bottom of the profile's drawing, whose axis is its last line. */
const endOfStory = async (page: Page) => {
  const box = (await profile(page).locator('canvas').boundingBox())!
  return box.y + box.height
}
const scrolled = (page: Page) => page.evaluate(() => Math.round(scrollY))

for (const [width, height] of [
  [1440, 900],
  [1024, 768],
] as const)
  test(`at ${width}×${height} answer, map and profile with its axis stand whole on the first screen`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await visit(page)
    await expect(page.getByRole('region', { name: 'The answer' })).toContainText('such days')
    const foot = (await page.getByRole('navigation', { name: 'Parts of the page' }).boundingBox())!.y
    await expect.poll(() => endOfStory(page)).toBeLessThanOrEqual(foot)
    await expect(answer(page)).toBeInViewport({ ratio: 1 })
    await expect(map(page)).toBeInViewport({ ratio: 1 })
    expect((await map(page).locator('.leaflet-container').boundingBox())!.height).toBeGreaterThan(140)
    // A stop more, whose flag has no room beside that of the first, takes nothing of it.
    await profile(page)
      .getByRole('button', { name: /^Pin a stop/ })
      .click()
    await expect(pin(page, /Stop/)).toHaveCount(1)
    await expect.poll(() => endOfStory(page)).toBeLessThanOrEqual(foot)
    // The plan beside it ends where it does, and each half is at most a screen and a half with all of it shut.
    for (const half of ['This day’s plan', 'Rider and bike'] as const) {
      await turnTo(page, half)
      if (half === 'This day’s plan') await sheet(page).getByRole('heading', { name: 'Stops', exact: true }).click()
      await expect(sheet(page).getByRole('group')).not.toHaveCount(0)
      const box = (await sheet(page).boundingBox())!
      expect(box.y + box.height).toBeLessThanOrEqual(foot)
      expect(
        await sheet(page)
          .locator('.scroll')
          .evaluate((it) => it.scrollHeight),
      ).toBeLessThan(1.5 * height)
    }
  })

test('in a drag nothing of the story moves, also where the answer wraps and what is remarked comes and goes', async ({
  page,
}) => {
  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
    [390, 844],
  ] as const)
    await test.step(`${width}×${height}`, async () => {
      await page.setViewportSize({ width, height })
      await visit(page)
      await expect(page.getByRole('region', { name: 'The answer' })).toContainText('such days')
      const inn = pin(page, 'Inn at Querrel Sands')
      await inn.scrollIntoViewIfNeeded()
      const places = () =>
        page.evaluate(() =>
          ['.leaflet-container', '[aria-label="Profile"] canvas', '[aria-label="At the pointer"]'].map((where) => {
            const { x, y, width, height } = document.querySelector(where)!.getBoundingClientRect()
            return [x, y + scrollY, width, height].map(Math.round)
          }),
        )
      const before = await places()
      const said = await answer(page).textContent()
      await dragBy(page, inn, -0.5 * width)
      await expect(answer(page)).not.toHaveText(said!)
      await expect(answer(page)).toContainText('below your reserve')
      expect(await places()).toEqual(before)
      await page.keyboard.press('Escape')
      await page.mouse.up()
    })
})

test('the page scrolls over the map, which says so once; pressed, or with Ctrl, the wheel zooms it', async ({
  page,
}) => {
  await visit(page)
  const box = (await map(page).locator('.leaflet-container').boundingBox())!
  const water = { x: box.x + box.width - 60, y: box.y + box.height / 2 }
  const scale = () => map(page).locator('.leaflet-control-scale-line').textContent()
  const before = await scale()
  await page.mouse.move(water.x, water.y)
  await page.mouse.wheel(0, 80)
  await expect.poll(() => scrolled(page)).toBe(80)
  await expect(map(page).getByText('Press the map first')).toBeVisible()
  expect(await scale()).toBe(before)
  await page.mouse.wheel(0, -80)
  await expect.poll(() => scrolled(page)).toBe(0)
  await page.getByText('Wattfare', { exact: true }).click()
  await expect(map(page).getByText('Press the map first')).toHaveCount(0)
  await page.mouse.move(water.x, water.y)
  await page.mouse.wheel(0, 30)
  await expect.poll(() => scrolled(page)).toBe(30)
  await expect(map(page).getByText('Press the map first'), 'said once').toHaveCount(0)
  await page.mouse.wheel(0, -30)
  await expect.poll(() => scrolled(page)).toBe(0)

  await page.keyboard.down('Control')
  await page.mouse.wheel(0, -400)
  await page.keyboard.up('Control')
  await expect.poll(scale).not.toBe(before)
  await page.getByRole('button', { name: 'Whole route' }).click()
  await expect.poll(scale).toBe(before)
  await page.mouse.click(water.x, water.y)
  await page.mouse.wheel(0, -400)
  await expect.poll(scale).not.toBe(before)
  expect(await scrolled(page)).toBe(0)
})

test('the route fills the map, also after the plan is folded away', async ({ page }) => {
  await page.route('**/*.png', (route) => route.abort())
  await visit(page)
  await drop(page, 'into-town-18km.gpx', sampleFile('into-town-18km.gpx'))
  await expect(page.getByTitle('into-town-18km.gpx')).toBeVisible()
  /** The larger share of the map’s width or height, whichever the route fills more of. */
  const filled = () =>
    page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('canvas.route')!
      const frame = document.querySelector('.leaflet-container')!.getBoundingClientRect()
      const box = canvas.getBoundingClientRect()
      const { data, width, height } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height)
      let [left, right, top, bottom] = [width, 0, height, 0]
      for (let i = 3; i < data.length; i += 4) {
        if (data[i]! < 128) continue
        const x = ((i - 3) / 4) % width
        const y = Math.floor((i - 3) / 4 / width)
        left = Math.min(left, x)
        right = Math.max(right, x)
        top = Math.min(top, y)
        bottom = Math.max(bottom, y)
      }
      const scale = box.width / width
      return Math.max(((right - left) * scale) / frame.width, ((bottom - top) * scale) / frame.height)
    })
  await page.getByRole('button', { name: 'Whole route' }).click()
  await expect.poll(filled).toBeGreaterThan(0.6)
  const narrow = (await map(page).boundingBox())!.width
  await page.getByRole('button', { name: 'Fold the plan away' }).click()
  await expect.poll(async () => (await map(page).boundingBox())!.width).toBeGreaterThan(narrow + 200)
  await expect.poll(filled).toBeGreaterThan(0.6)
})
