import {
  answer,
  cursor,
  dotOnMap,
  dragBy,
  drop,
  expect,
  footOf,
  legTable,
  map,
  mapPin,
  middle,
  pin,
  placesOnMap,
  profile,
  readout,
  sampleFile,
  sheet,
  test,
  visit,
  type Spot,
} from './page'
import { widerBy } from './looks'
import type { Locator, Page } from '@playwright/test'
import { figureOfEight, gpx, line, track } from './tracks'

async function openTwoPasses(page: Page): Promise<void> {
  await visit(page)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
}

async function openEight(page: Page): Promise<void> {
  await visit(page)
  await drop(page, 'eight.gpx', gpx(track('Eight', figureOfEight())))
  await expect(page.getByTitle('eight.gpx')).toBeVisible()
}

const kmOf = async (stop: Locator) => Number(await stop.getAttribute('aria-valuenow'))
const kilometres = (first: number, last: number) => Array.from({ length: last - first + 1 }, (_, i) => first + i)
const apart = (a: Spot, b: Spot) => Math.hypot(a.x - b.x, a.y - b.y)

/** Takes hold of a pin by its head; the pointer then leads it so that its foot would lie at a spot. */
async function hold(page: Page, stop: Locator): Promise<(foot: Spot) => Promise<void>> {
  const foot = await footOf(stop)
  const head = { x: foot.x, y: foot.y - 26 }
  await page.mouse.move(head.x, head.y)
  await page.mouse.down()
  return ({ x, y }) => page.mouse.move(head.x + x - foot.x, head.y + y - foot.y, { steps: 4 })
}

test('a click on the route pins a stop there, a click beside it none', async ({ page }) => {
  await openTwoPasses(page)
  const [at] = await placesOnMap(page, [22])
  const box = (await map(page).locator('.leaflet-container').boundingBox())!
  await page.mouse.click(box.x + 70, box.y + box.height - 70)
  await expect(pin(page, /Stop/)).toHaveCount(0)
  const before = await answer(page).textContent()
  await page.mouse.click(at!.x, at!.y)
  const stop = mapPin(page, 'Stop 1')
  await expect(stop).toBeVisible()
  await expect(stop).toBeFocused()
  expect(Math.abs((await kmOf(stop)) - 22)).toBeLessThan(0.3)
  expect(apart(await footOf(stop), at!)).toBeLessThan(3)
  await expect(answer(page)).not.toHaveText(before!)
  await expect(pin(page, 'Stop 1')).toHaveAttribute('aria-valuetext', /^km 2[12]\.\d, arrives with \d+ %/)
})

test('a click on a waypoint of the route pins one stop there', async ({ page }) => {
  await openTwoPasses(page)
  const waypoint = map(page)
    .getByRole('button', { name: /Pin a stop here$/ })
    .first()
  const at = Number(/km (\d+\.\d)/.exec((await waypoint.getAttribute('aria-label'))!)![1])
  await waypoint.click()
  await expect(mapPin(page, 'Stop 1')).toBeVisible()
  await expect(pin(page, /Stop/)).toHaveCount(1)
  expect(await kmOf(mapPin(page, 'Stop 1'))).toBeCloseTo(at, 1)
})

test('dragged on the map a stop stays on the route, and the answer follows before it is let go', async ({ page }) => {
  await openTwoPasses(page)
  const spots = await placesOnMap(page, kilometres(0, 17))
  await page.mouse.click(spots[17]!.x, spots[17]!.y)
  const stop = mapPin(page, 'Stop 1')
  await expect(stop).toBeVisible()
  const before = await answer(page).textContent()
  const placed = (await stop.getAttribute('aria-valuenow'))!
  const lead = await hold(page, stop)
  for (let km = 16; km >= 2; km--) await lead(spots[km]!)
  await expect.poll(() => kmOf(stop)).toBeLessThan(2.5)
  // So early the packs are nearly full and take less.
  await expect(answer(page)).not.toHaveText(before!)
  // Away from the route: the pin does not come along.
  await lead({ x: spots[2]!.x + 25, y: spots[2]!.y + 25 })
  await page.mouse.up()
  const dropped = (await stop.getAttribute('aria-valuenow'))!
  const { x, y } = await middle(pin(page, 'Stop 1'))
  await page.mouse.move(x, y, { steps: 3 })
  expect(apart(await dotOnMap(page), await footOf(stop)), 'px between pin and route').toBeLessThan(2)
  await expect(stop).toHaveAttribute('aria-valuenow', dropped)
  await expect(pin(page, /Stop/), 'letting go pins no other').toHaveCount(1)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(answer(page)).toHaveText(before!)
  await expect(stop).toHaveAttribute('aria-valuenow', placed)
})

