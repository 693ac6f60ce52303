import { answer, drop, expect, pin, sheet, test, unfold, visit } from './page'
import { gpx, line, north } from './tracks'

test('a bad file gives one sentence and leaves the ride on screen', async ({ page }) => {
  await visit(page)
  const before = await answer(page).textContent()
  const bad: [string, Buffer, RegExp][] = [
    ['notes.gpx', Buffer.from('these are my notes'), /not a GPX or KML file/],
    ['cut.gpx', gpx(line('cut', 50)).subarray(0, 900), /cut|ends|line/i],
    ['empty.gpx', Buffer.alloc(0), /empty/i],
    ['nopoints.gpx', gpx('<metadata><name>x</name></metadata>'), /no track/i],
    ['page.gpx', Buffer.from('<!DOCTYPE x [<!ENTITY a "aaaa">]><gpx>&a;</gpx>'), /entit/i],
    ['wrong.json', Buffer.from('{"format":"other"}'), /plan/],
  ]
  for (const [name, bytes, sentence] of bad) {
    await drop(page, name, bytes)
    const notice = page.getByRole('alert')
    await expect(notice, name).toHaveText(sentence)
    expect((await notice.innerText()).trim().split(/(?<=[.!?])\s+(?=[A-Z])/).length, `${name} gets one sentence`).toBe(
      1,
    )
    await expect(answer(page)).toHaveText(before!)
    await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
    await page.getByRole('button', { name: 'Close', exact: true }).click()
    await expect(notice).toBeHidden()
  }
})

test('while a file is opened the answer before it is not shown; cancelled, all is as it was; a newer file cancels an older one', async ({
  page,
}) => {
  await visit(page)
  const before = await answer(page).textContent()
  const opening = page.getByRole('status', { name: 'Opening a file' })
  const long = gpx(line('Long', 400_000, 10))
  for (const cancel of [
    () => opening.getByRole('button', { name: 'Cancel' }).click(),
    () => page.keyboard.press('Escape'),
  ]) {
    await drop(page, 'long.gpx', long)
    await expect(opening).toContainText('long.gpx')
    await expect(answer(page)).toBeHidden()
    await cancel()
    await expect(opening).toHaveCount(0)
    await expect(answer(page)).toBeVisible()
    await expect(answer(page)).toHaveText(before!)
    await expect(pin(page, 'Inn at Querrel Sands')).toBeVisible()
  }
  await drop(page, 'long.gpx', long)
  await drop(page, 'short.gpx', gpx(line('Short', 500)))
  await expect(page.getByTitle('short.gpx')).toBeVisible()
  await expect(opening).toHaveCount(0)
  await expect(answer(page)).toBeVisible()
  await page.waitForTimeout(3000)
  await expect(page.getByTitle('short.gpx')).toBeVisible()
})

test('a large file shows its progress and leaves the page responsive', async ({ page }) => {
  await visit(page)
  const seen = await page.evaluateHandle(() => {
    const seen: number[] = []
    new MutationObserver(() => {
      const value = document.querySelector('progress')?.value
      if (value !== undefined && value !== seen.at(-1)) seen.push(value)
    }).observe(document.body, { subtree: true, childList: true, attributes: true })
    return seen
  })
  await drop(page, 'long.gpx', gpx(line('Long', 400_000, 10)))
  const progress = page.getByRole('progressbar')
  await expect(progress).toBeVisible()
  await page.getByText('Samples', { exact: true }).click()
  await expect(page.getByRole('button', { name: /Into town/ })).toBeVisible()
  await expect(progress, 'still reading while the menu answers').toBeVisible()
  await expect(page.getByTitle('long.gpx')).toBeVisible({ timeout: 60_000 })
  await expect(progress).toHaveCount(0)
  const values = await seen.jsonValue()
  // How many steps are seen depends on the machine; that it moves does not.
  expect(values.length, 'the progress moves').toBeGreaterThan(1)
  expect(values, 'only forward').toEqual(values.toSorted((a, b) => a - b))
})

test('names from a file are text, never markup', async ({ page }) => {
  await visit(page)
  const name = '<img src=x onerror="document.title=1">=2+3'
  const escaped = name.replaceAll('<', '&lt;').replaceAll('"', '&quot;')
  await drop(page, 'odd.gpx', gpx(`<wpt lat="45.02" lon="7"><name>${escaped}</name></wpt>${line(escaped, 1000)}`))
  await expect(page.getByTitle('odd.gpx')).toHaveText(name)
  expect(await page.title()).toBe('Wattfare')
  await expect(page.locator('img[src="x"]')).toHaveCount(0)
})

test('a KML file is read, by a part of the program that is fetched only then', async ({ page }) => {
  const fetched: string[] = []
  page.context().on('request', (request) => fetched.push(request.url()))
  await visit(page)
  expect(fetched.filter((url) => url.includes('kml'))).toEqual([])
  const places = north(500).map(([latitude, longitude, elevation]) => [longitude, latitude, elevation].join(','))
  const lineString = `<LineString><coordinates>${places.join(' ')}</coordinates></LineString>`
  const placemark = `<Placemark><name>Down the dyke</name>${lineString}</Placemark>`
  await drop(page, 'dyke.kml', Buffer.from(`<kml><Document>${placemark}</Document></kml>`))
  await expect(page.getByTitle('dyke.kml')).toHaveText('Down the dyke')
  expect(fetched.filter((url) => url.includes('kml'))).toHaveLength(1)
})

test('a file without elevation says what that means', async ({ page }) => {
  await visit(page)
  await drop(page, 'flat.gpx', gpx(line('Flat', 800).replace(/<ele>[^<]*<\/ele>/g, '')))
  await expect(page.getByTitle('flat.gpx')).toBeVisible()
  for (const size of [
    { width: 1440, height: 900 },
    { width: 390, height: 844 },
  ]) {
    await page.setViewportSize(size)
    await expect(page.getByText(/assumes flat ground/).first(), 'beside the answer').toBeInViewport()
  }
  await unfold(page, 'Route')
  await expect(sheet(page)).toContainText(/flat/i)
})
