import { readFileSync } from 'node:fs'
import Papa from 'papaparse'
import { forecastFor } from '../../src/cli/run'
import {
  answer,
  cursor,
  dragBy,
  drop,
  expect,
  keptPlan,
  keptStops,
  listOfDays,
  pin,
  profile,
  sampleFile,
  sheet,
  test,
  visit,
} from './page'

const columns =
  'leg,from,to,start_km,end_km,length_km,ascent_m,descent_m,mean_gradient_pct,max_gradient_pct,riding_time_s,mean_speed_kmh,rider_kJ,motor_kJ,battery_Wh,drain_Wh_per_km,charge_start_pct,charge_end_pct,arrive,depart,note'

test('the whole job: drop, answer, pin, drag, reach, CSV, reload, undo', async ({ page }) => {
  await visit(page)
  await drop(page, 'two-passes-62km.gpx', sampleFile('two-passes-62km.gpx'))
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  const first = await answer(page).textContent()
  expect(first).toMatch(/charge (just )?lasts|does not last/)
  await expect(sheet(page)).toContainText('No stop yet')

  // Pin a stop by a click on the profile.
  const chart = (await profile(page).locator('canvas').boundingBox())!
  await page.mouse.click(chart.x + chart.width * 0.4, chart.y + chart.height * 0.6)
  const stop = pin(page, 'Stop 1')
  await expect(stop).toBeVisible()
  const reach = sheet(page).getByText(/^(\d|to the finish)/)
  await expect(reach.first()).toBeVisible()
  const placed = Number(await stop.getAttribute('aria-valuenow'))
  expect(placed).toBeGreaterThan(15_000)
  expect(placed).toBeLessThan(35_000)
  const withStop = await answer(page).textContent()
  expect(withStop).not.toBe(first)

  // Drag it: everything follows before the button is let go.
  const reported = () => sheet(page).innerText()
  const before = await reported()
  await dragBy(page, stop, 200)
  await expect.poll(reported).not.toBe(before)
  const during = Number(await stop.getAttribute('aria-valuenow'))
  expect(during).toBeGreaterThan(placed + 5000)
  await page.mouse.up()
  const dragged = await answer(page).textContent()
  const moved = await stop.getAttribute('aria-valuetext')

  // The CSV holds what the table shows.
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save the legs as CSV' }).click()
  const download = await saving
  expect(download.suggestedFilename()).toMatch(/legs\.csv$/)
  const text = readFileSync(await download.path(), 'utf8')
  expect(text.split('\r\n')[0]).toBe(columns)
  const csv = Papa.parse<Record<string, string>>(text.trimEnd(), { header: true })
  expect(csv.errors).toEqual([])
  const rows = await page.getByRole('region', { name: 'Leg table' }).locator('tbody tr').allInnerTexts()
  expect(rows.length).toBe(csv.data.length)
  expect(rows.length).toBeGreaterThanOrEqual(7)
  csv.data.forEach((leg, i) => {
    const shown = rows[i]!.split(/\t|\n/).map((cell) => cell.trim())
    expect(shown).toContain(Number(leg.length_km).toFixed(1))
    // The file has a tenth more: a half of it is rounded either way on screen.
    const energy = Number(leg.battery_Wh)
    expect(shown.some((cell) => [energy - 0.05, energy + 0.05].some((near) => cell === near.toFixed(0)))).toBe(true)
    expect(shown).toContain(leg.arrive!.slice(11))
  })
  expect(csv.data.some((leg) => leg.to === 'Stop 1' && /charged/.test(leg.note!))).toBe(true)

  // A script gets the same table by the same plan.
  await expect.poll(() => keptStops(page)).toEqual([await stop.getAttribute('aria-valuenow')])
  const files: Record<string, Buffer> = {
    'ride.gpx': sampleFile('two-passes-62km.gpx'),
    'plan.json': Buffer.from(await keptPlan(page)),
  }
  expect(await forecastFor(['ride.gpx', '--plan', 'plan.json', '--csv'], (name) => files[name]!)).toBe(text)

  // Undo takes back the drag, redo brings it back.
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(answer(page)).toHaveText(withStop!)
  await page.getByRole('button', { name: 'Redo' }).click()
  await expect(answer(page)).toHaveText(dragged!)

  // All is there after a reload.
  const at = await stop.getAttribute('aria-valuenow')
  await expect.poll(() => keptStops(page)).toEqual([at])
  await page.reload()
  await expect(answer(page)).toHaveText(dragged!)
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await expect(pin(page, 'Stop 1')).toHaveAttribute('aria-valuetext', moved!)

  // A removed stop comes back.
  await pin(page, 'Stop 1').focus()
  await page.keyboard.press('Delete')
  await expect(answer(page)).toHaveText(first!)
  await page.keyboard.press('Control+z')
  await expect(pin(page, 'Stop 1')).toBeVisible()
  await expect(answer(page)).toHaveText(dragged!)
})

test('an opened route begins a new day; the one before stands in the list with its stops', async ({ page }) => {
  await visit(page)
  await pin(page, 'Inn at Querrel Sands').focus()
  await page.keyboard.press('ArrowRight')
  const before = await answer(page).textContent()
  await page.getByLabel('Route file').setInputFiles({
    name: 'into-town-18km.gpx',
    mimeType: 'application/gpx+xml',
    buffer: sampleFile('into-town-18km.gpx'),
  })
  await expect(page.getByTitle('into-town-18km.gpx')).toBeVisible()
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled()
  await (await listOfDays(page)).getByRole('button', { name: /^Two islands/ }).click()
  await expect(page.getByTitle('two-islands-165km.gpx')).toBeVisible()
  await expect(answer(page)).toHaveText(before!)
  await expect(pin(page, 'Inn at Querrel Sands')).toHaveAttribute('aria-valuenow', '87240')
})

test('two stops, each with its own charge, by keyboard alone', async ({ page }) => {
  await visit(page)
  await page
    .getByRole('button', { name: 'Samples' })
    .or(page.getByText('Samples', { exact: true }))
    .first()
    .press('Enter')
  await page.getByRole('button', { name: /Two passes/ }).press('Enter')
  await expect(page.getByTitle('two-passes-62km.gpx')).toBeVisible()
  await cursor(page).focus()
  for (let i = 0; i < 20; i++) await page.keyboard.press('PageUp')
  await page.keyboard.press('Enter')
  const stop = pin(page, 'Stop 1')
  await expect(stop).toBeVisible()
  const at = Number(await stop.getAttribute('aria-valuenow'))
  await stop.focus()
  await page.keyboard.press('ArrowRight')
  await expect(stop).toHaveAttribute('aria-valuenow', String(at + 100))
  await page.keyboard.press('Shift+ArrowRight')
  await expect(stop).toHaveAttribute('aria-valuenow', String(at + 1100))
  await page.keyboard.press('ArrowLeft')
  await expect(stop).toHaveAttribute('aria-valuenow', String(at + 1000))
  await cursor(page).focus()
  for (let i = 0; i < 10; i++) await page.keyboard.press('PageUp')
  await page.keyboard.press('Enter')
  await expect(pin(page, 'Stop 2')).toBeVisible()
  await expect(pin(page, 'Stop 2')).toHaveAttribute('aria-valuetext', /%/)
})
