import type { Locator, Page } from '@playwright/test'
import { expectSound, takeOn, widerBy } from './looks'
import { answer, dragBy, expect, goTo, mapPin, pin, profile, sheet, test, turnTo, unfold, visit } from './page'

const bench = (page: Page): Locator => page.getByRole('region', { name: 'Bench', exact: true })
const summary = (page: Page): Locator => bench(page).getByText(/^(In \d|Nothing flows)/)
const limits = (page: Page): Locator => bench(page).getByRole('region', { name: 'What limits it' })
const carry = (page: Page): Locator => bench(page).getByRole('region', { name: 'Carry it or not' })

/** Unfolds the bench and puts a carried pack on it. */
async function addCarried(page: Page): Promise<void> {
  await goTo(page, 'Charging')
  await expect(bench(page)).toContainText('No carried pack is planned')
  await bench(page).getByRole('button', { name: 'Add a carried pack' }).click()
  await expect(summary(page)).toBeVisible()
}

/** Looks at a stop, and charges from the carried pack there. */
async function useAt(page: Page, stop: RegExp): Promise<void> {
  const looked = bench(page).getByLabel('At which halt', { exact: true })
  await expect(looked.locator('option').filter({ hasText: stop })).toHaveCount(1)
  const options = await looked.locator('option').allInnerTexts()
  await looked.selectOption({ index: options.findIndex((text) => stop.test(text)) })
  await bench(page).getByRole('button', { name: 'Charge from it at' }).click()
  await expect(looked.locator('option:checked')).not.toContainText('does not use it')
}

async function type(field: Locator, text: string): Promise<void> {
  await field.fill(text)
  await field.press('Enter')
}

const share = async (locator: Locator, pattern: RegExp): Promise<number> =>
  Number(pattern.exec((await locator.textContent())!)![1])

