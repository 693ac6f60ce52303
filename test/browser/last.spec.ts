import type { Page } from '@playwright/test'
import { expectSound } from './looks'
import {
  drop,
  expect,
  goTo,
  keptDay,
  keptPlan,
  listOfDays,
  sampleFile,
  sheet,
  test,
  turnTo,
  unfold,
  visit,
} from './page'

const name = 'two-islands-last-year.gpx'
const known = (page: Page) => page.getByRole('region', { name: 'What is known now' })
const takeOver = (page: Page) => page.getByRole('button', { name: 'Use these for rider and bike' })
const sure = (page: Page) => page.getByRole('region', { name: 'The answer' }).getByText(/in 8 of 10/)

/** From the earlier to the later clock that the answer says, min; NaN while it is worked out anew. */
async function span(page: Page): Promise<number> {
  const text = (await sure(page).textContent()) ?? ''
  const [, h, m, hours, minutes] = (/Finish (\d\d):(\d\d) to (\d\d):(\d\d) in 8 of 10/.exec(text) ?? []).map(Number)
  return /anew/.test(text) ? NaN : 60 * (hours! - h!) + minutes! - m!
}

/** What the row of a figure says of it. */
const row = (page: Page, figure: string) => known(page).getByRole('listitem', { name: new RegExp(`^${figure}: `) })

test('last year’s ride is dropped, its charge typed, looked at, taken over, and the answer is surer; undone by one press', async ({
  page,
}) => {
  await visit(page)
  await expect.poll(() => span(page)).toBeGreaterThan(0)
  const before = await span(page)
  await goTo(page, 'Last time')
  await drop(page, name, sampleFile(`last-year/${name}`), '.last')
  const ride = page.getByRole('article', { name: 'Two islands, last year' })
  await expect(ride).toContainText('in 11 halts')
  await expect(ride).toContainText('Travelled, not ridden, at km 96')
  await expect(ride).toContainText('assist would be known to', { timeout: 60_000 })
  await ride.getByLabel('Left at the start').fill('100')
  await ride.getByLabel('Left at the finish').fill('58')
  await ride.getByLabel('Packs along').fill('4')
  await ride.getByLabel('Packs along').press('Enter')
  await expect(ride).not.toContainText('would be known')
  // It is looked at anew: what stands there meanwhile can't be taken.
  await expect(takeOver(page)).toBeDisabled()
  await expect(takeOver(page)).toBeEnabled({ timeout: 60_000 })
  await expect(row(page, 'Power')).toHaveAccessibleName(/learnt$/)
  await expect(row(page, 'Losses of the motor')).toHaveAccessibleName(/not told$/)
  await expect(known(page)).toContainText('So here it foretells better than a mean speed does.')
  await expect(known(page)).toContainText('The charge is not tested so')

  await takeOver(page).click()
  await expect(known(page)).toContainText('Rider and bike are as the ride tells.')
  await expect.poll(() => span(page), { timeout: 60_000 }).toBeLessThan(0.9 * before)
  await unfold(page, 'Rider')
  await expect(
    sheet(page)
      .getByText(/^Learnt from “Two islands, last year”, .* ±\s\d+\s%$/)
      .first(),
  ).toBeVisible()

  const rides = async () => JSON.stringify((await keptDay(page)) as { rides?: unknown } | undefined)
  await expect.poll(() => keptPlan(page)).toContain('"verdict": "learnt"')
  expect(await rides()).toContain(name)
  await page.reload()
  await goTo(page, 'Last time')
  await expect(ride.getByLabel('Left at the finish')).toHaveValue('58')
  await expect(known(page)).toContainText('Rider and bike are as the ride tells.', { timeout: 60_000 })

  await ride.getByText('Bike, luggage and weather that day').click()
  const looks = [
    { theme: 'light', width: 390, height: 844 },
    { theme: 'dark', width: 1440, height: 900 },
  ] as const
  await expectSound(page, looks, '.last')

  await known(page).getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => keptPlan(page)).toContain('"learnt": null')
  await expect.poll(() => span(page), { timeout: 60_000 }).toBe(before)
  await expect(takeOver(page)).toBeEnabled()

  const against = known(page)
    .getByRole('listitem')
    .filter({ hasText: /quicker$|slower$/ })
  await against.last().hover()
  await expect(against.last()).toHaveClass(/lit/)
  // The halts of that day of which the plan has none, by place; waiting to sail is no halt.
  await expect(known(page)).toContainText(/It stands 21 min less at km 21\.\d, 45 min less at km 63\.\d/)
  await page.getByRole('button', { name: 'Keep that day as a plan' }).click()
  await expect(page.getByRole('columnheader', { name: 'Two islands, last year' })).toBeVisible()
})

