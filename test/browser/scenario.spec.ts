import { expect, goTo, keptDay, answer, profile, sampleFile, sheet, test, turnTo, visit } from './page'

const most = 10

test('a day from scratch through what is visible: no question takes more than ten actions', async ({ page }) => {
  await visit(page)
  const plan = sheet(page)
  const counted = new Map<string, number>()
  let question = ''
  const ask = (next: string) => counted.set((question = next), 0)
  /** One press, choice or field typed. */
  const act = async (action: () => Promise<unknown>) => {
    counted.set(question, counted.get(question)! + 1)
    await action()
  }
  const type = (label: string | RegExp, text: string) => async () => {
    const field = plan.getByRole('textbox', { name: label }).or(plan.getByLabel(label)).last()
    await field.fill(text)
    await field.press('Enter')
  }
  const group = (name: string) => () => plan.getByRole('heading', { name, exact: true }).click()

  ask('Does it last, on my route, with my bike of 30 kg and two packs of 500 Wh, from 05:30?')
  const first = page.getByRole('region', { name: 'Your own day' })
  const choosing = page.waitForEvent('filechooser')
  await act(() => first.getByRole('button', { name: 'Open your route' }).click())
  const file = { name: 'mine.gpx', mimeType: 'application/gpx+xml', buffer: sampleFile('two-islands-165km.gpx') }
  await act(async () => (await choosing).setFiles(file))
  await expect(page.getByTitle('mine.gpx')).toBeVisible()
  const mass = first.getByLabel(/Bike with its packs/).first()
  await act(() => mass.fill('30'))
  await act(() => first.getByRole('button', { name: 'Done' }).click())
  await act(type('Start', '530'))
  await expect(answer(page)).toContainText('The charge')
  const before = await answer(page).textContent()

  ask('Where and how long to stop, charging from a carried pack of 12 V blocks?')
  await act(() => goTo(page, 'Charging'))
  await act(() => page.getByRole('button', { name: 'Add a carried pack' }).click())
  await act(() =>
    profile(page)
      .getByRole('button', { name: /^Pin a stop/ })
      .click(),
  )
  // Nobody has pointed anywhere: it is pinned on the way, not at the start.
  expect(Number(await plan.getByLabel('Place', { exact: true }).last().inputValue())).toBeGreaterThan(20)
  await act(() => plan.getByLabel('Charge', { exact: true }).selectOption({ label: 'Carried pack 1' }))
  await act(type(/^Stay for/, '60'))
  await expect(plan.getByText('Reach after')).toBeVisible()
  await expect(answer(page)).not.toHaveText(before!)

  ask('Which current flows?')
  await act(() => plan.getByRole('link', { name: 'What flows there' }).click())
  const bench = page.getByRole('region', { name: 'Bench', exact: true })
  await expect(bench.getByText(/^In \d.* this puts \d+ Wh/)).toBeVisible()
  await expect(bench.getByText(/^Carried pack 1 weighs/)).toBeVisible()

  ask('What do the lamp and the second tube cost?')
  await act(() => goTo(page, 'What comes along'))
  const kit = page.getByRole('region', { name: 'Kit list' })
  await act(() => kit.getByRole('button', { name: 'Start with an example list' }).click())
  for (const thing of ['Front and rear lamp', 'Inner tube']) {
    const row = kit
      .getByRole('row')
      .filter({ has: page.getByRole('textbox', { name: `Name of ${thing}`, exact: true }) })
    await expect(row.locator('.energy')).toContainText('Wh')
  }

  ask('When must I be at the ferry, by its timetable?')
  await turnTo(page, 'This day’s plan')
  await act(group('Crossings'))
  await act(() => plan.getByLabel('Timetable').selectOption({ label: 'Leaves at listed times' }))
  await act(type(/^Leaves at/, '07:00 09:30 12:00 14:30'))
  await expect(plan.getByText(/^You are there at/)).toContainText(/catch the \d\d:\d\d/)

  ask('Do I make two controls, and eleven hours?')
  await act(group('Controls'))
  for (const closes of ['13:00', '16:00']) {
    await act(() => plan.getByRole('button', { name: 'Add a control' }).click())
    await act(() => plan.getByLabel('Closes').last().selectOption({ label: 'At a clock time' }))
    await act(type('At', closes))
  }
  await act(type('Goal, whole day', '11:00'))
  await expect(plan.getByText(/^At the finish .*: .*(to spare|too late)/)).toBeVisible()

  ask('Print it')
  await act(() => goTo(page, 'The day'))
  await page.evaluate(() => (window.print = () => (document.title = 'printed')))
  await act(() =>
    page
      .getByRole('button', { name: /^Print/ })
      .first()
      .click(),
  )
  await expect(page).toHaveTitle('printed')

  ask('Take it along as a file')
  await expect.poll(() => keptDay(page)).toMatchObject({ fileName: 'mine.gpx' })
  await act(() => page.getByRole('button', { name: 'Days', exact: true }).click())
  const saving = page.waitForEvent('download')
  await act(() =>
    page
      .getByRole('dialog', { name: 'Days' })
      .getByRole('button', { name: /^Save as a file/ })
      .first()
      .click(),
  )
  expect((await saving).suggestedFilename()).toMatch(/\.wattfare$/)

  for (const [asked, actions] of counted)
    test.info().annotations.push({ type: asked, description: `${actions} actions` })
  expect(Math.max(...counted.values())).toBeLessThanOrEqual(most)
})