test('blocks in series or parallel: the limit is read, the source used at a dragged stop, its energy shared by two', async ({
  page,
}) => {
  await visit(page)
  await addCarried(page)
  await useAt(page, /^Inn at Querrel Sands/)

  // Three blocks in parallel: the converter may not draw enough. In series it does.
  await bench(page).getByText('The arrangement').click()
  await type(bench(page).getByRole('textbox', { name: 'Blocks in series' }), '1')
  await type(bench(page).getByRole('textbox', { name: 'Blocks in parallel' }), '3')
  await expect(summary(page)).toContainText('the converter’s input limit sets the pace all the time')
  const inParallel = await share(summary(page), /this puts (\d+) Wh/)
  const series = limits(page).getByRole('row', { name: /All 3 blocks in series/ })
  await expect(series).toContainText('the set current')
  const offered = await share(series, /(\d+) Wh/)
  expect(offered).toBeGreaterThan(inParallel)
  await limits(page).getByRole('button', { name: 'Put into the plan: All 3 blocks in series' }).click()
  await expect(summary(page)).toContainText('the set current sets the pace all the time')
  expect(await share(summary(page), /this puts (\d+) Wh/)).toBe(offered)
  await expect(bench(page).getByRole('textbox', { name: 'Blocks in series' })).toHaveValue('3')

  // What a charge gives beyond the pack's full voltage is refused, and nothing flows in the plan either.
  const voltage = bench(page).getByLabel('Set voltage')
  await type(voltage, '43')
  await expect(
    bench(page)
      .getByText(/43\.0 V set would overcharge this pack, which is full at 42\.0 V/)
      .first(),
  ).toBeVisible()
  await expect(sheet(page)).toContainText('would overcharge this pack')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(voltage).toHaveValue('42')

  // Time and charges on arrival follow the stop as it is dragged.
  const arrival = /\(from (\d+) % to/
  const before = await share(summary(page), arrival)
  await dragBy(page, pin(page, 'Inn at Querrel Sands'), -150)
  await expect.poll(() => share(summary(page), arrival)).not.toBe(before)
  await page.mouse.up()

  // A second stop takes what the first has left.
  const left = bench(page).getByText(/comes with \d+ % and has \d+ % left/)
  const comes = /comes with (\d+) %/
  const leaves = /has (\d+) % left/
  expect(await share(left, comes)).toBe(100)
  const afterFirst = await share(left, leaves)
  expect(afterFirst).toBeLessThan(85)
  const box = (await profile(page).locator('canvas').boundingBox())!
  await page.mouse.click(box.x + box.width * 0.8, box.y + box.height * 0.6)
  await expect(pin(page, 'Stop 2')).toBeVisible()
  await useAt(page, /^Stop 2/)
  await expect.poll(() => share(left, comes)).toBe(afterFirst)
  expect(await share(left, leaves)).toBeLessThan(afterFirst)
  await expect(sheet(page)).toContainText(new RegExp(`comes with ${afterFirst} % and has \\d+ % left`))
  await expect(sheet(page)).toContainText('Have you measured plus and minus')
})

test('slider and drawing show one moment; a confirmed source asks no more', async ({ page }) => {
  await visit(page)
  await addCarried(page)
  const slider = bench(page).getByRole('slider', { name: 'Time on the slider' })
  const drawing = bench(page).getByRole('img', { name: /^Carried pack/ })
  const percents = async () =>
    [...(await drawing.getAttribute('aria-label'))!.matchAll(/([\d.]+) %/g)].map(([, text]) => Number(text))
  await slider.focus()
  await slider.press('Home')
  expect(await percents()).toEqual([100, 20])
  await expect(slider).toHaveAttribute(
    'aria-valuetext',
    /^minute 0: Pack 1 .* V, 4\.0 A, .*the set current sets the pace$/,
  )
  await slider.press('End')
  const [source, pack] = await percents()
  expect(source).toBeLessThan(60)
  expect(pack).toBeGreaterThan(50)
  await bench(page).getByText('The arrangement').click()
  await bench(page)
    .getByLabel(/Plus and minus are measured/)
    .check()
  await bench(page)
    .getByLabel(/full voltage is read from/)
    .check()
  await expect(bench(page).getByText(/Have you measured|do not guess/)).toHaveCount(0)

  // Of a module that prints a peak alone the other current is emptied first: what stood counts until the peak is typed.
  const continuous = bench(page).getByRole('textbox', { name: 'Output current, continuous' })
  const said = (await summary(page).textContent())!
  await type(continuous, '')
  const why = bench(page).getByText('One of the two must be stated, the continuous current or the peak; until then')
  await expect(why).toHaveText(/8 A counts\.$/)
  await bench(page).getByRole('textbox', { name: 'Output current, peak' }).focus()
  await expect(continuous).toHaveValue('')
  await expect(summary(page)).toHaveText(said)
  await type(bench(page).getByRole('textbox', { name: 'Output current, peak' }), '5')
  await expect(why).toHaveCount(0)
  await expect(continuous).toHaveValue('')
  await expect(
    bench(page)
      .getByText(/Only a peak output current is stated: of 5\.0 A, 3\.0 A are taken/)
      .first(),
  ).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(continuous).toHaveValue('8')
})

test('carry it or not: another pack is taken over in one step', async ({ page }) => {
  await visit(page)
  await addCarried(page)
  await expect(bench(page)).toContainText('No stop and no crossing')
  await useAt(page, /^Inn at Querrel Sands/)
  await expect(bench(page).getByText(/^Carried pack 1 weighs .* than a third bike pack and finishes/)).toBeVisible()
  // From the stop to its share of Charging and back, a press each.
  const looked = bench(page).getByLabel('At which halt', { exact: true })
  await looked.selectOption({ label: 'Apart from the plan' })
  await sheet(page).getByRole('link', { name: 'What flows there' }).click()
  await expect(page.getByRole('heading', { level: 2, name: 'Charging' })).toBeFocused()
  await expect(looked.locator('option:checked')).toHaveText(/^Inn at Querrel Sands/)
  await turnTo(page, 'Rider and bike')
  await bench(page).getByRole('link', { name: 'Back to Inn at Querrel Sands' }).click()
  await expect(sheet(page).getByRole('button', { name: /^Inn at Querrel Sands/ })).toBeVisible()
  await bench(page).getByText('Carry it or not', { exact: true }).click()
  const instead = carry(page).getByRole('region', { name: 'Another bike pack instead' })
  const finish = (await instead.getByText(/after \d+ h/).textContent())!
  await instead.getByRole('button', { name: 'Take this over' }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveCount(0)
  await expect(page.getByRole('region', { name: 'The answer' })).toContainText(finish.trim().slice(0, 5))
  await turnTo(page, 'Rider and bike')
  await expect(page.getByText('3 packs', { exact: false }).first()).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await expect(instead.getByRole('button', { name: 'Take this over' })).toBeEnabled()
})

/** What a stop's report says: charge on arrival and on leaving, Wh, and the reach after it. */
async function report(page: Page): Promise<{ arrive: number; leave: number; reach: string }> {
  const facts = sheet(page).locator('dl').filter({ hasText: 'Arrive' })
  const [arrive, leave] = [...(await facts.innerText()).matchAll(/([\d,]+)\sWh/g)].map(([, text]) =>
    Number(text!.replace(',', '')),
  )
  return { arrive: arrive!, leave: leave!, reach: await facts.locator('.after').innerText() }
}

/** Wh at the finish above the reserve, as the answer says it; negative below. */
async function spare(page: Page): Promise<number> {
  const [, energy, side] = /([\d,]+)\sWh (above|below) your reserve/.exec((await answer(page).textContent())!)!
  return Number(energy!.replace(',', '')) * (side === 'above' ? 1 : -1)
}

/** Charge of the carried pack before and after a halt, %, by the sentence about it. */
const carriedAt = async (sentence: Locator): Promise<[number, number]> => {
  const [, before, after] = /comes with (\d+) % and has (\d+) % left/.exec((await sentence.textContent())!)!
  return [Number(before), Number(after)]
}

test('a swap at a stop: the halt names both packs, nothing is charged, and the reach is what the packs hold', async ({
  page,
}) => {
  await visit(page)
  const plan = sheet(page)
  const charged = await report(page)
  expect(charged.leave).toBeGreaterThan(charged.arrive + 50)
  expect(charged.reach).toContain('to the finish')
  const charge = plan.getByLabel('Charge', { exact: true })
  await unfold(page, 'Batteries')
  await plan.getByRole('button', { name: 'Add a swap' }).click()
  await expect(plan.getByRole('button', { name: 'Add a swap' }), 'one serves every stop').toBeDisabled()

  await turnTo(page, 'This day’s plan')
  await charge.selectOption({ label: 'Swap the pack' })
  const swapped = plan.getByText(/^Pack 1 comes off with \d+ %, Old pack goes on with 100 %\.$/)
  await expect(swapped).toBeVisible()
  const swap = await report(page)
  expect(swap.leave).toBe(swap.arrive)
  expect(swap.reach).toMatch(/^\d+\.\d\skm, to\skm\s\d+\.\d$/)
  await expect(answer(page)).toContainText('below your reserve')
  await goTo(page, 'The day')
  const day = page.getByRole('region', { name: 'Timetable of the day' })
  const row = (name: string) => day.getByRole('row').filter({ hasText: name })
  await expect(row('Inn at Querrel Sands')).toContainText('put in Old pack')
  // The old pack is spent before the finish, and Pack 1 has something left.
  await expect(row('Pack spent')).toContainText('put in Pack 1')

  // As long as the stop stands where the first pack is not spent, it comes off with more the earlier it stands.
  const comesOff = async () => Number(/comes off with (\d+) %/.exec((await swapped.textContent())!)![1])
  const before = await comesOff()
  await dragBy(page, pin(page, 'Inn at Querrel Sands'), -200)
  await expect.poll(comesOff).toBeGreaterThan(before + 10)
  await page.keyboard.press('Escape')
  await page.mouse.up()
  await expect.poll(comesOff).toBe(before)

  // With the charger again all is as it was.
  await charge.selectOption({ label: 'Charger 4 A' })
  await expect(swapped).toHaveCount(0)
  expect(await report(page)).toEqual(charged)
})

test('a swap with no other pack says that the one in use stays in', async ({ page }) => {
  await visit(page)
  const plan = sheet(page)
  await unfold(page, 'Batteries')
  await plan.getByRole('button', { name: /^Old pack/ }).click()
  await plan.getByRole('button', { name: 'Remove', exact: true }).click()
  await plan.getByRole('button', { name: 'Add a swap' }).click()
  await turnTo(page, 'This day’s plan')
  await plan.getByLabel('Charge', { exact: true }).selectOption({ label: 'Swap the pack' })
  await expect(plan).toContainText('No other pack has charge left: Pack 1 stays in.')
})

test('a carried pack fills the bike’s on the ferry, and what it gave there is gone for a later stop', async ({
  page,
}) => {
  await visit(page)
  const plan = sheet(page)
  const without = await spare(page)
  await unfold(page, 'Batteries')
  await plan.getByRole('button', { name: 'Add a carried pack' }).click()
  await unfold(page, 'Batteries')
  await unfold(page, 'Crossings')
  const crossing = plan.getByRole('listitem').filter({ hasText: 'This gap was ridden' })
  const onBoard = crossing.getByLabel('Charge', { exact: true })
  await expect(onBoard.locator('option:checked')).toHaveText('Nothing on board')
  await onBoard.selectOption({ label: 'Carried pack 1' })
  const put = crossing.getByText(/^Pack 1: \d+ Wh in /)
  await expect(put).toBeVisible()
  const energy = Number(/: (\d+) Wh/.exec((await put.textContent())!)![1])
  expect(energy).toBeGreaterThan(50)
  const [comes, left] = await carriedAt(crossing.getByText(/comes with/))
  expect(comes).toBe(100)
  expect(left).toBeLessThan(80)
  // What it weighs costs some of it.
  const gained = (await spare(page)) - without
  expect(gained).toBeGreaterThan(0.5 * energy)
  expect(gained).toBeLessThan(energy)

  // A later stop gets what is left of it, and the ferry is as it was.
  const box = (await profile(page).locator('canvas').boundingBox())!
  await page.mouse.click(box.x + box.width * 0.8, box.y + box.height * 0.6)
  await expect(mapPin(page, 'Stop 2')).toBeVisible()
  const stop = plan.getByRole('listitem').filter({ has: page.getByRole('button', { name: /^Stop 2/ }) })
  await stop.getByLabel('Charge', { exact: true }).selectOption({ label: 'Carried pack 1' })
  const later = stop.getByText(/comes with/)
  expect(await carriedAt(later)).toEqual([left, expect.any(Number)])
  const [, rest] = await carriedAt(later)
  expect(rest).toBeLessThan(left)
  expect(await carriedAt(crossing.getByText(/comes with/))).toEqual([comes, left])

  // Moved before the ferry, the stop takes it first.
  await mapPin(page, 'Stop 2').focus()
  const place = stop.getByRole('textbox', { name: /^Place/ })
  await type(place, '60')
  await expect.poll(async () => (await carriedAt(later))[0]).toBe(100)
  const [, afterStop] = await carriedAt(later)
  expect((await carriedAt(crossing.getByText(/comes with/)))[0]).toBe(afterStop)
})

test('the bench on a desk and a phone: nothing wrong for accessibility, nothing wider than the page', async ({
  page,
}) => {
  const looks = [
    { theme: 'dark', width: 390, height: 900 },
    { theme: 'light', width: 1440, height: 900 },
  ] as const
  await takeOn(page, looks[0])
  await visit(page)
  await addCarried(page)
  await expect(bench(page).getByText(/^In 45 min this puts/)).toBeVisible()
  for (const look of looks) {
    await takeOn(page, look)
    await expect.poll(() => widerBy(page), 'px wider than the page, apart from the plan').toBeLessThanOrEqual(0)
  }
  await useAt(page, /^Inn at Querrel Sands/)
  for (const name of [
    'Carry it or not',
    'The arrangement',
    'What a further minute is worth',
    'Cables, connectors, fuses',
    'Build sheet',
    'A trial of charging',
  ])
    await bench(page).getByText(name, { exact: true }).click()
  await expect(limits(page)).toContainText('As it is')
  await expect(carry(page)).toContainText('Neither')
  await expectSound(page, looks, 'section.bench')
})

test('the build sheet is not ready until each question has its answer, and prints as one page alone', async ({
  page,
}) => {
  await visit(page)
  await addCarried(page)
  await bench(page).getByText('Build sheet', { exact: true }).click()
  const built = bench(page).locator('.paper article')
  await expect(built).toContainText('Not ready: 7 questions are open.')
  await expect(built).toContainText('Bike’s pack, which is a source too: Fuse the source with 5 A')
  for (const question of [/charge limit/, /With the converter off/, /one make and kind/, /protection board/])
    await bench(page).getByRole('checkbox', { name: question }).check()
  await expect(built).toContainText('Not ready: 3 questions are open.')
  await expect(built).toContainText('3 blocks have no voltage or no age yet')
  const blocks = bench(page).getByRole('group', { name: 'Each block before it is joined' })
  for (const [k, voltage] of ['13.7', '13.68', '12.1'].entries()) {
    const block = blocks.getByRole('group', { name: `Block ${k + 1}` })
    await type(block.getByRole('textbox', { name: 'At rest' }), voltage)
    await type(block.getByRole('textbox', { name: 'Age' }), '6')
  }
  await expect(blocks).toContainText('Blocks 3 and 1 differ by 1.60 V')
  await expect(built).toContainText(/Not ready: \d questions are open\./)
  await type(blocks.getByRole('group', { name: 'Block 3' }).getByRole('textbox', { name: 'At rest' }), '13.71')
  await expect(blocks).toContainText('All blocks are measured, and alike enough to be joined.')
  await expect(built).toContainText('Not ready: 2 questions are open.')
  await expect(bench(page)).toContainText('not ready: 5 of 7 questions answered')
  await bench(page)
    .getByLabel(/Plus and minus are measured/)
    .check()
  await bench(page)
    .getByLabel(/full voltage is read from/)
    .check()
  await expect(built).toContainText('Every question is answered.')
  await expect(bench(page)).toContainText('all 7 questions answered')
  await page.evaluate(() => {
    window.print = () => (document.title = document.querySelector('.printed')?.textContent ?? '')
  })
  await bench(page).getByRole('button', { name: 'Print the build sheet' }).click()
  await expect.poll(() => page.title()).toMatch(/^Build sheet: Carried pack 1, Pack 1/)
  expect(await page.title()).not.toContain('Timetable')
  await expect(page.locator('.printed')).toHaveCount(0)
})

test('a trial of charging corrects efficiency and capacity: read, taken over by one press, undone by one', async ({
  page,
}) => {
  await visit(page)
  await addCarried(page)
  await bench(page).getByText('A trial of charging', { exact: true }).click()
  await type(bench(page).getByRole('textbox', { name: 'Bike’s pack at the start' }), '50')
  await bench(page).getByRole('button', { name: 'Add a reading' }).click()
  const reading = bench(page).getByRole('group', { name: 'Reading 1' })
  const found = bench(page).getByRole('group', { name: 'What it tells' })
  await type(reading.getByRole('textbox', { name: 'Current' }), '4.7')
  await type(reading.getByRole('textbox', { name: 'Voltage' }), '38.1')
  await type(reading.getByRole('textbox', { name: 'Bike’s pack' }), '61')
  await expect(found).toContainText(/The converter’s best efficiency is roughly 90\.\d %, .* 95\.5 % was stated/)
  await expect(found).toContainText(/Not to be told from this, and left as it is: what the carried pack holds/)
  await expect(found).toContainText(/come into the pack/)
  await found.getByRole('button', { name: 'Take these figures over' }).click()
  await expect(found.getByRole('status')).toBeVisible()
  await bench(page).getByText('The arrangement').click()
  const efficiency = bench(page).getByRole('textbox', { name: 'Best efficiency' })
  await expect(efficiency).toHaveValue(/^90(\.\d)?$/)
  await found.getByRole('button', { name: 'Back to what was stated' }).click()
  await expect(efficiency).toHaveValue('95.5')
  await expect(found.getByRole('button', { name: 'Take these figures over' })).toBeVisible()

  // Emptied, the reading tells nothing more.
  for (const name of ['Current', 'Voltage', 'Bike’s pack']) await type(reading.getByRole('textbox', { name }), '')
  await expect(found).toBeHidden()
})