for (const [pass, from, to] of [
  ['first', 5, 11],
  ['second', 19, 26],
] as const)
  test(`where the route crosses itself a drag keeps to its own pass, the ${pass}`, async ({ page }) => {
    await openEight(page)
    const spots = await placesOnMap(page, kilometres(0, to))
    await page.mouse.click(spots[from]!.x, spots[from]!.y)
    const stop = mapPin(page, 'Stop 1')
    await expect(stop).toBeVisible()
    const lead = await hold(page, stop)
    for (let km = from; km <= to; km++) {
      await lead(spots[km]!)
      await expect.poll(async () => Math.abs((await kmOf(stop)) - km), `at km ${km}`).toBeLessThan(0.5)
    }
    for (let km = to; km >= from; km--) await lead(spots[km]!)
    await page.mouse.up()
    expect(Math.abs((await kmOf(stop)) - from)).toBeLessThan(0.3)
  })

test('the pin on the map obeys the keyboard', async ({ page }) => {
  await visit(page)
  const stop = mapPin(page, 'Inn at Querrel Sands')
  await stop.focus()
  const at = await kmOf(stop)
  const answers = [await answer(page).textContent()]
  const pressed = async (key: string, by: number) => {
    await page.keyboard.press(key)
    await expect.poll(async () => (await kmOf(stop)) - at, key).toBeCloseTo(by, 5)
  }
  await pressed('ArrowRight', 0.1)
  await pressed('Shift+ArrowRight', 1.1)
  await pressed('PageDown', 0.1)
  await pressed('ArrowLeft', 0)
  await expect(answer(page)).toHaveText(answers[0]!)
  await page.keyboard.press('Delete')
  await expect(stop).toHaveCount(0)
  await expect(answer(page)).not.toHaveText(answers[0]!)
  await page.keyboard.press('Control+z')
  await expect(stop).toBeVisible()
  await expect(answer(page)).toHaveText(answers[0]!)
})

test('Escape takes back a drag on the map', async ({ page }) => {
  await openEight(page)
  const spots = await placesOnMap(page, kilometres(0, 6))
  await page.mouse.click(spots[4]!.x, spots[4]!.y)
  const stop = mapPin(page, 'Stop 1')
  await expect(stop).toBeVisible()
  const [at, before] = [await kmOf(stop), await answer(page).textContent()]
  const lead = await hold(page, stop)
  await lead(spots[5]!)
  await lead(spots[6]!)
  await expect.poll(() => kmOf(stop)).toBeGreaterThan(5.5)
  await page.keyboard.press('Escape')
  await expect.poll(() => kmOf(stop)).toBe(at)
  await page.mouse.up()
  await expect(answer(page)).toHaveText(before!)
  await expect(pin(page, /Stop/)).toHaveCount(1)
})

test('pointing at the map moves the readout and the profile’s cursor, and the other way round', async ({ page }) => {
  await openTwoPasses(page)
  const [at] = (await placesOnMap(page, [33])) as [Spot]
  const box = (await profile(page).locator('canvas').boundingBox())!
  await page.mouse.move(at.x, at.y)
  await expect(readout(page)).toContainText(/km 3[23]\.\d/)
  await expect
    .poll(async () => Math.abs(Number(await cursor(page).getAttribute('aria-valuenow')) - 33_000))
    .toBeLessThan(300)
  const shown = await middle(profile(page).locator('.cursor'))
  expect(shown.x).toBeGreaterThan(box.x + 0.45 * box.width)
  expect(shown.x).toBeLessThan(box.x + 0.6 * box.width)

  await page.mouse.move(shown.x, box.y + box.height / 2)
  await expect(readout(page)).toContainText(/km 3[23]\.\d/)
  expect(apart(await dotOnMap(page), at), 'px between the dot and the place pointed at').toBeLessThan(8)
  await page.mouse.move(box.x + 0.2 * box.width, box.y + box.height / 2)
  await expect(readout(page)).toContainText(/km (9|1\d)\.\d/)
  expect(apart(await dotOnMap(page), at)).toBeGreaterThan(40)

  await page.mouse.move(2, 2)
  await expect(map(page).locator('.dot')).toHaveCount(0)
  await expect(readout(page)).toContainText('At the start')
})

