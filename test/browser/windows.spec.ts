import type { Page } from '@playwright/test'
import { answer, expect, keptDay, keptPlan, listOfDays, pin, sheet, test, visit } from './page'

const inn = (page: Page) => pin(page, 'Inn at Querrel Sands')
const at = (page: Page, distance: number) => expect(inn(page)).toHaveAttribute('aria-valuenow', String(distance))
const line = (page: Page) => page.getByText('This day is open in another window')

async function nudge(page: Page, key = 'ArrowRight'): Promise<void> {
  await inn(page).focus()
  await page.keyboard.press(key)
}

test('two windows: one holds the day, the other follows and takes it over; no edit is lost or mixed', async ({
  page,
  context,
}) => {
  await visit(page)
  await nudge(page)
  await at(page, 87_240)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 87240')

  const other = await context.newPage()
  await visit(other)
  await expect(line(other)).toBeVisible()
  await at(other, 87_240)
  await nudge(page)
  await at(page, 87_340)
  await at(other, 87_340)
  expect(await answer(other).textContent()).toBe(await answer(page).textContent())

  // What is only shown can't be changed: not by its pins, nor by its fields, nor by undo.
  await nudge(other)
  await other.keyboard.press('Control+z')
  await expect(sheet(other)).toHaveAttribute('inert')
  await at(other, 87_340)
  await at(page, 87_340)

  await other.getByRole('button', { name: 'Take it over' }).click()
  await expect(line(other)).toHaveCount(0)
  await expect(line(page)).toBeVisible()
  await nudge(other)
  await at(other, 87_440)
  await at(page, 87_440)
  await nudge(page)
  await at(page, 87_440)
  // Steps of the first window are undone in the second.
  for (const distance of [87_340, 87_240, 87_140]) {
    await other.getByRole('button', { name: 'Undo' }).click()
    await at(other, distance)
    await at(page, distance)
  }
  await other.getByRole('button', { name: 'Redo' }).click()
  await at(page, 87_240)

  // With the other closed the day is this one's again, as it was left there.
  await other.close()
  await expect(line(page)).toHaveCount(0)
  await nudge(page, 'Shift+ArrowRight')
  await at(page, 88_240)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 88240')
})

test('of three windows the one that asks has the day, and each of the others after it', async ({ page, context }) => {
  await visit(page)
  await nudge(page)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 87240')
  const [second, third] = [await context.newPage(), await context.newPage()]
  for (const other of [second, third]) {
    await visit(other)
    await expect(line(other)).toBeVisible()
  }
  /** Whose it is can change it, and both others see it. */
  const has = async (owner: Page, others: readonly Page[], distance: number) => {
    await expect(line(owner)).toHaveCount(0)
    for (const other of others) await expect(line(other)).toBeVisible()
    await nudge(owner)
    for (const one of [owner, ...others]) await at(one, distance)
  }
  const takeOver = (window: Page) => window.getByRole('button', { name: 'Take it over' }).click()
  await has(page, [second, third], 87_340)
  await takeOver(third)
  await has(third, [page, second], 87_440)
  await takeOver(page)
  await has(page, [second, third], 87_540)
  await takeOver(second)
  await has(second, [page, third], 87_640)
  await expect.poll(() => keptPlan(second)).toContain('"distance": 87640')
  // Closed, it is one of the others’.
  await second.close()
  await expect.poll(async () => (await line(page).count()) + (await line(third).count())).toBe(1)
  const [owner, other] = (await line(page).count()) === 0 ? [page, third] : [third, page]
  await has(owner, [other], 87_740)
})

test('a day that another window has is not deleted or renamed under it; another day is each window’s own', async ({
  page,
  context,
}) => {
  await visit(page)
  await nudge(page)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 87240')
  const { id } = (await keptDay(page))!
  const other = await context.newPage()
  await visit(other)
  await other.getByText('Samples', { exact: true }).click()
  await other.getByRole('button', { name: /Two passes/ }).click()
  await expect(other.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await expect(line(other)).toHaveCount(0)
  const list = await listOfDays(other)
  await list.getByRole('button', { name: /^Delete: Two islands/ }).click()
  await expect(list.getByRole('alert')).toHaveText('This day is open in another window: nothing was changed.')
  await expect(list.getByRole('listitem')).toHaveCount(1)
  await nudge(page)
  await expect.poll(async () => JSON.stringify((await keptDay(page))?.plan)).toContain('87340')
  expect((await keptDay(page))!.id).toBe(id)
})

test('where the browser has no locks a window works as if it were alone', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(navigator, 'locks', { value: undefined })
    Object.assign(globalThis, { BroadcastChannel: undefined })
    delete (globalThis as { BroadcastChannel?: unknown }).BroadcastChannel
  })
  await visit(page)
  await nudge(page)
  await at(page, 87_240)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 87240')
  await page.reload()
  await at(page, 87_240)
  await expect(line(page)).toHaveCount(0)
})

test('a browser that grants the lock late takes back nothing of what was done meanwhile', async ({ page }) => {
  await page.addInitScript(() => {
    const { request } = LockManager.prototype
    LockManager.prototype.request = async function (this: LockManager, ...args: unknown[]) {
      await new Promise((resolve) => setTimeout(resolve, 1500))
      document.documentElement.dataset.asked = String(Number(document.documentElement.dataset.asked ?? 0) + 1)
      return Reflect.apply(request, this, args) as Promise<unknown>
    } as typeof request
  })
  await visit(page)
  await nudge(page)
  await at(page, 87_240)
  await expect(page.locator('html')).toHaveAttribute('data-asked', '1')
  await nudge(page)
  await at(page, 87_340)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 87340')
  await page.getByRole('button', { name: 'Undo' }).click()
  await page.getByRole('button', { name: 'Undo' }).click()
  await at(page, 87_140)
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled()
  await page.getByRole('button', { name: 'Redo' }).click()
  await at(page, 87_240)
})
