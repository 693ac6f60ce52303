import { fullestDay } from '../fullest'
import { answer, expect, legTable, map, mapPin, pin, test, visit } from './page'

test('of the fullest day the page shows a bounded part, each stop, and the rest where it is asked for', async ({
  page,
}) => {
  await visit(page)
  await page
    .getByLabel('Route file')
    .setInputFiles({ name: 'fullest.wattfare', mimeType: 'application/zip', buffer: Buffer.from(fullestDay()) })
  await expect(page.locator('header .route')).toHaveText('Fullest day', { timeout: 60_000 })
  await expect(answer(page)).toContainText('charge')

  const waypoints = map(page).locator('.sign.waypoint')
  const names = () => waypoints.evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''))
  await expect.poll(() => waypoints.count()).toBeGreaterThan(10)
  expect(await waypoints.count()).toBeLessThan(300)
  await expect(mapPin(page, /^Stop /)).toHaveCount(100)
  await expect(pin(page, /^Stop /)).toHaveCount(100)
  await expect(legTable(page).getByRole('row')).toHaveCount(8 + 2)
  await page.getByRole('button', { name: 'Show 142 more' }).click()
  await expect(legTable(page).getByRole('row')).toHaveCount(150 + 2)
  expect(await page.locator('*').count()).toBeLessThan(12_000)

  // No flag lies on another; of one that is left out the pin stands, and the keyboard has it hang.
  const hung = () =>
    pin(page, /^Stop /).evaluateAll((all) =>
      all
        .filter((one) => getComputedStyle(one).backgroundColor !== 'rgba(0, 0, 0, 0)')
        .map((one) => ({ name: one.textContent?.trim(), box: one.getBoundingClientRect() })),
    )
  const flags = await hung()
  expect(flags.length).toBeGreaterThan(3)
  for (const [i, { box }] of flags.entries())
    for (const { box: other } of flags.slice(i + 1))
      expect(
        box.right <= other.left || other.right <= box.left || box.bottom <= other.top || other.bottom <= box.top,
      ).toBe(true)
  expect(flags.map(({ name }) => name)).not.toContainEqual(expect.stringMatching(/^Stop 40 /))
  await pin(page, /^Stop 40 /).focus()
  expect((await hung()).map(({ name }) => name)).toContainEqual(expect.stringMatching(/^Stop 40 /))

  // Nearer, others come, and those that were there go.
  const far = await names()
  await page.getByRole('button', { name: 'Leg 75, show on the map' }).click()
  await expect.poll(async () => (await names()).filter((name) => !far.includes(name)).length).toBeGreaterThan(3)
  expect(await waypoints.count()).toBeLessThan(300)
  await expect(mapPin(page, /^Stop /)).toHaveCount(100)

  await page.getByRole('button', { name: 'Show 150 more' }).click()
  await expect(legTable(page).getByRole('row')).toHaveCount(300 + 2)

  // An edit is answered as on any day.
  const stop = pin(page, /^Stop 40 /)
  const before = Number(await stop.getAttribute('aria-valuenow'))
  await stop.focus()
  await page.keyboard.press('ArrowRight')
  await expect(stop).toHaveAttribute('aria-valuenow', String(before + 100))
})
