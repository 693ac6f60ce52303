import type { Page } from '@playwright/test'
import { answer, drop, expect, goTo, pin, sheet, test, unfold, visit } from './page'
import { gpx, line } from './tracks'

const notices = (page: Page) => page.getByRole('complementary', { name: 'Notices' })

const removeStop = (page: Page) => sheet(page).getByRole('button', { name: 'Remove this stop' }).click()

test('messages name the file, stand beside each other, and go when what they are about is over', async ({ page }) => {
  await visit(page)
  await drop(page, 'notes.gpx', Buffer.from('these are my notes'))
  await expect(page.getByRole('alert')).toContainText('“notes.gpx”: This is not a GPX or KML file')
  await drop(page, 'table.json', Buffer.from('x'))
  await expect(page.getByRole('alert'), 'the file that was last tried takes the place of the other').toHaveText(
    /^“table.json”: /,
  )
  await removeStop(page)
  await expect(notices(page).getByRole('status')).toContainText('is removed')
  await expect(page.getByRole('alert'), 'two stand').toContainText('table.json')

  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await expect(notices(page).getByRole('status'), 'what was removed is back').toHaveCount(0)
  await expect(page.getByRole('alert')).toContainText('table.json')

  await drop(page, 'dyke.gpx', gpx(line('Dyke', 500)))
  await expect(page.getByTitle('dyke.gpx')).toBeVisible()
  await expect(notices(page), 'a good route ends what was said of a bad one').toHaveCount(0)
})

test('on a phone messages cover nothing that is to be pressed', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 })
  await visit(page)
  await drop(page, `${'a long name of a file '.repeat(9)}.gpx`, Buffer.from('these are my notes'))
  await expect(page.getByRole('alert')).toBeVisible()
  await removeStop(page)
  await expect(notices(page).getByRole('status')).toBeVisible()
  const covered = () =>
    page.evaluate(() => {
      const box = document.querySelector('aside[aria-label="Notices"]')!
      const all = document.querySelectorAll<HTMLElement>('button, input, select, summary, a[href], [role="slider"]')
      const seen = [...all].filter((element) => !box.contains(element) && element.checkVisibility())
      const under = seen.filter((element) => {
        element.scrollIntoView({ block: 'nearest' })
        const { top, bottom, height } = element.getBoundingClientRect()
        const over = box.getBoundingClientRect()
        return height > 0 && bottom > over.top && top < over.bottom
      })
      return { seen: seen.length, under: under.map((element) => element.outerHTML.slice(0, 200)) }
    })
  const { seen, under } = await covered()
  expect(seen).toBeGreaterThan(30)
  expect(under).toEqual([])
  // The very last of the page can be pressed too.
  await goTo(page, 'What comes along')
  await expect(answer(page)).toContainText('charge')
})

// Parts of the program may still be on their way when a test is over.
test.afterEach(({ page }) => page.unrouteAll({ behavior: 'ignoreErrors' }))

/** Opens the built program with a fault put into it. @returns sets the rider's power */
async function riderWithFault(page: Page, good: RegExp, bad: string): Promise<(watts: string) => Promise<void>> {
  await page.route('**/*.js', async (route) => {
    const response = await route.fetch()
    await route.fulfill({ response, body: (await response.text()).replace(good, bad) })
  })
  await visit(page)
  await unfold(page, 'Rider')
  const power = sheet(page).getByRole('textbox', { name: /^Steady power/ })
  return async (watts) => {
    await power.fill(watts)
    await power.press('Enter')
  }
}

test('a fault of the model leaves the last good answer, gives a report, and the next edit or undo gets out of it', async ({
  page,
  context,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  // The built program with a fault put into it: the model throws for a rider of 137 W.
  const set = await riderWithFault(
    page,
    /([\w$]+)\.rider\.smallHalts/g,
    '($1.rider.power===137?$1.rider.none.none:$1.rider.smallHalts)',
  )
  await set('136')
  const before = await answer(page).textContent()
  await set('137')
  const alert = notices(page).getByRole('alert')
  await expect(alert).toContainText('by a fault of this program')
  await expect(answer(page)).toHaveText(before!)
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await notices(page).getByRole('button', { name: 'Copy a report' }).click()
  await expect(notices(page).getByRole('button', { name: 'Copied' })).toBeVisible()
  const report = await page.evaluate(() => navigator.clipboard.readText())
  expect(JSON.parse(report)).toMatchObject({ program: 'wattfare', plan: { rider: { power: 137 } } })
  expect(report).not.toContain('Querrel')

  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await expect(notices(page)).toHaveCount(0)
  await expect(answer(page)).toHaveText(before!)
  await set('137')
  await expect(alert).toBeVisible()
  await set('90')
  await expect(notices(page)).toHaveCount(0)
  await expect(answer(page)).not.toHaveText(before!)

  await set('137')
  await expect(alert).toBeVisible()
  await drop(page, 'dyke.gpx', gpx(line('Dyke', 500)))
  await expect(page.getByTitle('dyke.gpx')).toBeVisible()
  await expect(notices(page), 'another day is no part of it').toHaveCount(0)
})

test('a fault in the legs leaves all else, gives a report, and the next edit gets out of it', async ({ page }) => {
  // The built program with a fault put into it: the model throws at the legs of a rider of 137 W.
  const set = await riderWithFault(
    page,
    /([\w$]+)\.legs\.by===(.)terrain/g,
    '($1.rider.power===137?$1.none.none:$1.legs.by)===$2terrain',
  )
  const alert = notices(page).getByRole('alert')
  const before = await answer(page).textContent()
  await set('137')
  await expect(alert).toContainText('A part of this page could not be worked out')
  await expect(answer(page)).not.toHaveText(before!)
  await expect(notices(page).getByRole('button', { name: 'Copy a report' })).toBeVisible()
  await set('136')
  await expect(notices(page)).toHaveCount(0)
})

test('a fault in what a view reads leaves the last good answer on all of the page, and the next edit gets out of it', async ({
  page,
}) => {
  // The built program with a fault put into it: what the packs gave can't be read of the ride of a rider of 137 W.
  const set = await riderWithFault(
    page,
    /([\w$]+)\.electric\.drained/g,
    '($1.plan.rider.power===137?$1.none.none:$1.electric.drained)',
  )
  await set('136')
  const before = await answer(page).textContent()
  const alert = notices(page).getByRole('alert')
  await set('137')
  await expect(alert).toContainText('what is shown is from before your last change')
  await expect(answer(page)).toHaveText(before!)
  await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  await expect(sheet(page).getByRole('textbox', { name: /^Steady power/ })).toHaveValue('137')
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await expect(notices(page)).toHaveCount(0)
  await set('137')
  await expect(alert).toBeVisible()
  await set('90')
  await expect(notices(page)).toHaveCount(0)
  await expect(answer(page)).not.toHaveText(before!)
})