test('a pointer that goes from the map straight onto a pin of the profile moves the cursor to that stop', async ({
  page,
}) => {
  await visit(page)
  const [at] = (await placesOnMap(page, [60])) as [Spot]
  const stop = await middle(pin(page, 'Inn at Querrel Sands'))
  await page.mouse.move(at.x, at.y)
  await expect(readout(page)).toContainText(/km (59|60)\.\d/)
  await page.mouse.move(stop.x, stop.y)
  await expect(readout(page)).toContainText('km 87.1')
  await page.mouse.move(2, 2)
  await expect(readout(page)).toContainText('At the start')
})

test('controls stand on the map as gates; one that is missed is barred and says by how much', async ({ page }) => {
  await visit(page)
  const gate = map(page).getByRole('button', { name: /^Control Tollan Spring/ })
  await expect(gate).toHaveAttribute('aria-label', /min to spare, km 124\.5, closes 15:00/)
  await expect(gate).not.toHaveClass(/missed/)
  const shape = () => gate.locator('.shape').evaluate((element) => getComputedStyle(element).borderBottomWidth)
  expect(await shape()).toBe('0px')

  // Two hours more at the inn, typed; and back.
  const stay = sheet(page).getByRole('textbox', { name: 'Stay for' })
  await stay.fill('160')
  await stay.press('Enter')
  await expect(gate).toHaveAttribute('aria-label', /min too late, km 124\.5/)
  await expect(gate).toHaveClass(/missed/)
  await expect(gate.locator('.label')).toHaveText(/^Tollan Spring, .*min too late$/)
  expect(await shape()).not.toBe('0px')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(gate).not.toHaveClass(/missed/)

  // Its label follows a stop that is dragged from before it, and before the ferry, to behind it.
  const label = async () => (await gate.locator('.label').textContent())!
  const before = await label()
  await dragBy(page, pin(page, 'Inn at Querrel Sands'), 300)
  await expect.poll(label).not.toBe(before)
  await page.keyboard.press('Escape')
  await page.mouse.up()
  await expect.poll(label).toBe(before)

  // A press pins a stop at the gate; a drag of the map that begins on it pins none.
  const { x, y } = await middle(gate)
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x - 60, y - 20, { steps: 5 })
  await page.mouse.up()
  await expect.poll(async () => Math.round((await middle(gate)).x - x)).toBeLessThan(-30)
  await expect(mapPin(page, /./)).toHaveCount(1)
  await gate.click()
  await expect.poll(() => kmOf(mapPin(page, 'Stop 2'))).toBe(124.5)
})

test('a leg pointed at in the table stands out on map and profile, and a press shows it whole', async ({ page }) => {
  await openTwoPasses(page)
  const drawn = () =>
    map(page)
      .locator('canvas.route')
      .evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL())
  const plain = await drawn()
  const row = legTable(page).locator('tbody tr').nth(2)
  await row.hover()
  await expect(row).toHaveClass(/lit/)
  await expect(profile(page).locator('.leg')).toHaveCount(1)
  await expect.poll(async () => (await drawn()) === plain).toBe(false)
  await page.mouse.move(2, 2)
  await expect(profile(page).locator('.leg')).toHaveCount(0)
  await expect.poll(async () => (await drawn()) === plain).toBe(true)

  const chart = profile(page).locator('canvas')
  await chart.scrollIntoViewIfNeeded()
  const box = (await chart.boundingBox())!
  await page.mouse.move(box.x + 0.45 * box.width, box.y + box.height / 2)
  await expect(legTable(page).locator('tr.lit')).toHaveCount(1)
  await page.mouse.move(2, 2)

  const [from, to] = (await placesOnMap(page, [20, 30])) as [Spot, Spot]
  await page.getByRole('button', { name: 'Leg 3, show on the map' }).click()
  const spread = async () => {
    const [a, b] = (await placesOnMap(page, [20, 30])) as [Spot, Spot]
    return apart(a, b) / apart(from, to)
  }
  await expect.poll(spread).toBeGreaterThan(1.8)
  const frame = (await map(page).locator('.leaflet-container').boundingBox())!
  for (const { x, y } of await placesOnMap(page, kilometres(20, 30))) {
    expect(x).toBeGreaterThan(frame.x)
    expect(x).toBeLessThan(frame.x + frame.width)
    expect(y).toBeGreaterThan(frame.y)
    expect(y).toBeLessThan(frame.y + frame.height)
  }
  await page.getByRole('button', { name: 'Whole route' }).click()
  await expect.poll(spread).toBeCloseTo(1, 1)
})

