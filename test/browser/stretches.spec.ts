import { AxeBuilder } from '@axe-core/playwright'
import type { Locator, Page } from '@playwright/test'
import {
  answer,
  cursor,
  dragBy,
  dragByFinger,
  expect,
  goTo,
  map,
  mapPin,
  middle,
  placesOnMap,
  profile,
  sheet,
  test,
  turnTo,
  unfold,
  visit,
} from './page'

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
  await turnTo(page, 'Rider and bike')
  await expect(plan.getByText('120 %, climbs 160 %, other on 1 stretch, to 25 km/h')).toBeVisible()
  await turnTo(page, 'This day’s plan')

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

const band = (page: Page, name: RegExp) =>
  profile(page).getByRole('group', { name: 'Stretches' }).getByRole('button', { name })
const end = (where: Locator, which: 'Start' | 'End') => where.getByRole('slider', { name: new RegExp(`^${which} of`) })
const valueOf = async (slider: Locator) => Number(await slider.getAttribute('aria-valuenow'))

/** Marks a stretch at a kilometre with the keyboard's cursor and the button under the profile; its start then has the focus. */
async function markAt(page: Page, kilometre: number): Promise<void> {
  await cursor(page).focus()
  await page.keyboard.press('Home')
  for (let k = 0; k < kilometre; k++) await page.keyboard.press('PageUp')
  await profile(page)
    .getByRole('button', { name: /^Mark a stretch at/ })
    .click()
  // Its part of the page may still be on its way.
  await expect(end(profile(page), 'Start')).toBeFocused()
}

test('by keyboard a stretch is marked, both ends are moved, it says its surface, and it is removed', async ({
  page,
}) => {
  await visit(page)
  const before = await answer(page).textContent()
  await markAt(page, 20)
  const [start, finish] = [end(profile(page), 'Start'), end(profile(page), 'End')]
  await expect(start).toBeFocused()
  expect([await valueOf(start), await valueOf(finish)]).toEqual([20, 25])
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('Shift+ArrowLeft')
  await expect(start).toHaveAttribute('aria-valuetext', 'km 18.9')
  await page.keyboard.press('Tab')
  await expect(finish).toBeFocused()
  await page.keyboard.press('PageUp')
  await expect(finish).toHaveAttribute('aria-valuetext', 'km 26.0')
  await page.keyboard.press('Home')
  await expect(finish, 'an end stops before the other').toHaveAttribute('aria-valuetext', 'km 18.9')
  await page.keyboard.press('Control+z')
  await expect(finish).toHaveAttribute('aria-valuetext', 'km 26.0')
  await expect(map(page).getByRole('slider', { name: 'End of Nothing of its own yet' })).toHaveAttribute(
    'aria-valuetext',
    'km 26.0',
  )

  await profile(page).getByRole('button', { name: 'Change this stretch' }).click()
  const surface = sheet(page).getByLabel('Surface')
  await expect(surface).toBeFocused()
  await surface.selectOption('cobbles')
  await expect(band(page, /^Cobbles, km 18\.9 to 26\.0$/)).toBeVisible()
  await expect(map(page).getByRole('button', { name: 'Cobbles, km 18.9 to 26.0' })).toBeVisible()
  await expect(answer(page)).not.toHaveText(before!)

  await finish.focus()
  await page.keyboard.press('Delete')
  await expect(band(page, /./)).toHaveCount(0)
  await expect(cursor(page)).toBeFocused()
  await expect(page.getByText('Cobbles: the stretch is removed; Undo brings it back.')).toBeVisible()
  await expect(answer(page)).toHaveText(before!)
  await page.keyboard.press('Control+z')
  await expect(band(page, /^Cobbles/)).toBeVisible()
})

