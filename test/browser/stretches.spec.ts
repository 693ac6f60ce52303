import { answer, expect, sheet, test, unfold, visit } from './page'

test('a stretch is added, says something of its own, is typed elsewhere, cannot overlap, and goes with undo', async ({
  page,
}) => {
  await visit(page)
  const before = await answer(page).textContent()
  await unfold(page, 'Stretches')
  const plan = sheet(page)
  const add = plan.getByRole('button', { name: 'Add a stretch' })
  await add.click()
  await plan.getByLabel('Surface').selectOption('gravel')
  const assist = plan.getByRole('textbox', { name: 'Assist %' })
  await expect(assist).toHaveValue('')
  await assist.fill('80')
  await assist.press('Enter')
  await expect(plan.getByRole('button', { name: 'Gravel, assist 80 %' })).toBeVisible()
  await expect(answer(page)).not.toHaveText(before!)

  const from = plan.getByRole('textbox', { name: /^From/ })
  await from.fill('20')
  await from.press('Enter')
  await add.click()
  await expect(plan.getByRole('button', { name: 'Nothing of its own yet' })).toBeVisible()
  const second = await from.inputValue()
  await from.fill('25')
  await expect(
    plan.getByText(/^“Gravel, assist 80 %” lies from km 20\.0 to km .*: stretches may touch, not overlap\.$/),
  ).toBeVisible()
  await from.press('Escape')
  await expect(from).toHaveValue(second)
  await from.fill('')
  await expect(plan.getByText(/^This is not a number/)).toBeVisible()
  await from.press('Escape')

  await plan.getByRole('button', { name: 'Gravel, assist 80 %' }).click()
  await assist.fill('')
  await assist.press('Enter')
  await expect(plan.getByRole('button', { name: 'Gravel', exact: true })).toBeVisible()
  await plan.getByRole('button', { name: 'Remove this stretch' }).click()
  await expect(page.getByText('Gravel: the stretch is removed; Undo brings it back.')).toBeVisible()
  await expect(add).toBeFocused()

  const undo = page.getByRole('button', { name: 'Undo' })
  for (let k = 0; k < 7; k++) await undo.click()
  await expect(undo).toBeDisabled()
  await expect(answer(page)).toHaveText(before!)
})