test('the sample’s ride is one press away; a route without times says so; three numbers do without a recording', async ({
  page,
}) => {
  await visit(page)
  await goTo(page, 'Last time')
  await page.getByRole('button', { name: 'Take last year’s ride of this sample' }).click()
  const ride = page.getByRole('article', { name: 'Two islands, last year' })
  await expect(ride).toContainText('Its rider noted 100 % at the start and 58 % at the finish.')
  await expect(ride.getByLabel('Packs along')).toHaveValue('4')
  await ride.getByText('Bike, luggage and weather that day').click()
  await ride.getByRole('button', { name: 'Paste the weather by the hour' }).click()
  await ride.getByLabel('Table from a spreadsheet').fill('time\twind m/s\tfrom\n06:00\t4\tW\n12:00\t6\tNW')
  await ride.getByRole('button', { name: 'Use this table' }).click()
  await expect(ride).toContainText('Weather by the hour: 2 hours at 1 place.')
  await ride.getByLabel('Lamps').selectOption('on in the dark')
  await ride.getByText('After the ride').click()
  await ride.getByLabel('Note').fill('Cold on the second pass.')
  await ride.getByLabel('Note').blur()
  await expect.poll(async () => JSON.stringify(await keptDay(page))).toContain('Cold on the second pass.')
  await ride.getByRole('button', { name: /^Remove/ }).click()
  await expect(page.getByText('is removed.')).toBeVisible()
  await page.getByRole('button', { name: 'Put it back' }).click()
  await expect(ride.getByLabel('Packs along')).toHaveValue('4')
  await ride.getByRole('button', { name: /^Remove/ }).click()

  await page.getByLabel('Recording', { exact: true }).setInputFiles({
    name: 'plan.gpx',
    mimeType: 'application/gpx+xml',
    buffer: sampleFile('two-islands-165km.gpx'),
  })
  await expect(page.getByText('it has no times, so it is a route, not a ride that was ridden.')).toBeVisible()
  await page.getByRole('button', { name: 'Remove “plan.gpx”' }).click()

  await page.getByRole('button', { name: 'I have no recording' }).click()
  const memory = page.getByRole('article', { name: 'as you remember it' })
  await memory.getByLabel('Riding time').fill('8:40')
  await memory.getByLabel('Packs used').fill('2')
  await memory.getByLabel('Left in the last of them').fill('30')
  await memory.getByLabel('Left in the last of them').press('Enter')
  await expect(takeOver(page)).toBeEnabled({ timeout: 60_000 })
  await expect(row(page, 'Power')).toHaveAccessibleName(/(learnt|roughly)$/)
  await expect(row(page, 'Assist')).toHaveAccessibleName(/(learnt|roughly)$/)

  const training = page.getByRole('region', { name: 'What training is worth' })
  await training.getByRole('button', { name: 'Work it out' }).click()
  await expect(training.getByRole('row', { name: /^10 W more −\d+ min/ })).toBeVisible({ timeout: 60_000 })
  await expect(training.getByRole('row', { name: /^5.0 kg less on you −\d+ min/ })).toBeVisible()
})

