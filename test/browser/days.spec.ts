import type { Page } from '@playwright/test'
import { answer, drop, expect, given, keptDay, listOfDays, pin, sampleFile, sheet, test, unfold, visit } from './page'
import { expectSound } from './looks'

const files = ['into-town-18km.gpx', 'two-passes-62km.gpx'] as const

/** Days of one's own, the last on screen. */
async function withDays(page: Page): Promise<void> {
  await visit(page)
  for (const file of files) {
    await drop(page, file, sampleFile(file))
    await expect(page.getByTitle(file)).toBeVisible()
    await expect.poll(() => keptDay(page)).toMatchObject({ fileName: file })
  }
}

test('days are duplicated, renamed, found by name, opened, and deleted with undo, by keyboard alone', async ({
  page,
}) => {
  await withDays(page)
  await page.getByRole('button', { name: 'Days', exact: true }).press('Enter')
  const list = page.getByRole('dialog', { name: 'Days' })
  const days = list.getByRole('listitem')
  await expect(days).toHaveText([/^Harrun Pass and the Ennock Saddle/, /^Into town for the market/])
  await expect(days.first()).toContainText('on screen')
  await expect(list).toContainText(/stored, of .* that this browser gives/)
  await list.getByRole('button', { name: 'Duplicate: Into town for the market' }).press('Enter')
  await expect(days).toHaveCount(3)
  await list.getByRole('button', { name: 'Rename: Into town for the market, copy' }).press('Enter')
  const name = list.getByLabel('Name of the day')
  await expect(name).toBeFocused()
  await name.fill('Café before noon')
  await name.press('Enter')
  await expect(days.first()).toContainText('Café before noon')
  await list.getByRole('button', { name: 'Rename: Harrun Pass' }).press('Enter')
  await name.fill('Over the passes')
  await name.press('Escape')
  await expect(list).toBeVisible()
  await list.getByRole('button', { name: 'Rename: Harrun Pass' }).press('Enter')
  await name.fill('Over the passes')
  await name.press('Enter')
  await expect(days.filter({ hasText: 'on screen' })).toContainText('Over the passes')
  await list.getByLabel('Search by name').fill('cafe')
  await expect(days).toHaveText([/^Café before noon/])
  await list.getByRole('button', { name: /^Café before noon/ }).press('Enter')
  await expect(list).toHaveCount(0)
  await expect(page.getByTitle('into-town-18km.gpx')).toHaveText('Café before noon')
  await expect(answer(page)).toContainText('charge')

  // Deleted is the one on screen: another comes, and with undo it stands in the list again.
  await page.getByRole('button', { name: 'Days', exact: true }).press('Enter')
  await list.getByRole('button', { name: 'Delete: Café before noon' }).press('Enter')
  await expect(list).toContainText('“Café before noon” is deleted.')
  await expect(days).toHaveCount(2)
  await list.getByRole('button', { name: 'Undo' }).press('Enter')
  await expect(days).toHaveCount(3)
  await list.getByRole('button', { name: /^Café before noon/ }).press('Enter')
  await expect(page.getByTitle('into-town-18km.gpx')).toHaveText('Café before noon')
  await expect.poll(() => keptDay(page)).toMatchObject({ name: 'Café before noon' })
  await page.reload()
  await expect(page.getByTitle('into-town-18km.gpx')).toHaveText('Café before noon')
})

test('a day that is opened is the one on screen from then on, however soon the page is left', async ({ page }) => {
  await withDays(page)
  const list = await listOfDays(page)
  await page.evaluate(() => {
    document.documentElement.dataset.before = 'true'
    new MutationObserver((_, observer) => {
      if (document.querySelector('[title="into-town-18km.gpx"]') === null) return
      observer.disconnect()
      location.reload()
    }).observe(document, { subtree: true, attributes: true, childList: true })
  })
  await list.getByRole('button', { name: /^Into town for the market/ }).click()
  await expect(page.locator('html')).not.toHaveAttribute('data-before')
  await expect(answer(page)).toContainText('charge')
  await expect(page.getByTitle('into-town-18km.gpx')).toBeVisible()
})

test('with the last day deleted a sample stands on screen, and the list says how a day comes about', async ({
  page,
}) => {
  await withDays(page)
  const list = await listOfDays(page)
  for (let left = files.length; left > 0; left--) {
    await expect(list.getByRole('listitem')).toHaveCount(left)
    await list
      .getByRole('button', { name: /^Delete: / })
      .first()
      .click()
  }
  await expect(list).toContainText('No day of your own yet.')
  await page.keyboard.press('Escape')
  await expect(list).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Days', exact: true })).toBeFocused()
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await page.reload()
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
})

