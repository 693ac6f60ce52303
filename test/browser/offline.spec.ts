import { readdirSync, readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { writePlan } from '../../src/model/plan/write'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { WHOLE_FILE } from '../../src/model/route/reading'
import { writeDay } from '../../src/state/day-file'
import { islands, islandTiles, tilesOver, writePmtiles } from '../pmtiles'
import { heightArchive } from '../ground'
import { aboutLane, hills, hillyLane } from './hilly-lane'
import { expectSound, widerBy } from './looks'
import {
  given,
  answer,
  drop,
  dragBy,
  dragByFinger,
  expect,
  goTo,
  keptDay,
  keptPlan,
  keptStops,
  listOfDays,
  map,
  pagesOf,
  pin,
  sampleFile,
  servedFromKept,
  sheet,
  test as base,
  unfold,
} from './page'
import { openHost, type Host } from './server'

/** The page on a host of its own, which can be stopped. */
const test = base.extend<{ host: Host }>({
  host: async ({}, use) => {
    const host = await openHost()
    await use(host)
    await host.stop()
  },
})
test.use({ serviceWorkers: 'allow' })

/** Opens the page and waits until all of it is kept and it is served from there. */
async function visitAndKeep(page: Page, host: Host): Promise<void> {
  await page.goto(host.address)
  await expect(answer(page)).toContainText('charge')
  await servedFromKept(page)
}

const mapFile = { name: 'islands.pmtiles', mimeType: 'application/octet-stream', buffer: islandTiles() }

/** How many pixels of an area are drawn on the map. */
const painted = (page: Page): Promise<number> =>
  map(page)
    .locator('.leaflet-area-pane canvas')
    .evaluateAll((tiles) =>
      (tiles as HTMLCanvasElement[]).reduce((sum, tile) => {
        if (tile.width === 0) return sum
        const { data } = tile.getContext('2d')!.getImageData(0, 0, tile.width, tile.height)
        return sum + data.reduce((count, value, i) => count + (i % 4 === 3 && value > 0 ? 1 : 0), 0)
      }, 0),
    )

test('a first visit, then neither network nor server: the kept day opens with all its views, is dragged, printed, drawn over a map, and left for another and back', async ({
  page,
  host,
}) => {
  await visitAndKeep(page, host)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  const chart = (await page.getByRole('region', { name: 'Profile' }).locator('canvas').boundingBox())!
  await page.mouse.click(chart.x + chart.width * 0.4, chart.y + chart.height * 0.6)
  await expect(pin(page, 'Stop 1')).toBeVisible()
  const said = await answer(page).textContent()
  await expect.poll(async () => String(await keptPlan(page))).toContain('Stop 1')

  await host.stop()
  await page.context().setOffline(true)
  await page.reload()
  await expect(answer(page)).toHaveText(said!)
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await expect(map(page)).toContainText('Invented islands')
  expect(await page.evaluate(() => document.fonts.ready.then((fonts) => fonts.check('1rem "Overpass Variable"')))).toBe(
    true,
  )

  await dragBy(page, pin(page, 'Stop 1'), 150)
  await expect(answer(page)).not.toHaveText(said!)
  await page.mouse.up()

  await goTo(page, 'The day')
  await expect(page.getByRole('button', { name: 'Save as calendar' })).toBeVisible()
  await goTo(page, 'Charging')
  await expect(page.getByRole('region', { name: 'Bench', exact: true })).toBeVisible()
  await goTo(page, 'What comes along')
  await expect(page.getByRole('button', { name: /kit/i }).first()).toBeVisible()
  for (const group of ['Rider', 'Bike', 'Batteries', 'Assist', 'Weather', 'Route']) await unfold(page, group)
  await expect(sheet(page).getByText('two-passes-62km.gpx')).toBeVisible()
  await expect(page.getByText('One moment.')).toHaveCount(0)
  await expect(page.getByText('could not be loaded')).toHaveCount(0)

  await goTo(page, 'The ride')
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save the legs as CSV' }).click()
  expect(readFileSync(await (await saving).path(), 'utf8')).toContain('Stop 1')

  // Another sample, and a KML file: what reads it is fetched by the worker.
  await page.getByText('Samples', { exact: true }).click()
  await page.getByRole('button', { name: /Into town/ }).click()
  await expect(page.getByTitle('into-town-18km.gpx')).toBeVisible()
  await drop(
    page,
    'lane.kml',
    Buffer.from(
      '<kml><Placemark><name>Lane</name><LineString><coordinates>0,50,5 0,50.05,9</coordinates></LineString></Placemark></kml>',
    ),
  )
  await expect(page.getByTitle('lane.kml')).toBeVisible()

  // Back to the day with the stop, by the list; on paper, and over a map that is opened now.
  await (await listOfDays(page)).getByRole('button', { name: /^Harrun Pass/ }).click()
  await expect(pin(page, 'Stop 1')).toBeVisible()
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByRole('article')).toContainText('Stop 1')
  await expect(page.getByRole('button', { name: 'Open a route' })).toBeHidden()
  expect(pagesOf(await page.pdf({ format: 'A4' }))).toBe(1)
  await page.emulateMedia({ media: 'screen' })
  await page.getByText('View', { exact: true }).click()
  await page.getByLabel('Map file', { exact: true }).setInputFiles(mapFile)
  await expect.poll(() => painted(page), 'pixels of the area').toBeGreaterThan(10_000)

  await page.goto(`${host.address}docs/formulas.html#air`)
  await expect(page.getByRole('heading', { name: 'Drag of the air' })).toBeInViewport()
})

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true })

  test('a first visit to the answer, the one file of a day, then no network: the day is there and a finger drags its stop', async ({
    page,
    host,
  }) => {
    await visitAndKeep(page, host)
    const plan = {
      ...defaultPlan(),
      stops: [defaultStop('stop-1', 'Ennock Inn', 30_000, 'source-1')],
    }
    const day = {
      ...{ name: 'Over the passes', isNamed: true, fileName: 'two-passes-62km.gpx', choice: WHOLE_FILE, at: 0 },
      ...{ changed: Date.UTC(2027, 5, 18), plan: writePlan(plan) },
    }
    const buffer = Buffer.from(writeDay(day, sampleFile('two-passes-62km.gpx')))
    await page.getByRole('button', { name: 'Days', exact: true }).tap()
    const chooser = page.waitForEvent('filechooser')
    await page.getByRole('dialog').getByRole('button', { name: 'Open a day or a route' }).tap()
    await (await chooser).setFiles({ name: 'passes.wattfare', mimeType: 'application/zip', buffer })
    await expect(page.getByTitle('two-passes-62km.gpx')).toHaveText('Over the passes')
    const inn = pin(page, 'Ennock Inn')
    await expect(inn).toHaveAttribute('aria-valuenow', '30000')
    const said = await answer(page).textContent()
    await expect.poll(() => keptDay(page)).toMatchObject({ name: 'Over the passes' })

    await host.stop()
    await page.context().setOffline(true)
    await page.reload()
    await expect(answer(page)).toHaveText(said!)
    await expect(page.getByTitle('two-passes-62km.gpx')).toHaveText('Over the passes')
    await dragByFinger(page, inn, 60)
    await expect.poll(async () => Number(await inn.getAttribute('aria-valuenow'))).toBeGreaterThan(35_000)
    await expect(answer(page)).not.toHaveText(said!)
    const at = (await inn.getAttribute('aria-valuenow'))!
    await expect.poll(() => keptStops(page)).toEqual([at])
    await expect(page.getByText(/open in another window|is not kept/)).toHaveCount(0)
    expect(await widerBy(page)).toBe(0)
  })
})

