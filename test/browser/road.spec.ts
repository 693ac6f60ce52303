import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { roadFor, type RoadReport } from '../../src/cli/road'
import { easedOff, waysOn } from '../../src/model/studies/ride-on'
import { doorWith } from './door'
import { expectSound } from './looks'
import { answer, expect, goTo, keptPlan, sampleFile, servedFromKept, test as base } from './page'
import { openHost, type Host } from './server'

const test = base.extend<{ host: Host }>({
  host: async ({}, use) => {
    const host = await openHost()
    await use(host)
    await host.stop()
  },
})
test.use({ serviceWorkers: 'allow', viewport: { width: 390, height: 844 }, hasTouch: true })

const road = (page: Page) => page.getByRole('region', { name: 'On the road' })

/** The sample up to the middle of its points. */
const half = (() => {
  const text = sampleFile('two-islands-165km.gpx').toString()
  const points = text.split('<trkpt')
  return points.slice(0, points.length / 2).join('<trkpt')
})()

async function read(page: Page, km: string, charge: string, clock: string): Promise<void> {
  const fields = road(page)
  await fields.getByLabel('km', { exact: true }).fill(km)
  await fields.getByLabel('Charge, %').fill(charge)
  await fields.getByLabel('Clock').fill(clock)
  await fields.getByRole('button', { name: 'How does the rest go?' }).click()
}

/** A share of days as the page writes it, but for `about`. */
const ofHundred = (percent: number) => `${percent.toFixed(0)} of 100`
const clock = (local: string) => local.slice(11)

/** Of 100 days those on which the charge lasts, as soon as the answer is of all that was read. */
async function chance(page: Page): Promise<number> {
  await expect(road(page).locator('.answer')).toHaveAttribute('aria-busy', 'false')
  const said = await road(page).getByRole('heading', { name: 'such days' }).textContent()
  return Number(/(\d+) of/.exec(said!)![1])
}

test('on the way, on a phone without network: two readings, each moves the chance the right way, and both are there after a reload', async ({
  page,
  host,
}) => {
  await page.goto(host.address)
  await expect(answer(page)).toContainText('charge')
  await servedFromKept(page)
  await host.stop()
  const morning = page.locator('.sure').getByRole('status')
  await expect(morning).toHaveAttribute('aria-busy', 'false')
  const before = Number(/In (\d+) of 100 such days/.exec((await morning.textContent())!)![1])
  await goTo(page, 'On the road')

  // As planned 73 % at km 43.6 and 60 % at km 65.4.
  await read(page, '43.6', '69', '07:52')
  const low = await chance(page)
  expect(low).toBeLessThan(before)
  await read(page, '65.4', '62', '08:45')
  await expect(road(page).getByRole('listitem')).toHaveCount(2)
  await expect.poll(() => chance(page)).toBeGreaterThan(low)
  const high = await chance(page)
  expect(high).toBeGreaterThan(50)
  await expect(road(page)).toContainText('The sailing at km 96')

  await expect.poll(() => keptPlan(page)).toContain('"charge": 0.62')

  // The same plan and readings by the door for scripts: to the digit what is on screen.
  const words = ['two-islands-165km.gpx', '--plan', 'plan', '--json', '--power', '60']
  const told = JSON.parse(await roadFor(words, doorWith(await keptPlan(page)))) as RoadReport
  const wayOf = (assist: number) => told.ways.find((way) => way.assist === assist && way.power_W === null)!
  // As it lasts on 90 days of 100.
  const eased = easedOff((factor) => factor <= (told.ride_on_at ?? 0))
  for (const [name, assist] of [
    ['Ease off', eased],
    ['As planned', waysOn.planned],
    ['Spend more', waysOn.more],
  ] as const) {
    const { reserve_pct, finish, left_pct } = wayOf(assist)
    const cells = road(page).getByRole('row', { name }).getByRole('cell')
    await expect(cells).toContainText([
      ofHundred(reserve_pct),
      `${clock(finish.low)} to ${clock(finish.high)}`,
      `${left_pct.low.toFixed(0)} to ${left_pct.high.toFixed(0)} %`,
    ])
  }
  expect(high).toBe(Math.round(wayOf(1).reserve_pct))
  const sailing = told.deadlines.find(({ kind }) => kind === 'sailing')!
  await expect(road(page)).toContainText(`The sailing at km ${sailing.km.toFixed(0)}, by ${clock(sailing.latest)}: in`)
  await expect(road(page)).toContainText(`${ofHundred(sailing.chance_pct)}`)
  await page.reload()
  await goTo(page, 'On the road')
  await expect(road(page).getByRole('listitem')).toHaveCount(2)
  await expect.poll(() => chance(page)).toBe(high)

  await road(page).getByRole('button', { name: 'Remove km 65.4' }).click()
  await expect(road(page).getByRole('listitem')).toHaveCount(1)
  await expect.poll(() => chance(page)).toBe(low)

  await road(page).getByRole('button', { name: 'I can’t go on like this' }).click()
  await expect(road(page).getByRole('region').getByRole('status')).toContainText('At 60 W the charge lasts')
  await expect(road(page).getByRole('row', { name: /^Finish/ })).toBeVisible()
})