test('a day goes out as one file and comes back elsewhere whole, dropped or chosen', async ({ page, context }) => {
  await visit(page)
  await unfold(page, 'Weather')
  await sheet(page).getByLabel(/^Wind/).first().fill('0')
  await sheet(page).getByLabel(/^Wind/).first().press('Enter')
  const calm = await answer(page).textContent()
  const list = await listOfDays(page)
  const file = await given(page, () => list.getByRole('button', { name: /^Save as a file: Two islands/ }).click())
  expect(file.fileName).toBe('Two islands in a day.wattfare')
  await page.keyboard.press('Escape')

  const other = await context.browser()!.newContext()
  const elsewhere = await other.newPage()
  await visit(elsewhere)
  await expect(answer(elsewhere)).not.toHaveText(calm!)
  await drop(elsewhere, file.fileName, file.bytes)
  await expect(answer(elsewhere)).toHaveText(calm!)
  await expect(elsewhere.getByTitle('two-islands-165km.gpx')).toBeVisible()
  await expect(pin(elsewhere, 'Inn at Querrel Sands')).toBeVisible()
  await expect.poll(() => keptDay(elsewhere)).toMatchObject({ fileName: 'two-islands-165km.gpx' })
  await elsewhere.reload()
  await expect(answer(elsewhere)).toHaveText(calm!)
  const { id } = (await keptDay(elsewhere))!
  const chooser = elsewhere.waitForEvent('filechooser')
  await (await listOfDays(elsewhere)).getByRole('button', { name: 'Open a day or a route' }).click()
  await (await chooser).setFiles({ name: file.fileName, mimeType: 'application/zip', buffer: file.bytes })
  await expect(elsewhere.getByRole('dialog')).toHaveCount(0)
  await expect.poll(async () => (await keptDay(elsewhere))?.id).not.toBe(id)
  await expect((await listOfDays(elsewhere)).getByRole('listitem')).toHaveCount(2)
  await other.close()
})

test('all days go out as one file and come back; a file that is no day is refused in a sentence', async ({
  page,
  context,
}) => {
  await withDays(page)
  const list = await listOfDays(page)
  const file = await given(page, () => list.getByRole('button', { name: 'Save all days as one file' }).click())
  const other = await context.browser()!.newContext()
  const elsewhere = await other.newPage()
  await visit(elsewhere)
  await drop(elsewhere, file.fileName, file.bytes)
  await expect(elsewhere.getByTitle(files[1])).toBeVisible()
  const notice = elsewhere.getByRole('complementary', { name: 'Notices' })
  await expect(notice).toContainText('2 days of the file stand under Days.')
  await expect((await listOfDays(elsewhere)).getByRole('listitem')).toHaveCount(2)
  await elsewhere.keyboard.press('Escape')
  await drop(elsewhere, 'cut.wattfare', file.bytes.subarray(0, 5000))
  await expect(elsewhere.getByRole('alert')).toHaveText('“cut.wattfare” can’t be opened: it is damaged.')
  await expect(elsewhere.getByTitle(files[1])).toBeVisible()
  await other.close()
})

test('a day is handed to the share sheet where there is one', async ({ page }) => {
  await page.addInitScript(() => {
    Object.assign(navigator, {
      canShare: ({ files }: ShareData) => files?.length === 1,
      share: ({ files, title }: ShareData) => {
        document.documentElement.dataset.shared = `${title}: ${files?.[0]?.name}, ${files![0]!.size > 1000}`
        return Promise.resolve()
      },
    })
  })
  await withDays(page)
  await (await listOfDays(page)).getByRole('button', { name: 'Share: Into town for the market' }).click()
  await expect(page.locator('html')).toHaveAttribute(
    'data-shared',
    'Into town for the market: Into town for the market.wattfare, true',
  )
})

test('the list of days on a desk and a phone, light and dark: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  await withDays(page)
  await expect((await listOfDays(page)).getByRole('listitem')).toHaveCount(2)
  const sizes = [
    { width: 1440, height: 900 },
    { width: 390, height: 844 },
  ]
  const looks = sizes.flatMap((size) => (['light', 'dark'] as const).map((theme) => ({ theme, ...size })))
  await expectSound(page, looks, 'dialog')
})

test('a plan that was made for another route says so first and asks', async ({ page }) => {
  await visit(page)
  await page.getByText('Plan file').click()
  const plan = await given(page, () => page.getByRole('button', { name: 'Save the plan' }).click())
  await drop(page, files[0], sampleFile(files[0]))
  await expect(page.getByTitle(files[0])).toBeVisible()
  const before = await answer(page).textContent()
  const asked = page.getByRole('alert')
  await drop(page, 'long.json', plan.bytes)
  await expect(asked).toContainText(/“long.json” was made for another route: 2 of its places lie beyond .* km 124\.5/)
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveCount(0)
  await asked.getByRole('button', { name: 'Leave it' }).click()
  await expect(asked).toHaveCount(0)
  await expect(answer(page)).toHaveText(before!)
  await drop(page, 'long.json', plan.bytes)
  await asked.getByRole('button', { name: 'Open it all the same' }).click()
  await expect(asked).toHaveCount(0)
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(answer(page)).toHaveText(before!)
})