test('the display’s steps are told, one is tested on a level road, and is taken with its span', async ({ page }) => {
  await visit(page)
  await unfold(page, 'Assist')
  const steps = sheet(page)
  await steps.getByText('Steps of your display').click()
  await steps.getByLabel('How many steps').fill('3')
  await steps.getByLabel('How many steps').press('Enter')
  const second = steps.getByRole('group', { name: 'Step 2' })
  await expect(second).toContainText('A guess: 50 % to 200 % in 8 of 10.')
  await second.getByLabel('Your word for it').fill('the middle one')
  await second.getByLabel('Your word for it').press('Enter')
  await second.getByText('Test it').click()
  const tell = second.getByRole('button', { name: 'What does it tell?' })
  await expect(tell).toBeDisabled()
  for (const [label, text] of [
    ['One way', '5'],
    ['Speed there', '19'],
    ['Speed back', '20.5'],
    ['Charge used on both', '7'],
  ] as const) {
    await second.getByLabel(label).fill(text)
    await second.getByLabel(label).press('Enter')
  }
  await tell.click()
  await expect(second).toContainText(/Step 2 gives \d+ %: \d+ % to \d+ % in 8 of 10\./)
  await second.getByRole('button', { name: 'Take it' }).click()
  await expect(second).not.toContainText('A guess')
  await second.getByRole('button', { name: 'Step 2 on the flat' }).click()
  await expect.poll(() => keptPlan(page)).toMatch(/"test": \{\s*"length": 5000/)
})

test('what was learnt goes into a new day, is undone there, and the day before has it still, with its own undo', async ({
  page,
}) => {
  const begun = async (file: string) => {
    await drop(page, file, sampleFile(file))
    await expect(page.getByTitle(file)).toBeVisible()
  }
  const learnt = async () => (JSON.parse((await keptPlan(page)) || '{}') as { learnt?: unknown }).learnt
  const power = async () => (JSON.parse(await keptPlan(page)) as { rider: { power: number } }).rider.power
  const open = async (name: RegExp, file: string) => {
    await (await listOfDays(page)).getByRole('button', { name }).click()
    await expect(page.getByTitle(file)).toBeVisible()
  }
  const [town, passes] = ['into-town-18km.gpx', 'two-passes-62km.gpx'] as const
  await visit(page)
  await begun(town)
  await expect.poll(learnt).toBe(null)
  const stated = await power()
  await goTo(page, 'Last time')
  await page.getByRole('button', { name: 'I have no recording' }).click()
  const memory = page.getByRole('article', { name: 'as you remember it' })
  await memory.getByLabel('Riding time').fill('0:48')
  await memory.getByLabel('Packs used').fill('1')
  await memory.getByLabel('Left in the last of them').fill('70')
  await memory.getByLabel('Left in the last of them').press('Enter')
  await expect(takeOver(page)).toBeEnabled({ timeout: 60_000 })
  await takeOver(page).click()
  await expect.poll(learnt).not.toBe(null)
  const told = await power()
  expect(told).not.toBe(stated)

  await begun(passes)
  await expect.poll(power).toBe(told)
  const held = page.getByText('Rider and bike are as told by what you remember.')
  await page.getByRole('button', { name: 'Back to what I stated' }).click()
  await expect.poll(power).toBe(stated)
  expect(await learnt()).toBe(null)
  await expect(held).toHaveCount(0)

  // The day before has it still, and its own undo, also when it is no longer the last step.
  await open(/^Into town/, town)
  await expect.poll(power).toBe(told)
  await turnTo(page, 'This day’s plan')
  await sheet(page).getByLabel('Start').fill('05:10')
  await sheet(page).getByLabel('Start').press('Enter')
  await expect(known(page)).toContainText('Rider and bike are as the ride tells.', { timeout: 60_000 })
  await known(page).getByRole('button', { name: 'Undo' }).click()
  await expect.poll(power).toBe(stated)
  expect(await keptPlan(page)).toContain('T05:10"')
  await page.getByRole('button', { name: 'Undo', exact: true }).first().click()
  await expect.poll(power).toBe(told)

  // And in the new day what was undone comes back by undo.
  await open(/^Harrun Pass/, passes)
  await expect.poll(power).toBe(stated)
  await page.keyboard.press('Control+z')
  await expect.poll(power).toBe(told)
  await expect(held).toBeVisible()
})
