import { expect, sheet, test, unfold, visit } from './page'

test('a stretch is added, says something of its own, is typed elsewhere, cannot overlap, and goes with undo', async ({
  page,
}) => {
  await visit(page)
  await unfold(page, 'Stretches')
  const plan = sheet(page)
  await plan.getByRole('button', { name: 'Add a stretch' }).click()
  const time = page
    .locator('header, section')
    .getByText(/\d+ h \d\d min/)
    .first()
  const before = await time.textContent()
  await plan.getByLabel('Surface').selectOption('gravel')
  await plan.getByLabel('Assist', { exact: true }).last().selectOption('own')
  await expect(plan.getByRole('button', { name: 'gravel, assist 50 %' })).toBeVisible()
  await expect(time).not.toHaveText(before!)

  const from = plan.getByRole('textbox', { name: /^From/ })
  await from.fill('20')
  await from.press('Enter')
  await expect(from).toHaveValue(/^20/)
  await plan.getByRole('button', { name: 'Add a stretch' }).click()
  await expect(plan.getByRole('button', { name: 'Nothing of its own yet' })).toBeVisible()
  await from.fill('0')
  await expect(plan.getByText(/^This must be from/)).toBeVisible()
  await from.press('Escape')

  const undo = page.getByRole('button', { name: 'Undo' })
  for (let k = 0; k < 5; k++) await undo.click()
  await expect(plan.getByRole('button', { name: /gravel|Nothing of its own/ })).toHaveCount(0)
  await expect(time).toHaveText(before!)
})
