import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { unzipSync } from 'fflate'
import { expect, keptPlan, listOfDays, pin, test, visit } from './page'

const saying = (page: Page, sentence: RegExp) => page.getByRole('status').filter({ hasText: sentence })

/** That it is said why nothing is kept, that the day can be edited all the same, and saved as a file with the edit. */
async function expectUsable(page: Page, sentence: RegExp): Promise<void> {
  const stop = pin(page, 'Inn at Querrel Sands')
  const before = Number(await stop.getAttribute('aria-valuenow'))
  await stop.focus()
  await page.keyboard.press('ArrowRight')
  await expect(stop).toHaveAttribute('aria-valuenow', String(before + 100))
  const said = saying(page, sentence)
  await expect(said).toBeVisible()
  const saving = page.waitForEvent('download')
  await said.getByRole('button', { name: 'Save the day as a file' }).click()
  const files = unzipSync(await readFile(await (await saving).path()))
  const day = JSON.parse(Buffer.from(files['day.json']!).toString()) as { plan: { stops: { distance: number }[] } }
  expect(day.plan.stops[0]!.distance).toBe(before + 100)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(stop).toHaveAttribute('aria-valuenow', String(before))
  await expect(said).toBeVisible()
}

test('storage that is full is said until there is room again', async ({ page }) => {
  await page.addInitScript(() => {
    const { put } = IDBObjectStore.prototype
    IDBObjectStore.prototype.put = function (...args) {
      if (document.documentElement.dataset.full === 'yes') throw new DOMException('full', 'QuotaExceededError')
      return put.apply(this, args)
    }
  })
  await visit(page)
  await page.evaluate(() => (document.documentElement.dataset.full = 'yes'))
  await expectUsable(page, /storage is full/)
  await page.evaluate(() => delete document.documentElement.dataset.full)
  await pin(page, 'Inn at Querrel Sands').focus()
  await page.keyboard.press('Shift+ArrowRight')
  await expect(saying(page, /storage is full/)).toHaveCount(0)
  await expect.poll(() => keptPlan(page)).toContain('"distance": 88140')
})

test('storage that the browser forbids is said', async ({ page }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('denied', 'SecurityError')
    }
  })
  await visit(page)
  await expectUsable(page, /forbids pages to keep anything/)
  await expect(await listOfDays(page)).toContainText('This browser forbids pages to keep anything.')
})

test('storage that never answers is waited for a while only, and said', async ({ page }) => {
  await page.addInitScript(() => {
    const { open } = IDBFactory.prototype
    IDBFactory.prototype.open = function (...args) {
      const request = open.apply(this, args)
      request.addEventListener = () => undefined
      return request
    }
  })
  await visit(page)
  await expectUsable(page, /does not answer/)
})

test('storage that throws is said', async ({ page }) => {
  await page.addInitScript(() => {
    IDBDatabase.prototype.transaction = () => {
      throw new Error('broken')
    }
  })
  await visit(page)
  await expectUsable(page, /storage has failed/)
})

/** A database that stands there before the page is first opened. */
const prepare = async (page: Page, version: number): Promise<void> => {
  await page.goto('./icon.svg')
  await page.evaluate(
    (version) =>
      new Promise<void>((resolve) => {
        const opening = indexedDB.open('wattfare', version)
        opening.onsuccess = () => {
          opening.result.close()
          resolve()
        }
      }),
    version,
  )
}

test('storage without its tables is said', async ({ page }) => {
  await prepare(page, 2)
  await visit(page)
  await expectUsable(page, /storage has failed/)
})

test('storage of a newer version of the program is said and stays as it is', async ({ page }) => {
  await prepare(page, 9)
  await visit(page)
  await expectUsable(page, /newer version of this program/)
  const databases = await page.evaluate(() => indexedDB.databases())
  expect(databases.find(({ name }) => name === 'wattfare')?.version).toBe(9)
})

test('view settings that are spoilt or forbidden are as at first, and the day is kept all the same', async ({
  page,
}) => {
  const spoilt = ['{"units":17,"theme":"pink","sheetOpen":"no","tileAddress":null}', '{"units":', '[1,2]', 'null']
  await visit(page)
  for (const text of spoilt) {
    await page.evaluate((text) => localStorage.setItem('wattfare-view', text), text)
    await visit(page)
    await expect(page.getByRole('region', { name: 'At the pointer' })).toContainText('km/h')
    await expect(page.getByText('What was set for the view')).toBeVisible()
    expect(await page.evaluate(() => localStorage.getItem('wattfare-view-unread'))).toBe(text)
  }
  // Nothing is wrong with a key of another version.
  await page.evaluate(() => localStorage.setItem('wattfare-view', '{"units":"imperial","later":1}'))
  await visit(page)
  await expect(page.getByRole('region', { name: 'At the pointer' })).toContainText('mph')
  await expect(page.getByText('What was set for the view')).toHaveCount(0)
  await page.addInitScript(() =>
    Object.defineProperty(globalThis, 'localStorage', {
      get: () => {
        throw new DOMException('denied', 'SecurityError')
      },
    }),
  )
  await visit(page)
  await pin(page, 'Inn at Querrel Sands').focus()
  await page.keyboard.press('ArrowRight')
  await expect.poll(() => keptPlan(page)).toContain('"distance": 87240')
})
