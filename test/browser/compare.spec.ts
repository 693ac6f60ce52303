import {
  answer,
  dragBy,
  expect,
  goTo,
  keptDay,
  legTable,
  pin,
  profile,
  readout,
  sheet,
  test,
  unfold,
  visit,
} from './page'

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
  await expect(said).toContainText('such days')
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

test('plans stand side by side, with parts that sum to their difference, and outlive a reload', async ({ page }) => {
  await visit(page)
  await goTo(page, 'Side by side')
  const section = page.getByRole('region', { name: 'Plans side by side' }).first()
  await section.getByLabel('Name').fill('As it came')
  await section.getByRole('button', { name: 'Keep the plan on screen' }).click()
  await section.getByRole('button', { name: 'Compare the others with “As it came”' }).click()
  await unfold(page, 'Rider')
  for (const [label, value] of [
    [/Steady power/, '140'],
    [/Rider, dressed/, '75'],
  ] as const) {
    const field = sheet(page).getByLabel(label).first()
    await field.fill(value)
    await field.press('Enter')
  }
  const against = section.getByRole('article', { name: '“On screen” against “Held plan”' })
  await expect(against).toContainText(/From the packs\s*[+−]/)
  const said = await against.locator('dd').nth(1).textContent()
  const [whole, ...parts] = said!.match(/[+−][\d.]+/g)!.map((value) => Number(value.replace('−', '-')))
  expect(parts).toHaveLength(2)
  expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(whole!, 6)
  await against.getByText('What differs').click()
  await expect(against.getByRole('listitem')).toHaveText([
    'Rider, dressed: 85.0 kg → 75.0 kg',
    'Steady power: 120 W → 140 W',
  ])

  await section.getByRole('button', { name: 'Put “As it came” on screen' }).click()
  await expect(against).toContainText('Nothing that matters for the ride differs.')
  await page.getByRole('button', { name: 'Undo' }).click()
  await section.getByRole('button', { name: 'Remove “As it came”' }).click()
  await expect(section.getByRole('columnheader', { name: 'As it came' })).toHaveCount(0)
  await section.getByRole('button', { name: 'Put it back' }).click()
  await expect(section.getByRole('columnheader', { name: 'As it came' })).toHaveCount(1)
  await expect.poll(async () => JSON.stringify(await keptDay(page))).toContain('As it came')
  await page.reload()
  await goTo(page, 'Side by side')
  await expect(section.getByRole('columnheader')).toHaveText(['On screen', 'Held plan', 'As it came'])
  await expect(against.locator('dd').nth(1)).toHaveText(said!)
})
