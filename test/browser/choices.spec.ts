import { expectSound, screensOfSection, takeOn } from './looks'
import { answer, cursor, expect, goTo, keptPlan, profile, test, visit } from './page'

test('the best assist is asked for, its reason read, taken over by one press and undone by another', async ({
  page,
}) => {
  await visit(page)
  await goTo(page, 'Choices')
  const choices = page.getByRole('region', { name: 'Choices', exact: true })
  await choices.getByLabel('The charge is to stay above your reserve').selectOption('on a day just as planned')
  const assist = choices.getByRole('region', { name: 'Best assist' })
  const finish = page.getByRole('region', { name: 'The answer' }).locator('.facts div', { hasText: 'Finish' })
  const before = (await finish.textContent())!.match(/\d\d:\d\d/)![0]
  await assist.getByRole('button', { name: 'Find the best assist' }).click()

  // Nothing is changed by asking; the gain, the bound and the price come first.
  await expect(assist).toContainText(/sooner than the best single ratio, \d+\s%/)
  await expect(assist).toContainText(/No plan is more than [\d.]+\s% faster/)
  await expect(assist).toContainText(/watt-hour would save/)
  await expect(finish).toContainText(before)
  await expect(assist.getByRole('radio', { checked: true })).toHaveCount(1)
  const shown = await assist.locator('dl dd').first().textContent()
  const promised = shown!.match(/\d\d:\d\d/)![0]
  expect(promised < before).toBe(true)

  // Along the ribbon the assist that is proposed, and by the keys what a watt-hour is worth there.
  await expect(profile(page)).toContainText(/Dashed: assist proposed, up to \d+\s%/)
  await cursor(page).focus()
  await page.keyboard.press('PageUp')
  await expect(profile(page)).toContainText(/Assist \d+\s%; \+1\sWh\ssaves\s(nothing|[\d.]+\s?s)/)
  await page.keyboard.press('Escape')

  const take = assist.getByRole('button', { name: 'Take it into the plan' })
  await take.click()
  await expect(assist).toContainText('It is in your plan.')
  await expect(finish).toContainText(promised)
  await expect.poll(() => keptPlan(page)).toContain('"assistRatio":')
  await assist.getByRole('button', { name: 'Undo' }).click()
  await expect(finish).toContainText(before)

  await take.click()
  await expect(finish).toContainText(promised)
  await answer(page).click()
  await page.keyboard.press('Control+z')
  await expect(finish).toContainText(before)
  await expect(take).toBeEnabled()

  // What was found stays while one looks elsewhere, and is known to be old when the plan is another.
  await goTo(page, 'The day')
  await goTo(page, 'Choices')
  await expect(assist).toContainText(/sooner than the best single ratio/)
  await choices
    .getByLabel('The charge is to stay above your reserve')
    .selectOption('on 80 of 100 days as they may come')
  await expect(assist).toContainText('before your last change')
})

test('all choices, answered, on wide and narrow screens: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  const looks = [
    { theme: 'dark', width: 390, height: 844 },
    { theme: 'light', width: 1440, height: 900 },
  ] as const
  await takeOn(page, looks[0])
  await visit(page)
  await goTo(page, 'Choices')
  const choices = page.getByRole('region', { name: 'Choices', exact: true })
  await choices.getByLabel('The charge is to stay above your reserve').selectOption('on a day just as planned')
  for (const [title, press, said] of [
    ['Best assist', 'Find the best assist', 'watt-hour would save'],
    ['Best stop for charge', 'Find the best stop', 'Finish over the length'],
    ['Latest start', 'Find the latest start', 'Start by'],
  ] as const) {
    const one = choices.getByRole('region', { name: title })
    await one.getByRole('button', { name: press }).click()
    await expect(one).toContainText(said, { timeout: 60_000 })
  }
  // What to take along stands there unasked, each row with its finish, as it is forecast when it is taken.
  const along = choices.getByRole('region', { name: 'What to take along' })
  const row = along.getByRole('row', { name: '3 packs' })
  await expect(row).toContainText('of 100', { timeout: 120_000 })
  await expect(along).toContainText('To the left is sooner, higher is surer.')
  const finish = page.getByRole('region', { name: 'The answer' }).locator('.facts div', { hasText: 'Finish' })
  const before = (await finish.textContent())!.match(/\d\d:\d\d/)![0]
  const promised = (await row.locator('[data-name="Finish"]').textContent())!.trim()
  await row.getByRole('button', { name: 'Take 3 packs' }).click()
  await expect(finish).toContainText(promised)
  await row.getByRole('button', { name: 'Undo' }).click()
  await expect(finish).toContainText(before)
  expect(promised).not.toBe(before)
  // One answer at a time is unfolded, what was asked for last first; its line stays under the hand.
  const unfolded = choices.locator('details[open]')
  await expect(unfolded).toHaveCount(1)
  await expect(unfolded).toContainText('Start by')
  await expectSound(page, looks, '[aria-label="Choices"]', async ({ width }) => {
    await expect(choices.getByRole('table').first()).toBeVisible()
    for (const title of ['Best stop for charge', 'Latest start', 'Best assist']) {
      const line = choices.getByRole('region', { name: title }).locator('summary')
      await line.scrollIntoViewIfNeeded()
      const { y } = (await line.boundingBox())!
      await line.click()
      await expect(unfolded).toHaveCount(1)
      expect(await screensOfSection(page), `screens with ${title}`).toBeLessThanOrEqual(width < 500 ? 6 : 3)
      expect(Math.abs((await line.boundingBox())!.y - y), 'px moved').toBeLessThan(2)
    }
  })
})