const tile = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)

test('without network one quiet line says so, and a coarse base is there; with it the line is gone', async ({
  page,
  context,
}) => {
  await visit(page)
  const note = map(page).getByRole('status')
  await expect(note).toBeHidden()
  await drop(page, 'far.gpx', gpx(line('Far', 1500)))
  await expect(page.getByTitle('far.gpx')).toBeVisible()
  await expect(note).toHaveText('No network: coarse base map only.')
  // The land on which the route lies fills the map: its middle and its corners are in it.
  const isLand = () =>
    map(page).evaluate((map) => {
      const { left, top, width, height } = map.getBoundingClientRect()
      const paths = [...map.querySelectorAll<SVGGeometryElement>('.leaflet-coarse-pane path')]
      return [0.05, 0.5, 0.95].every((x) =>
        [0.05, 0.5, 0.95].every((y) =>
          paths.some((path) =>
            path.isPointInFill(
              new DOMPoint(left + x * width, top + y * height).matrixTransform(path.getScreenCTM()!.inverse()),
            ),
          ),
        ),
      )
    })
  await expect.poll(isLand, 'whether there is land below all of the map').toBe(true)

  // On a telephone no label lies under the line.
  await page.setViewportSize({ width: 390, height: 844 })
  const under = () =>
    map(page).evaluate((map) => {
      const note = map.querySelector('.note')!.getBoundingClientRect()
      return [...map.querySelectorAll('.sign .label:not(.quiet)')]
        .filter((label) => {
          const { left, right, top, bottom } = label.getBoundingClientRect()
          return left < note.right && note.left < right && top < note.bottom && note.top < bottom
        })
        .map(({ textContent }) => textContent)
    })
  await expect.poll(under).toEqual([])
  await page.setViewportSize({ width: 1440, height: 900 })

  await context.setOffline(true)
  await expect(note).toHaveText('No network: coarse base map only.')
  await page.route('https://tile.openstreetmap.org/**', (route) =>
    route.fulfill({ contentType: 'image/png', body: tile }),
  )
  await context.setOffline(false)
  await expect(note).toBeHidden()
  await expect(map(page).locator('.leaflet-control-attribution')).toContainText('OpenStreetMap')
})

test('tiles come from the rider’s own address, and their attribution is text', async ({ page }) => {
  const asked: string[] = []
  page.on('request', (request) => {
    if (!request.url().startsWith('http://localhost')) asked.push(request.url())
  })
  await page.route('https://tiles.example.test/**', (route) => route.fulfill({ contentType: 'image/png', body: tile }))
  await visit(page)
  await page.getByText('View', { exact: true }).click()
  const address = page.getByLabel('Map tiles from', { exact: true })
  await address.fill('https://tiles.example.test/{z}/{x}/{y}.png')
  await address.press('Tab')
  await expect(page.getByText('This server is asked once the page is loaded anew')).toBeVisible()
  await page.getByRole('button', { name: 'Load it anew' }).click()
  await page.getByText('View', { exact: true }).click()
  await expect(address).toHaveValue('https://tiles.example.test/{z}/{x}/{y}.png')
  await expect(page.getByText('This server is asked once')).toHaveCount(0)
  const attribution = page.getByLabel('Their attribution')
  const markup = '<b>Own</b> tiles <img src="x" onerror="document.title=1">'
  await attribution.fill(markup)
  await attribution.press('Tab')
  expect(asked, 'invented islands need no tiles').toEqual([])
  await drop(page, 'far.gpx', gpx(line('Far', 1500)))
  await expect(page.getByTitle('far.gpx')).toBeVisible()
  await expect.poll(() => asked.length).toBeGreaterThan(0)
  const shown = map(page).locator('.leaflet-control-attribution')
  await expect(shown).toContainText(markup)
  await expect(shown.locator('b, img')).toHaveCount(0)
  await expect(map(page).getByRole('status')).toBeHidden()
  await expect(map(page).locator('img.leaflet-tile-loaded').first()).toBeVisible()
  for (const url of asked) expect(url).toMatch(/^https:\/\/tiles\.example\.test\/\d+\/\d+\/\d+\.png$/)
  expect(await page.title()).toBe('Wattfare')
})

