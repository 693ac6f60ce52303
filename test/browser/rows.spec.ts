import { answer, expect, map, phone, test, visit } from './page'

test('on a phone each menu opens within the page; one finger is the page’s over the map, two make the map larger', async ({
  browser,
  baseURL,
}) => {
  const context = await phone(browser, baseURL)
  const page = await context.newPage()
  await visit(page)
  for (const name of ['Samples', 'Plan file', 'View']) {
    const menu = page.locator('details', { has: page.locator('summary', { hasText: name }) })
    await menu.locator('summary').click()
    const box = (await menu.locator('.list').boundingBox())!
    expect(box.x, name).toBeGreaterThanOrEqual(0)
    expect(box.x + box.width, name).toBeLessThanOrEqual(390)
    await page.keyboard.press('Escape')
    await expect(menu.locator('.list')).toBeHidden()
  }

  await expect(answer(page)).toBeVisible()
  await map(page).locator('.leaflet-container').scrollIntoViewIfNeeded()
  const box = (await map(page).locator('.leaflet-container').boundingBox())!
  const [x, y] = [box.x + box.width * 0.6, box.y + box.height / 2]
  const scale = () => map(page).locator('.leaflet-control-scale-line').textContent()
  const scrolled = () => page.evaluate(() => Math.round(scrollY))
  const [before, top] = [await scale(), await scrolled()]
  const session = await context.newCDPSession(page)
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: points })
  const swipe = async (at: (step: number) => { x: number; y: number }[]) => {
    await touch('touchStart', at(0))
    for (let k = 1; k <= 10; k++) await touch('touchMove', at(k / 10))
    await touch('touchEnd', [])
  }
  const canvas = map(page).locator('.leaflet-container')
  await expect(canvas, 'one finger is the page’s').toHaveCSS('touch-action', 'pan-x pan-y')
  await swipe((step) => [
    { x: x - 15 - 60 * step, y },
    { x: x + 15 + 60 * step, y },
  ])
  await expect.poll(scale).not.toBe(before)
  expect(await scrolled()).toBe(top)
  await context.close()
})

test('where the system sets the colours the shading keeps its own, the worst the strongest', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active' })
  await visit(page)
  const contrasts = await page.locator('.legend li:not(.rest) .swatch').evaluateAll((list) => {
    const light = (colour: string) => {
      const parts = colour
        .match(/[\d.]+/g)!
        .slice(0, 3)
        .map((part) => Number(part) / 255)
      const [r, g, b] = parts.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
      return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
    }
    const ground = light(getComputedStyle(document.body).backgroundColor)
    return list.map((it) => {
      const own = light(getComputedStyle(it).backgroundColor)
      return (Math.max(own, ground) + 0.05) / (Math.min(own, ground) + 0.05)
    })
  })
  expect(contrasts.length).toBeGreaterThan(4)
  expect(contrasts).toEqual(contrasts.toSorted((a, b) => a - b))
  expect(contrasts.at(-1)).toBeGreaterThan(7)
})

test('while the hands rest one line of the story says what to take along, and leads to all of it', async ({ page }) => {
  await visit(page)
  const line = page.getByRole('link', { name: /^With \d packs.*sooner than your plan/ })
  await expect(line).toBeVisible({ timeout: 90_000 })
  const said = (await line.textContent())!.match(/\d packs?/)![0]
  await line.click()
  await expect(page.getByRole('region', { name: 'What to take along' })).toContainText(`${said}: `)
})