test('where the rider is comes from the device where that is allowed, and goes nowhere', async ({
  page,
  context,
  host,
}) => {
  await page.goto(`${host.address}#road`)
  await expect(answer(page)).toContainText('charge')
  const sent: string[] = []
  const here = road(page).getByRole('button', { name: 'Where I am' })
  const said = road(page).locator('form').getByRole('status')
  await expect(road(page).getByRole('button', { name: 'How does the rest go?' })).toBeVisible()
  page.on('request', (request) => {
    // The rest of the page is kept meanwhile, from where it came; a position would be in an address or a body.
    const isOfPage = request.url().startsWith(host.address) && !request.url().includes('?')
    if (!isOfPage || request.postData() !== null) sent.push(request.url())
  })
  await here.click()
  await expect(said).toContainText('This device does not say where it is')

  await context.grantPermissions(['geolocation'])
  const [, latitude, longitude] = /<trkpt lat="([^"]+)" lon="([^"]+)">(?:(?!<trkpt)[^])*$/.exec(half)!
  await context.setGeolocation({ latitude: Number(latitude), longitude: Number(longitude) })
  await here.click()
  const km = road(page).getByLabel('km', { exact: true })
  await expect(km).toHaveValue(/^\d+(\.\d)?$/)
  const at = Number(await km.inputValue())
  expect(at).toBeGreaterThan(40)
  expect(at).toBeLessThan(130)
  await expect(road(page).getByLabel('Clock')).toHaveValue(/^\d\d:\d\d$/)

  await context.setGeolocation({ latitude: Number(latitude) + 1, longitude: Number(longitude) })
  await here.click()
  await expect(said).toContainText('from the route; type how far you are.')
  expect(sent).toEqual([])
})

test('what is typed on the way and can’t be is named in a sentence, and the screen can be read in the sun', async ({
  page,
  host,
}) => {
  await page.goto(`${host.address}#road`)
  await expect(answer(page)).toContainText('charge')
  await read(page, '400', '69', '07:52')
  await expect(road(page).getByRole('status')).toContainText('How far must be a number from 0 to 165.5 km.')
  await read(page, '43.6', '169', '07:52')
  await expect(road(page).getByRole('status')).toContainText('The charge must be a number from 0 to 100.')
  await read(page, '43.6', '69', '07:52')
  await chance(page)
  await read(page, '65', '50', '07:30')
  await expect(road(page).getByRole('status')).toContainText('not later than the reading before')
  const small = await road(page)
    .locator('input, button')
    .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 48).map((one) => one.outerHTML))
  expect(small).toEqual([])
  await road(page).getByRole('button', { name: 'I can’t go on like this' }).click()
  await expect(road(page).getByRole('row', { name: /^Finish/ })).toBeVisible()
  const phone = { width: 390, height: 844 }
  const looks = (['light', 'dark'] as const).map((theme) => ({ theme, ...phone }))
  await expectSound(page, looks, '.road', async () => {
    const axe = new AxeBuilder({ page }).include('.road').withRules('color-contrast-enhanced')
    const { violations } = await axe.analyze()
    expect(violations.flatMap(({ nodes }) => nodes.map(({ html }) => html))).toEqual([])
  })
})
