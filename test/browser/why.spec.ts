import { answer, expect, goTo, test, visit } from './page'

test('every figure says why: by a press or by the keyboard, with its values and source, and is left by Escape', async ({
  page,
}) => {
  await visit(page)
  const why = page.getByRole('dialog', { name: /^Why/ })
  const facts = page.locator('section.answer dl')
  const riding = facts
    .locator('div')
    .filter({ has: page.getByText('Riding', { exact: true }) })
    .getByRole('button')
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
  const packs = facts.locator('.packs').getByRole('button')
  await packs.click()
  await expect(why).toHaveAccessibleName('Why: From the packs')
  const number = (text: string) => Number(/-?[\d,.]+/.exec(text)![0].replace(',', ''))
  const values = (await why.locator('dl div:not(.result) dd').allInnerTexts()).slice(0, 4).map(number)
  const whole = number(await why.locator('.result dd').innerText())
  expect(Math.abs(values.reduce((sum, value) => sum + value, 0) - whole)).toBeLessThanOrEqual(2)
  await answer(page).click()
  await expect(why).toBeHidden()

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
