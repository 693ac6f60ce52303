import type { Route } from '@playwright/test'
import { heightTile } from '../ground'
import { hills, hillyLane } from './hilly-lane'
import { expectSound } from './looks'
import { answer, drop, expect, keptDay, profile, test, visit } from './page'

test('a server of terrain tiles is asked when the rider says so, can refuse, be left off, and lack a tile', async ({
  page,
}) => {
  let answers: 'never' | 'refuses' | 'gives' = 'never'
  const asked: string[] = []
  await page.route('https://heights.example.test/**', async (route: Route) => {
    const address = route.request().url()
    asked.push(address)
    const headers = { 'access-control-allow-origin': '*' }
    const [z, x, y] = /(\d+)\/(\d+)\/(\d+)\.png\?key=k$/.exec(address)!.slice(1).map(Number) as [number, number, number]
    if (answers === 'never') return
    if (answers === 'refuses') return route.fulfill({ status: 403, headers, body: '' })
    await route.fulfill(
      y !== lacking
        ? { headers, contentType: 'image/png', body: heightTile(hills, [z, x, y], 'parts') }
        : { status: 404, headers, body: '' },
    )
  })
  let lacking = -1

  await visit(page)
  await drop(page, 'lane.gpx', hillyLane)
  await expect(answer(page)).toHaveText(/^On flat ground/)
  const bringing = page.getByRole('region', { name: 'Elevation', exact: true })
  await bringing.getByRole('button', { name: 'Bring elevation' }).click()
  const address = bringing.getByLabel('Terrain tiles from')
  await address.fill('http://heights.example.test/{z}/{x}/{y}.png')
  await address.blur()
  await expect(bringing.getByRole('alert')).toHaveText(
    'An address of tiles begins with https://; until then there are no tiles.',
  )
  await address.fill('https://heights.example.test/{z}/{x}.png')
  await address.blur()
  await expect(bringing.getByRole('alert')).toContainText('The address lacks {y}')
  await address.fill('https://heights.example.test/{z}/{x}/{y}.png?key=k')
  await bringing.getByLabel('Their attribution').fill('Surveyors <b>of</b> Tarrovay')
  await expectSound(
    page,
    [390, 1440].flatMap((width) => (['light', 'dark'] as const).map((theme) => ({ theme, width, height: 900 }))),
    '.bring',
  )
  await expect.poll(async () => (await keptDay(page))?.fileName).toBe('lane.gpx')
  await bringing.getByRole('button', { name: 'Load it anew' }).click()

  const ask = bringing.getByRole('button', { name: /^Ask heights\.example\.test for \d+ tiles$/ })
  await bringing.getByRole('button', { name: 'Bring elevation' }).click()
  await expect(ask).toBeVisible()
  expect(asked).toEqual([])
  await ask.click()
  await bringing.getByRole('button', { name: 'Cancel' }).click()
  await expect(ask).toBeVisible()
  answers = 'refuses'
  await ask.click()
  await expect(bringing.getByRole('alert')).toHaveText(
    'The server refuses its tiles (HTTP status 403); nothing was changed.',
  )
  await expect(answer(page)).toHaveText(/^On flat ground/)

  answers = 'gives'
  const [, count] = /for (\d+) tiles/.exec((await ask.textContent())!)!
  // Beside the tile that was asked for first.
  lacking = Number(/(\d+)\.png/.exec(asked.at(-1)!)![1]) + 1
  asked.length = 0
  await ask.click()
  await expect(answer(page)).toHaveText(/^The charge/)
  expect(new Set(asked).size).toBe(Number(count))
  await expect(page.getByRole('complementary', { name: 'Notices' })).toContainText(/\d tiles? (is|are) missing/)
  await expect(profile(page)).toContainText('from heights.example.test, Surveyors <b>of</b> Tarrovay.')
  await expect(bringing).toContainText(/km of the route have no elevation\./)
  const kept = async () => JSON.stringify((await keptDay(page))?.choice ?? '')
  await expect.poll(kept).toContain('heights.example.test')
  expect(await kept(), 'no address, which may hold a key').not.toContain('key=k')
})
