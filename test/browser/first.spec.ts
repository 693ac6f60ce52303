import { answer, drop, expect, keptDay, keptPlan, sampleFile, sheet, test, unfold, visit } from './page'
import { expectSound } from './looks'

const file = 'into-town-18km.gpx'
const asked = 'Your own day'

test('a first visit asks for route, bike and battery, which days of one’s own begin with, and then no more', async ({
  page,
}) => {
  await visit(page)
  const first = page.getByRole('region', { name: asked })
  const before = await answer(page).textContent()
  const mass = first.getByLabel(/Bike with its packs/).first()
  await expect(mass).toHaveValue('33')
  await mass.fill('41')
  await expect(answer(page), 'follows what is typed').not.toHaveText(before!)
  await first
    .getByLabel(/^Packs/)
    .first()
    .fill('3')
  await first.getByLabel(/^Each/).first().fill('400')
  await first.getByLabel(/^Each/).first().press('Enter')

  const choosing = page.waitForEvent('filechooser')
  await first.getByRole('button', { name: 'Open your route' }).click()
  await (await choosing).setFiles({ name: file, mimeType: 'application/gpx+xml', buffer: sampleFile(file) })
  await expect(page.getByTitle(file)).toBeVisible()
  await expect(mass).toHaveValue('41')
  await unfold(page, 'Batteries')
  await expect(sheet(page).getByRole('button', { name: /^Pack \d 400 Wh/ })).toHaveCount(3)
  await unfold(page, 'Bike')
  await expect(
    sheet(page)
      .getByLabel(/Bike with its packs/)
      .first(),
  ).toHaveValue('41')
  await expect.poll(() => keptDay(page)).toMatchObject({ fileName: file })
  const { assist } = JSON.parse(await keptPlan(page)) as { assist: { ratio: number } }
  expect(assist.ratio, 'nothing of the sample’s plan').toBe(0.5)

  await first.getByRole('button', { name: 'Done' }).click()
  await expect(first).toHaveCount(0)
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(sheet(page)).toBeVisible()
  await expect(first).toHaveCount(0)
})

test('who has said of the bike what there is to say is not asked', async ({ page }) => {
  await visit(page)
  const first = page.getByRole('region', { name: asked })
  await expect(first).toBeVisible()
  await drop(page, file, sampleFile(file))
  await expect(page.getByTitle(file)).toBeVisible()
  await expect(first.getByRole('button', { name: 'Open your route' })).toHaveCount(0)
  await unfold(page, 'Rider')
  const power = sheet(page)
    .getByLabel(/Steady power/)
    .first()
  await power.fill('150')
  await power.press('Enter')
  await expect.poll(() => keptPlan(page)).toContain('"power": 150')
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect(sheet(page)).toBeVisible()
  await expect(first).toHaveCount(0)
})

test('what is asked is sound on each screen', async ({ page }) => {
  await visit(page)
  await expect(page.getByRole('region', { name: asked })).toBeVisible()
  await expectSound(
    page,
    [
      { theme: 'light', width: 1440, height: 900 },
      { theme: 'dark', width: 390, height: 844 },
      { theme: 'light', width: 320, height: 700 },
    ],
    `[aria-label="${asked}"]`,
  )
})
