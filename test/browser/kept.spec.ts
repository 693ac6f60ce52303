import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { answer, expect, kept, pin, sheet, test, visit } from './page'

/** Puts a half of what the browser keeps, as another build or a fault may have left it. */
const put = (page: Page, half: 'file' | 'plan', value: unknown) =>
  page.evaluate(
    async ([half, value]) => {
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open('wattfare')
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(new Error('no database'))
      })
      await new Promise((resolve) => {
        const transaction = database.transaction('desk', 'readwrite')
        transaction.objectStore('desk').put(value, half as string)
        transaction.oncomplete = resolve
      })
      database.close()
    },
    [half, value] as const,
  )

const notice = (page: Page) => page.getByRole('complementary', { name: 'Notices' })

/** What the menu gives under a name. */
async function saved(page: Page, name: RegExp): Promise<{ fileName: string; text: string }> {
  await page.getByText('Plan file', { exact: true }).click()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name }).click()
  const file = await download
  return { fileName: file.suggestedFilename(), text: await readFile(await file.path(), 'utf8') }
}

test('a plan that this build cannot read is set aside untouched, said, and to be saved, however much is done meanwhile', async ({
  page,
}) => {
  await visit(page)
  await expect.poll(() => kept(page, 'plan')).toBeTruthy()
  const newer = JSON.stringify({ ...JSON.parse(String(await kept(page, 'plan'))), version: 99 })
  await put(page, 'plan', newer)
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(notice(page)).toContainText('stands untouched under Plan file')
  await notice(page).getByRole('button', { name: 'Close' }).click()
  await sheet(page).getByText('Rider', { exact: true }).click()
  await sheet(page)
    .getByRole('textbox', { name: /^Steady power/ })
    .fill('101')
  await page.keyboard.press('Enter')
  await expect.poll(async () => JSON.parse(String(await kept(page, 'plan'))).rider.power).toBe(101)
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(notice(page)).toHaveCount(0)
  expect((await saved(page, /^Save the plan set aside on/)).text).toBe(newer)
})

test('a kept route that cannot be opened is set aside too, and the app goes on', async ({ page }) => {
  await visit(page)
  await expect.poll(() => kept(page, 'file')).toBeTruthy()
  const bytes = new TextEncoder().encode('<gpx><trk>')
  await page.evaluate(
    (list) => ((globalThis as unknown as { spoilt: Uint8Array }).spoilt = Uint8Array.from(list)),
    [...bytes],
  )
  await page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('wattfare')
      request.onsuccess = () => resolve(request.result)
    })
    const { spoilt } = globalThis as unknown as { spoilt: Uint8Array }
    await new Promise((resolve) => {
      const transaction = database.transaction('desk', 'readwrite')
      const choice = { line: 'proposed', riddenGaps: [] }
      transaction.objectStore('desk').put({ bytes: spoilt, fileName: 'my ride.gpx', choice }, 'file')
      transaction.oncomplete = resolve
    })
    database.close()
  })
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(notice(page)).toContainText('The route of your last visit')
  await notice(page).getByRole('button', { name: 'Close' }).click()
  expect(await saved(page, /^Save the route set aside on/)).toEqual({ fileName: 'my ride.gpx', text: '<gpx><trk>' })
})

test('a half that is missing is said, and the other half is used or stands aside', async ({ page }) => {
  await visit(page)
  await expect.poll(() => kept(page, 'plan')).toBeTruthy()
  await put(page, 'plan', 17)
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(notice(page)).toContainText('damaged')
  await notice(page).getByRole('button', { name: 'Close' }).click()
  expect((await saved(page, /^Save the plan set aside on/)).text).toBe('17')
})

test('what is typed when the page is left counts, and an edit is kept at once', async ({ page, context }) => {
  await visit(page)
  await sheet(page).getByText('Rider', { exact: true }).click()
  await sheet(page)
    .getByRole('textbox', { name: /^Steady power/ })
    .fill('97')
  await page.goto('about:blank')
  const again = await context.newPage()
  await again.goto('./')
  await expect(answer(again)).toContainText('charge')
  expect(JSON.parse(String(await kept(again, 'plan'))).rider.power).toBe(97)
  await pin(again, /Inn/).focus()
  const before = JSON.parse(String(await kept(again, 'plan'))).stops[0].distance
  await again.keyboard.press('ArrowRight')
  await again.close()
  const last = await context.newPage()
  await last.goto('./')
  await expect(answer(last)).toContainText('charge')
  expect(JSON.parse(String(await kept(last, 'plan'))).stops[0].distance).toBe(before + 100)
})