test('the page says when it is kept, and can be installed: manifest, icons, a worker in force', async ({
  page,
  host,
}) => {
  await visitAndKeep(page, host)
  await page.getByText('View', { exact: true }).click()
  await expect(page.getByText('opens without network')).toBeVisible()
  const session = await page.context().newCDPSession(page)
  const { errors, data } = await session.send('Page.getAppManifest')
  expect(errors).toEqual([])
  const manifest = JSON.parse(data!) as { icons: { src: string; sizes: string; type: string; purpose?: string }[] }
  for (const { src, sizes, type } of manifest.icons) {
    const [wide, high] = await page.evaluate(async (src) => {
      const image = new Image()
      image.src = src
      await image.decode()
      return [image.naturalWidth, image.naturalHeight]
    }, src)
    if (type === 'image/png') expect(`${wide}x${high}`, src).toBe(sizes)
  }
  expect(manifest.icons.some(({ purpose }) => purpose === 'maskable')).toBe(true)
  const installing = await session.send('Page.getInstallabilityErrors')
  expect(installing.installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([])
})

test('a newer version is offered in one line and taken only when asked for; the plan stays', async ({ page, host }) => {
  await visitAndKeep(page, host)
  await pin(page, 'Inn at Querrel Sands').focus()
  await page.keyboard.press('ArrowRight')
  const at = (await pin(page, 'Inn at Querrel Sands').getAttribute('aria-valuenow'))!
  await expect.poll(async () => String(await keptPlan(page))).toContain(`"distance": ${at}`)
  const offer = page.getByRole('group', { name: 'Version of the page' })
  await expect(offer).toHaveCount(0)

  const index = readFileSync('dist/index.html', 'utf8').replace('<title>', '<meta name="newer" /><title>')
  host.instead.set('index.html', index)
  host.instead.set('sw.js', readFileSync('dist/sw.js', 'utf8').replace(/(url:"index.html",revision:")/, '$1newer'))
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update())
  await expect(offer).toContainText('A newer version is ready.')
  await expectSound(
    page,
    [
      { theme: 'light', width: 1440, height: 900 },
      { theme: 'dark', width: 390, height: 844 },
    ],
    'aside',
  )
  await expect(page.locator('meta[name=newer]')).toHaveCount(0)
  await offer.getByRole('button', { name: 'Close' }).click()
  await expect(offer).toHaveCount(0)

  // Not taken, it waits; a reload shows the page as it is, and offers again.
  await page.reload()
  await expect(offer).toContainText('A newer version is ready.')
  await expect(page.locator('meta[name=newer]')).toHaveCount(0)
  await offer.getByRole('button', { name: 'Load it anew' }).click()
  await expect(page.locator('meta[name=newer]')).toHaveCount(1)
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveAttribute('aria-valuenow', at)
  await expect(offer).toHaveCount(0)
})

test('a map to take along: by button or drop, under the route, with its attribution as text; kept, also offline; removed; refused', async ({
  page,
  host,
}) => {
  await visitAndKeep(page, host)
  const settings = async () => {
    await page.getByText('View', { exact: true }).click()
    await expect(page.getByRole('button', { name: 'Open a map file' })).toBeVisible()
  }
  await settings()
  await page.getByLabel('Map file', { exact: true }).setInputFiles(mapFile)
  await expect(page.getByText(/^islands\.pmtiles, \d+ kB$/)).toBeVisible()
  await expect.poll(() => painted(page), 'pixels of the area').toBeGreaterThan(10_000)
  const attribution = map(page).locator('.leaflet-control-attribution')
  await expect(attribution).toContainText('Surveyors of Tarrovay © nobody')
  await expect(attribution.locator('img, a[href*="example"]')).toHaveCount(0)
  await expect(page.getByRole('complementary', { name: 'Notices' })).toContainText('the map is kept in this browser')

  await drop(page, 'photo.pmtiles', Buffer.from('no map'))
  await expect(page.getByRole('alert')).toHaveText(
    '“photo.pmtiles”: this is not a PMTiles file; the map stays as it was.',
  )
  await expect(page.getByTitle('two-islands-165km.gpx')).toBeVisible()

  await host.stop()
  await page.context().setOffline(true)
  await page.reload()
  await expect(answer(page)).toContainText('charge')
  await expect.poll(() => painted(page), 'pixels of the area, offline').toBeGreaterThan(10_000)
  await expect(attribution).toContainText('Surveyors of Tarrovay')

  // A second one, of pictures, comes by drop.
  const tiles = [...tilesOver(islands, 6)].map(({ x, y }) => ({
    z: 6,
    x,
    y,
    bytes: readFileSync('static/icons/icon-192.png'),
  }))
  await drop(page, 'pictures.pmtiles', writePmtiles({ tiles, type: 2, bounds: islands, metadata: {} }))
  await expect(map(page).locator('.leaflet-area-pane img.leaflet-tile-loaded').first()).toBeVisible()

  await settings()
  await page.getByRole('button', { name: 'Remove pictures.pmtiles' }).click()
  await page.getByRole('button', { name: 'Remove islands.pmtiles' }).click()
  await expect(map(page).locator('.leaflet-area-pane :is(canvas, img)')).toHaveCount(0)
  await expect(attribution).not.toContainText('Surveyors')
  await page.reload()
  await settings()
  await expect(page.getByText('islands.pmtiles')).toHaveCount(0)
})

test('a route without elevation gets it from a file, which can be undone, and stays without network', async ({
  page,
  host,
}) => {
  await visitAndKeep(page, host)
  await drop(page, 'lane.gpx', hillyLane)
  await expect(answer(page)).toHaveText(/^On flat ground the charge lasts/)
  await expect(page.getByText(/assumes flat ground/).first()).toBeInViewport()
  await page.getByRole('button', { name: 'Bring elevation' }).click()
  const choose = (name: string, buffer: Buffer) =>
    page
      .getByLabel('Elevation file', { exact: true })
      .setInputFiles({ name, mimeType: 'application/octet-stream', buffer })
  const bringing = page.getByRole('region', { name: 'Elevation', exact: true })
  await choose('photo.pmtiles', Buffer.from('no map'))
  await expect(bringing.getByRole('alert')).toHaveText('This is not a PMTiles file.')
  await choose('map.pmtiles', islandTiles(3))
  await expect(bringing.getByRole('alert')).toHaveText('Its tiles are no pictures, so they hold no heights.')
  await choose(
    'land.pmtiles',
    heightArchive(hills, aboutLane, 12, 'tenths', '<a href="https://maps.example.test/">Surveyors of Tarrovay</a>'),
  )
  const profile = page.getByRole('region', { name: 'Profile' })
  const source = profile.getByText('Elevation from land.pmtiles, Surveyors of Tarrovay.')
  await expect(source).toBeVisible()
  // Four waves of 200 m, of which smoothing leaves all but a hundredth.
  const [, ascent] = /(\d+) m of ascent on the route/.exec(
    (await page.getByRole('complementary', { name: 'Notices' }).textContent())!,
  )!
  expect(Math.abs(Number(ascent) - 800)).toBeLessThanOrEqual(8)
  const said = (await answer(page).textContent())!
  expect(said).toMatch(/^The charge/)
  const sentence = await profile.locator('#profile-sentence').textContent()
  await expect(bringing).toHaveCount(0)

  await page.keyboard.press('Control+z')
  await expect(answer(page)).toHaveText(/^On flat ground/)
  await expect(source).toHaveCount(0)
  await page.keyboard.press('Control+Shift+z')
  await expect(answer(page)).toHaveText(said)

  await expect.poll(async () => JSON.stringify((await keptDay(page))?.choice)).toContain('land.pmtiles')
  await host.stop()
  await page.context().setOffline(true)
  await page.reload()
  await expect(answer(page)).toHaveText(said)
  await expect(source).toBeVisible()
  expect(await profile.locator('#profile-sentence').textContent()).toBe(sentence)
  await page.getByRole('button', { name: 'Do without' }).click()
  await expect(answer(page)).toHaveText(/^On flat ground/)

  // The file is still there, to be used again or removed.
  await page.getByRole('button', { name: 'Bring elevation' }).click()
  await page.getByRole('button', { name: 'Use land.pmtiles' }).click()
  await expect(answer(page)).toHaveText(said)
  await page.keyboard.press('Control+z')
  await page.getByRole('button', { name: 'Bring elevation' }).click()
  await page.getByRole('button', { name: 'Remove land.pmtiles' }).click()
  await expect(bringing.getByText('land.pmtiles')).toHaveCount(0)

  // Dropped, a file that says how its heights are written is taken for what it is; the map draws nothing of it.
  await drop(page, 'dropped.pmtiles', heightArchive(hills, aboutLane, 12, 'tenths', '', 'tenths of a metre'))
  await expect(answer(page)).toHaveText(said)
  await expect(profile.getByText('Elevation from dropped.pmtiles')).toBeVisible()
  await expect(map(page).locator('.leaflet-area-pane img')).toHaveCount(0)

  // The day's file has it with it.
  const list = await listOfDays(page)
  const file = await given(page, () =>
    list
      .getByRole('button', { name: /^Save as a file: / })
      .first()
      .click(),
  )
  await page.keyboard.press('Escape')
  await drop(page, 'lane.gpx', hillyLane)
  await expect(answer(page)).toHaveText(/^On flat ground/)
  await drop(page, file.fileName, file.bytes)
  await expect(answer(page)).toHaveText(said)
  await expect(profile.getByText('Elevation from dropped.pmtiles')).toBeVisible()
})

test('what is built carries the licence of every package in it', async ({ page, host }) => {
  const text = await (await page.request.get(`${host.address}licences.txt`)).text()
  const { dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as { dependencies: Record<string, string> }
  const parts = text.split(/^-{78}$/m).map((part) => part.trim())
  const headed = (name: string) => parts.find((part) => part.startsWith(`${name} `))
  /** Come without the text of the licence that they name. */
  const withoutText = ['pmtiles', 'saxes']
  // What the packages of the page need of their own too, in the page, in its workers and in the service worker.
  const whole = Object.keys(dependencies).filter((name) => name !== '@turf/turf')
  const names = [
    ...whole,
    '@turf/distance',
    'fflate',
    'pbf',
    'linkedom',
    'htmlparser2',
    'quickselect',
    'workbox-precaching',
    'workbox-window',
  ]
  for (const name of names) {
    const [head, ...licence] = (headed(name) ?? '').split('\n')
    const version = dependencies[name] ?? String.raw`\d+\.\d+\.\d+`
    expect(head, name).toMatch(new RegExp(`^${name} ${version}: \\S+`))
    if (!withoutText.includes(name))
      expect(licence.join(' ').length, `text of the licence of ${name}`).toBeGreaterThan(300)
  }
  expect(parts[0]).toContain('MIT License')
  expect(parts[1]).toContain('Natural Earth, public domain')
})

test.describe('where no worker keeps the page', () => {
  test.use({ serviceWorkers: 'block' })

  test('under a page of an older version every part that is gone says so and offers to load anew; the plan stays', async ({
    page,
    host,
  }) => {
    const files = readdirSync('dist/assets').filter((file) =>
      /^(Bench|Day|Kit|Bike|HourlyWeather|csv)-.*js$/.test(file),
    )
    expect(files.length).toBe(6)
    for (const file of files) host.instead.set(`assets/${file}`, undefined)
    await page.goto(host.address)
    await expect(answer(page)).toContainText('charge')
    const inn = pin(page, 'Inn at Querrel Sands')
    await inn.focus()
    await page.keyboard.press('ArrowRight')
    const at = (await inn.getAttribute('aria-valuenow'))!
    const offer = page.getByRole('group', { name: 'Version of the page' })
    await expect(offer).toHaveCount(0)
    const doors: [string, () => Promise<void>][] = [
      ['day', () => goTo(page, 'The day')],
      ['bench', () => goTo(page, 'Charging')],
      ['kit', () => goTo(page, 'What comes along')],
      ['a group of the sheet', () => unfold(page, 'Bike')],
      ['a part of a group', () => unfold(page, 'Weather')],
      [
        'table of legs',
        async () => {
          await goTo(page, 'The ride')
          await page.getByRole('button', { name: 'Save the legs as CSV' }).click()
        },
      ],
    ]
    for (const [door, open] of doors)
      await test.step(door, async () => {
        await open()
        await expect(offer).toContainText('A part of this page can’t be had any more')
        await expect(offer).toBeInViewport()
        await offer.getByRole('button', { name: 'Close' }).click()
        await expect(offer).toHaveCount(0)
      })
    await expect(sheet(page).getByText('This part could not be loaded.')).toHaveCount(1)

    // Loaded anew from a host that has them, the page is whole.
    await sheet(page).getByRole('button', { name: 'Try again' }).click()
    await expect(offer).toBeVisible()
    host.instead.clear()
    await offer.getByRole('button', { name: 'Load it anew' }).click()
    await expect(offer).toHaveCount(0)
    await expect(inn).toHaveAttribute('aria-valuenow', at)
    await unfold(page, 'Bike')
    await expect(sheet(page).getByRole('button', { name: 'Drag area (CdA)' })).toBeVisible()
  })
})