test('both ends are dragged on the profile, as far as the neighbour, each drag one step; Escape takes it back', async ({
  page,
}) => {
  await visit(page)
  await markAt(page, 60)
  await markAt(page, 20)
  const [start, finish] = [end(profile(page), 'Start'), end(profile(page), 'End')]
  await dragBy(page, start, -60)
  expect(await valueOf(start), 'it follows before it is let go').toBeLessThan(15)
  await page.mouse.up()
  const left = await start.getAttribute('aria-valuetext')
  await dragBy(page, finish, 600)
  await page.mouse.up()
  await expect(finish).toHaveAttribute('aria-valuetext', 'km 60.0')
  await dragBy(page, start, 40)
  await page.keyboard.press('Escape')
  await page.mouse.up()
  await expect(start).toHaveAttribute('aria-valuetext', left!)

  const undo = page.getByRole('button', { name: 'Undo' })
  await undo.click()
  await expect(finish).toHaveAttribute('aria-valuetext', 'km 25.0')
  await undo.click()
  await expect(start).toHaveAttribute('aria-valuetext', 'km 20.0')
  await band(page, /km 20\.0/).click()
  await expect(start).toHaveCount(0)
  await band(page, /km 60\.0/).click()
  await expect(start).toHaveAttribute('aria-valuetext', 'km 60.0')
})

test('on the map a stretch is selected by its badge, and both ends are dragged along the route', async ({ page }) => {
  // A high map: on a low one the end, dragged to km 30, lies upon the start at km 20.
  await page.setViewportSize({ width: 1440, height: 1300 })
  await visit(page)
  await markAt(page, 20)
  await page.keyboard.press('Escape')
  await expect(end(map(page), 'Start')).toHaveCount(0)
  const [ten, thirty] = await placesOnMap(page, [10, 30])
  await map(page)
    .getByRole('button', { name: /^Nothing of its own yet, km 20\.0 to 25\.0/ })
    .click()
  for (const [which, to, km] of [
    ['End', thirty!, 30],
    ['Start', ten!, 10],
  ] as const) {
    const handle = end(map(page), which)
    const { x, y } = await middle(handle)
    // It hangs from its place by a corner.
    const box = (await handle.locator('.shape').boundingBox())!
    const aside = which === 'End' ? x - box.x : x - (box.x + box.width)
    const below = y - box.y
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(to.x + aside, to.y + below, { steps: 25 })
    await expect
      .poll(async () => Math.abs((await valueOf(handle)) - km), `${which}, before it is let go`)
      .toBeLessThan(0.7)
    await page.mouse.up()
  }
  await expect(mapPin(page, /^Stop/), 'letting go pins no stop').toHaveCount(0)
  const left = await end(map(page), 'Start').getAttribute('aria-valuetext')
  await expect(end(profile(page), 'Start')).toHaveAttribute('aria-valuetext', left!)
  const undo = page.getByRole('button', { name: 'Undo' })
  await undo.click()
  await expect(end(map(page), 'Start')).toHaveAttribute('aria-valuetext', 'km 20.0')
  await end(map(page), 'End').focus()
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('Delete')
  await expect(map(page).getByRole('button', { name: /^Nothing of its own/ })).toHaveCount(0)
})

test('a finger drags an end on a phone, light and dark, and nothing is without a name', async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({
    ...(baseURL && { baseURL }),
    viewport: { width: 390, height: 844 },
    hasTouch: true,
  })
  const page = await context.newPage()
  await visit(page)
  await markAt(page, 80)
  const finish = end(profile(page), 'End')
  await dragByFinger(page, finish, 60)
  await expect.poll(() => valueOf(finish)).toBeGreaterThan(100)
  for (const theme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: theme })
    const { violations } = await new AxeBuilder({ page }).include('.profile').include('.map').analyze()
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([])
  }
  await context.close()
})

test('the day sheet says stretches in sentences, from place to place', async ({ page }) => {
  await visit(page)
  await markAt(page, 82)
  await sheet(page).getByLabel('Surface').selectOption('gravel')
  await goTo(page, 'The day')
  const said = page.getByRole('region', { name: 'Timetable of the day' }).getByRole('list', { name: 'Stretches' })
  await expect(said).toHaveText('Gravel from km 82.0 to Inn at Querrel Sands.')
  const printed = page.getByRole('region', { name: 'As printed' })
  await expect(printed).toContainText('Gravel from km 82.0 to Inn at Querrel Sands.')
  await expect(printed).toContainText('120 % on the flat and 160 % on climbs; the column')
  const assist = sheet(page).getByRole('textbox', { name: 'Assist %' })
  await assist.fill('80')
  await assist.press('Enter')
  await expect(printed).toContainText('120 % on the flat and 160 % on climbs, but where a stretch below says its own; ')
  await expect(printed).toContainText('Gravel, assist 80 % from km 82.0 to Inn at Querrel Sands.')
})
