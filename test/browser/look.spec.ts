import type { JSHandle } from '@playwright/test'
import { expectSound, takeOn } from './looks'
import { answer, dragBy, dragByFinger, expect, phone, pin, profile, test, visit } from './page'

test('on a desk, a phone and a narrow one, light and dark: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  const sizes = [
    [390, 844],
    [360, 640],
    [1440, 900],
  ] as const
  const looks = sizes.flatMap(([width, height]) =>
    (['light', 'dark'] as const).map((theme) => ({ theme, width, height })),
  )
  await takeOn(page, looks[0]!)
  await visit(page)
  await expectSound(page, looks, undefined, () => expect(pin(page, 'Inn at Querrel Sands')).toBeVisible())
})

test('touch: a tap on the profile pins, a finger drags the pin', async ({ browser, baseURL }) => {
  const context = await phone(browser, baseURL)
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
  await dragByFinger(page, stop, -120)
  await expect.poll(async () => Number(await stop.getAttribute('aria-valuenow'))).toBeLessThan(before - 20_000)
  expect(await answer(page).textContent()).not.toBe(answerBefore)
  await context.close()
})

for (const [name, where] of [
  ['ribbon', 'section[aria-label="Profile"] canvas'],
  ['map', 'canvas.route'],
] as const)
  test(`what a drag draws of the ${name} is what drawing all of it anew gives`, async ({ page }) => {
    const drawn = () =>
      page
        .locator(where)
        .evaluateHandle(
          (canvas: HTMLCanvasElement) =>
            canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height).data as Uint8ClampedArray,
        )
    /** Two classes differ by more; an edge between the darkest colour and white is rounded by a sixteenth differently where it is cut. */
    const edge = 16
    /** How many colours differ as seen on black. */
    const differing = async (one: JSHandle<Uint8ClampedArray>) =>
      page.evaluate(
        ([one, other, edge]) => {
          const seen = (data: Uint8ClampedArray, i: number) => (data[i]! * data[i | 3]!) / 255
          let count = 0
          for (let i = 0; i < one.length; i++)
            if (i % 4 !== 3 && Math.abs(seen(one, i) - seen(other, i)) > edge) count++
          return count
        },
        [one, await drawn(), edge] as const,
      )
    await page.emulateMedia({ colorScheme: 'light' })
    await visit(page)
    await page.getByRole('button', { name: 'Charge left' }).click()
    const before = await drawn()
    await dragBy(page, pin(page, /Inn/), 137)
    await expect.poll(() => differing(before)).toBeGreaterThan(1000)
    // Shades follow the drag every few frames, and when it rests.
    const changes = async () => {
      const now = await drawn()
      await page.waitForTimeout(300)
      return differing(now)
    }
    await expect.poll(changes, 'whether it is at rest').toBe(0)
    const changed = await differing(before)
    const dragged = await drawn()
    await page.emulateMedia({ colorScheme: 'dark' })
    await expect.poll(() => differing(dragged)).toBeGreaterThan(1000)
    await page.emulateMedia({ colorScheme: 'light' })
    await expect.poll(() => differing(dragged)).toBeLessThan(changed / 20)
  })
