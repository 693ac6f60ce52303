import { answer, expect, goTo, legTable, test, visit } from './page'
import { termsIn } from './terms'

test('every figure says why: by a press or by the keyboard, with its values and source, and is left by Escape', async ({
  page,
}) => {
  await visit(page)
  const why = page.getByRole('dialog', { name: /^Why/ })
  const facts = page.locator('section.answer dl')
  const fact = (name: string) =>
    facts
      .locator('div')
      .filter({ has: page.getByText(name, { exact: true }) })
      .getByRole('button')
  const riding = fact('Riding')
  const shown = (await riding.innerText()).trim()

  // By the keyboard: formula, what is put in, result as it stands there, source with a way to the documentation.
  await riding.focus()
  await page.keyboard.press('Enter')
  await expect(why).toBeVisible()
  await expect(why).toHaveAccessibleName('Why: Riding')
  await expect(why).toContainText('Martin et al. 1998')
  await expect(why.getByText('Rolling coefficient')).toBeVisible()
  await expect(why.locator('.result dd')).toHaveText(shown)
  await expect(why.getByRole('link', { name: 'How this is worked out' })).toHaveAttribute(
    'href',
    /formulas\.html#motion$/,
  )
  await expect(why.getByRole('button', { name: 'Close' })).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(why).toBeHidden()
  await expect(riding).toBeFocused()

  // What the packs gave is the sum of its parts, to rounding.
  await fact('From the packs').click()
  await expect(why).toHaveAccessibleName('Why: From the packs')
  const number = (text: string) => Number(/-?[\d,.]+/.exec(text)![0].replace(',', ''))
  const values = (await why.locator('dl div:not(.result) dd').allInnerTexts()).slice(0, 4).map(number)
  const whole = number(await why.locator('.result dd').innerText())
  expect(Math.abs(values.reduce((sum, value) => sum + value, 0) - whole)).toBeLessThanOrEqual(2)
  await answer(page).click()
  await expect(why).toBeHidden()

  // A leg: its figures by the row's button, one of them by a press at it, with what is put in.
  const leg = legTable(page).locator('tbody tr').first()
  await leg.getByRole('button', { name: /why: leg 1$/ }).press('Enter')
  await expect(why).toHaveAccessibleName(/^Why: Leg 1/)
  await expect(why).toContainText('from the packs / length')
  await expect(why.locator('dl > div')).toHaveCount(15)
  await page.keyboard.press('Escape')
  const speed = (await leg.locator('td.speed').innerText()).trim()
  await leg.locator('td.speed').click()
  await expect(why.locator('.put-in')).toHaveText(/^= [\d.]+\skm \/ \d+\smin$/)
  await expect(why.locator('.result dd')).toHaveText(`${speed}\u00a0km/h`)
  await page.keyboard.press('Escape')

  // In the day and in the kit, by one mechanism; on a phone at the lower edge.
  await goTo(page, 'The day')
  const day = page.getByRole('region', { name: 'Timetable of the day' })
  await day.getByRole('button', { name: 'Charge', exact: true }).click()
  await expect(why).toContainText('All packs when full')
  await why.getByRole('button', { name: 'Close' }).click()
  await expect(why).toBeHidden()
  await page.setViewportSize({ width: 390, height: 844 })
  await goTo(page, 'What comes along')
  await page.getByRole('region', { name: 'Kit list' }).locator('dd.all button').click()
  await expect(why).toBeVisible()
  const box = (await why.boundingBox())!
  expect(box.x).toBe(0)
  expect(box.width).toBe(390)
  expect(Math.round(box.y + box.height)).toBe(844)
})

test('each term of the trade says what it means at its first place in each section', async ({ page }) => {
  await visit(page)
  const met = new Set<string>()
  const look = (section: Parameters<typeof goTo>[1], come?: () => Promise<void>) =>
    test.step(section, async () => {
      await goTo(page, section)
      await come?.()
      await expect(page.getByText('One moment.')).toHaveCount(0)
      const { found, bare } = await termsIn(page, 'main div.below')
      expect(bare).toEqual([])
      for (const term of found) met.add(term)
    })
  await look('The day', () => expect(page.getByRole('button', { name: 'civil twilight' })).toBeVisible())
  await look('Charging', async () => {
    await page.getByRole('button', { name: 'Add a carried pack' }).click()
    const folds = page.locator('.fold > details > summary')
    await expect(folds.first()).toBeVisible()
    for (const fold of await folds.all()) await fold.click()
    await expect(page.locator('.fold > details:not([open])')).toHaveCount(0)
  })
  await look('What comes along')
  await look('Choices', async () => {
    await page.getByRole('button', { name: 'Find the best assist' }).click()
    await expect(page.getByText('No plan is more than')).toBeVisible({ timeout: 60_000 })
  })
  await look('Last time', async () => {
    await page.getByRole('button', { name: /Take last year/ }).click()
    await expect(page.getByText('What is known now')).toBeVisible()
    await expect(page.locator('.known')).toBeVisible({ timeout: 60_000 })
  })
  await look('On the road')
  await look('The ride')
  await look('Side by side')
  expect(met.size).toBeGreaterThan(9)

  const drain = page.locator('[data-term="drain"]')
  await drain.press('Enter')
  const says = page.getByRole('dialog', { name: 'What it means: Drain' })
  await expect(says).toContainText('for each kilometre or mile')
  await page.keyboard.press('Escape')
  await expect(drain).toBeFocused()
})
