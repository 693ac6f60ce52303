import { answer, dragBy, expect, keptDay, legTable, pin, profile, readout, sheet, test, unfold, visit } from './page'

const story = 'The answer'

test('a held plan shows beside each figure how it differs, and outlives a reload', async ({ page }) => {
  await visit(page)
  const said = page.getByRole('region', { name: story })
  const hold = page.getByRole('button', { name: 'Hold this plan' })
  await hold.click()
  await expect(hold).toHaveAttribute('aria-pressed', 'true')
  await expect(said.locator('.change').first()).toHaveText('±0')
  await unfold(page, 'Rider')
  const power = sheet(page)
    .getByLabel(/Steady power/)
    .first()
  await power.fill('110')
  await power.press('Enter')
  const riding = said.locator('.facts div', { hasText: 'Riding' }).locator('.change')
  await expect(riding).toHaveText(/^\+.* min \d\d s$/)
  await expect(said.locator('.facts div', { hasText: 'From the packs' }).locator('.change')).toHaveText(
    /^[+−][\d.]+ Wh$/,
  )
  await expect(readout(page).locator('.change').last()).toHaveText('±0')
  await expect(legTable(page).locator('.arrive .change').first()).toHaveText(/^\+/)
  await expect(profile(page).locator('path.against')).toHaveCount(1)
  const change = await riding.textContent()

  await expect.poll(async () => JSON.stringify(await keptDay(page))).toContain('\\"power\\": 110')
  await page.reload()
  await expect(riding).toHaveText(change!)
  await expect(hold).toHaveAttribute('aria-pressed', 'true')
  await hold.click()
  await expect(riding).toHaveText('')
  await expect(profile(page).locator('path.against')).toHaveCount(0)
})

test('in a drag each figure says what it does, and nothing moves', async ({ page }) => {
  await visit(page)
  const said = page.getByRole('region', { name: story })
  const finish = said.locator('.facts div', { hasText: 'Finish' })
  await expect(said).toContainText('Likely')
  /** Where each figure stands in its row, and how high the rows are; the headline above may be longer or shorter. */
  const places = () =>
    said
      .locator('.facts')
      .evaluate((facts) => [
        facts.clientHeight,
        ...[...facts.children].map((fact) => [(fact as HTMLElement).offsetLeft, (fact as HTMLElement).offsetWidth]),
      ])
  const before = await places()
  await dragBy(page, pin(page, 'Inn at Querrel Sands'), 4)
  await expect(finish.locator('.change')).not.toHaveText('')
  await expect(profile(page).locator('path.against')).toHaveCount(1)
  expect(await places()).toEqual(before)
  await page.mouse.up()
  await expect(finish.locator('.change')).toHaveText('')
  await expect(answer(page)).toContainText('charge')
})