test('tiles: whose server is asked is said once; an address that can’t be one is refused with the reason; off, none is asked', async ({
  page,
}) => {
  const asked: string[] = []
  page.on('request', (request) => {
    if (!request.url().startsWith('http://localhost')) asked.push(request.url())
  })
  await page.route('https://tile.openstreetmap.org/**', (route) =>
    route.fulfill({ contentType: 'image/png', body: tile }),
  )
  await visit(page)
  await openTwoPasses(page)
  const told = map(page).getByText('Tiles of this map come from tile.openstreetmap.org')
  await expect(told).toHaveCount(0)
  expect(asked, 'before a route of the rider’s own').toEqual([])
  await drop(page, 'far.gpx', gpx(line('Far', 1500)))
  await expect(told).toBeVisible()
  await map(page).getByRole('button', { name: 'Close' }).click()
  await expect(told).toHaveCount(0)
  await expect.poll(() => asked.length).toBeGreaterThan(0)

  await page.getByText('View', { exact: true }).click()
  const address = page.getByLabel('Map tiles from', { exact: true })
  for (const [typed, why] of [
    ['ftp://tiles.example.test/{z}/{x}/{y}.png', 'begins with https://'],
    ['https://tiles.example.test/{z}/{y}.png', 'lacks {x}'],
    ['https://tiles.example.test/{z}/{x}/{y}/{key}.png', 'What {key}'],
    ['https:///{z}/{x}/{y}.png', 'no address of a server'],
    ["https://a;b'/{z}/{x}/{y}.png", 'no address of a server'],
  ] as const) {
    await address.fill(typed)
    await address.press('Tab')
    await expect(page.getByRole('alert').filter({ hasText: why })).toContainText(
      'until then tiles come from OpenStreetMap',
    )
    await expect(address).toHaveAttribute('aria-invalid', 'true')
  }
  await page.setViewportSize({ width: 390, height: 844 })
  expect(await widerBy(page), 'px wider than a phone').toBeLessThanOrEqual(0)
  await address.fill('')
  await address.press('Tab')
  await expect(address).toHaveAttribute('aria-invalid', 'false')

  await page.getByLabel('Map tiles from the network').uncheck()
  await expect(map(page).locator('img.leaflet-tile')).toHaveCount(0)
  const before = asked.length
  await page.reload()
  await expect(page.getByTitle('far.gpx')).toBeVisible()
  await expect(map(page).locator('.leaflet-coarse-pane svg')).toBeVisible()
  await map(page).getByRole('button', { name: 'Zoom in' }).click()
  await expect(told).toHaveCount(0)
  expect(asked.length, 'tiles are off').toBe(before)
})

test('no image is shown but of the page itself and the tiles’ server; no script in the page, no style of an element, no other host', async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext(baseURL === undefined ? {} : { baseURL })
  const page = await context.newPage()
  await context.route(/example\.test|openstreetmap/, (route) => route.fulfill({ contentType: 'image/png', body: tile }))
  await visit(page)
  const shown = (src: string) =>
    page.evaluate(async (src) => {
      const image = new Image()
      image.src = src
      return image.decode().then(
        () => true,
        () => false,
      )
    }, src)
  expect(await shown('https://elsewhere.example.test/plan.png')).toBe(false)
  expect(await shown('https://tile.openstreetmap.org/0/0/0.png')).toBe(true)
  expect(await shown('./icons/icon-192.png')).toBe(true)
  const broken = await page.evaluate(async () => {
    const broken: string[] = []
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => broken.push(effectiveDirective))
    const script = document.createElement('script')
    script.append('document.title = "run"')
    document.head.append(script)
    const marked = document.createElement('div')
    marked.setAttribute('style', 'color: red')
    document.body.append(marked)
    await fetch('https://elsewhere.example.test/').catch(() => undefined)
    await new Promise((resolve) => setTimeout(resolve))
    return broken
  })
  expect(await page.title()).toBe('Wattfare')
  expect(broken).toEqual(expect.arrayContaining(['style-src-attr', 'connect-src']))
  await context.close()
})
