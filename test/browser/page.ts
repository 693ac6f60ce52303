import { readFileSync } from 'node:fs'
import { expect, test as base, type Locator, type Page } from '@playwright/test'

/** A page that fails its test where the program logs an error, throws, or breaks the content security policy. */
export const test = base.extend({
  page: async ({ page }, use) => {
    const faults: string[] = []
    page.on('pageerror', (error) => faults.push(error.message))
    page.on('console', (message) => {
      if (message.type() === 'error' && !/net::ERR_|Failed to load resource/.test(message.text()))
        faults.push(message.text())
    })
    await use(page)
    expect(faults, 'faults logged by the page').toEqual([])
  },
})
export { expect }

export const sampleFile = (name: string): Buffer =>
  readFileSync(new URL(`../../sample-routes/${name}`, import.meta.url))

export const answer = (page: Page): Locator => page.getByRole('heading', { level: 1 })
export const profile = (page: Page): Locator => page.getByRole('region', { name: 'Profile' })
export const pin = (page: Page, name: string | RegExp): Locator => profile(page).getByRole('slider', { name })
export const sheet = (page: Page): Locator => page.getByRole('complementary', { name: 'Plan' })

/** Opens the page and waits for an answer. */
export async function visit(page: Page): Promise<void> {
  await page.goto('./')
  await expect(answer(page)).toContainText('charge')
}

/** Drops a file on the page as the browser tells it: enter, over, drop. */
export async function drop(page: Page, name: string, bytes: Buffer): Promise<void> {
  const data = await page.evaluateHandle(
    ([name, base64]) => {
      const transfer = new DataTransfer()
      transfer.items.add(new File([Uint8Array.from(atob(base64!), (c) => c.charCodeAt(0))], name!))
      return transfer
    },
    [name, bytes.toString('base64')],
  )
  for (const type of ['dragenter', 'dragover', 'drop']) await page.dispatchEvent('body', type, { dataTransfer: data })
}

/** The middle of an element, in page coordinates. */
export async function middle(locator: Locator): Promise<{ x: number; y: number }> {
  await locator.scrollIntoViewIfNeeded()
  const box = (await locator.boundingBox())!
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}

/** Drags with the mouse in steps. */
export async function dragBy(page: Page, locator: Locator, dx: number, dy = 0): Promise<void> {
  const { x, y } = await middle(locator)
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= 10; i++) await page.mouse.move(x + (dx * i) / 10, y + (dy * i) / 10)
}
