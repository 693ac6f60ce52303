import type { Locator, Page } from '@playwright/test'
import { answer, cursor, expect, pin, sampleFile, sheet, test } from './page'

/** What the keyboard came to without being seen there, and what was pressed with a pointer; WCAG 2.2, 2.4.7 and 2.4.11. */
const faultsOf = (page: Page): Promise<string[]> =>
  page.evaluate(() => (window as never as { faults: string[] }).faults)

async function watch(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const faults: string[] = []
    Object.assign(window, { faults })
    for (const type of ['pointerdown', 'mousedown', 'touchstart'])
      addEventListener(type, () => faults.push(`${type} in a ride by the keyboard alone`), true)
    /** Whether some of it is to be seen: it lies on the screen, and no bar lies over all of it. */
    const isSeen = (one: HTMLElement) => {
      const { left, top, width, height } = one.getBoundingClientRect()
      const parts = [0.05, 0.5, 0.95]
      const bars = [...document.querySelectorAll('.bar nav, .bar .verdict')].filter((bar) => !bar.contains(one))
      return parts.some((a) =>
        parts.some((b) => {
          const [x, y] = [left + a * width, top + b * height]
          const isOver = bars.some((bar) => {
            const box = bar.getBoundingClientRect()
            return x >= box.left && x <= box.right && y >= box.top && y <= box.bottom
          })
          return !isOver && x >= 0 && y >= 0 && x <= innerWidth && y <= innerHeight
        }),
      )
    }
    addEventListener('focusin', ({ target }) =>
      requestAnimationFrame(() => {
        const one = target as HTMLElement
        if (document.activeElement !== one) return
        const said = `${one.tagName} ${one.getAttribute('aria-label') ?? one.textContent.trim().slice(0, 40)}`
        if (!isSeen(one)) faults.push(`not seen: ${said}`)
        // What is only led to, and never come to by Tab, needs no frame.
        // Of a date the browser itself frames the part that is at hand.
        const isDate = one instanceof HTMLInputElement && one.type === 'date'
        if (one.tabIndex >= 0 && !isDate && getComputedStyle(one).outlineStyle === 'none')
          faults.push(`no frame: ${said}`)
      }),
    )
  })
}

/** Presses Tab until it is there; no way may be longer than that of a few dozen presses. */
async function tabTo(page: Page, to: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab', most = 70): Promise<void> {
  await expect(to.first()).toBeVisible()
  for (let i = 0; i < most; i++) {
    await page.keyboard.press(key)
    if (await to.evaluateAll((all) => all.includes(document.activeElement as never))) return
  }
  throw new Error(`not come to within ${most} presses of ${key}: ${String(to)}`)
}

test('the whole day by the keyboard alone: each thing is come to, seen, made, changed, taken back', async ({
  page,
}) => {
  await watch(page)
  // Chosen in the system's own dialog; asked for before it is opened, or it is not heard of.
  const buffer = sampleFile('two-islands-165km.gpx')
  page.on('filechooser', (dialog) => dialog.setFiles({ name: 'mine.gpx', mimeType: 'application/gpx+xml', buffer }))
  await page.goto('./')
  await expect(answer(page)).toContainText('charge')
  const plan = sheet(page)
  const press = (...keys: string[]) =>
    keys.reduce((done, key) => done.then(() => page.keyboard.press(key)), Promise.resolve())
  const type = async (field: Locator, text: string) => {
    await tabTo(page, field)
    await press('Control+a')
    await page.keyboard.type(text)
    await press('Enter')
  }
  const skipTo = async (name: string) => {
    // Skip links come first on the page; a screen reader goes there from anywhere.
    await page.getByRole('navigation', { name: 'Skip to' }).getByRole('link', { name }).focus()
    await press('Enter')
  }
  const option = async (select: Locator, label: string) => {
    await tabTo(page, select)
    await page.keyboard.type(label)
    await expect(select.locator('option:checked')).toHaveText(label)
  }

  const group = (name: string) =>
    plan.locator('summary').filter({ has: page.getByRole('heading', { name, exact: true }) })

  await test.step('open a route, say which bike and how much battery', async () => {
    await tabTo(page, page.getByRole('button', { name: 'Open a route', exact: true }), 'Tab', 6)
    await press('Enter')
    await expect(page.getByTitle('mine.gpx')).toBeVisible()
    await expect(page.getByRole('button', { name: 'Open a route', exact: true })).toBeFocused()
    const first = page.getByRole('region', { name: 'Your own day' })
    await type(first.getByLabel(/Bike with its packs/).first(), '30')
    await type(first.getByLabel(/Wh/).last(), '500')
    await tabTo(page, first.getByRole('button', { name: 'Done' }), 'Tab', 3)
    await press('Enter')
    await expect(first).toHaveCount(0)
    await expect(answer(page)).toBeFocused()
  })

  await test.step('start at half past five', async () => {
    await skipTo('To the plan')
    await type(plan.getByLabel('Start', { exact: true }), '530')
    await expect(plan.getByLabel('Start', { exact: true })).toHaveValue('05:30')
  })

  await test.step('pin a stop on the profile and move it', async () => {
    await tabTo(page, cursor(page), 'Shift+Tab')
    for (let i = 0; i < 20; i++) await press('PageUp')
    await press('Enter')
    const stop = pin(page, 'Stop 1')
    await expect(stop).toBeFocused()
    const at = Number(await stop.getAttribute('aria-valuenow'))
    await press('Shift+ArrowRight', 'ArrowRight', 'ArrowLeft')
    await expect(stop).toHaveAttribute('aria-valuenow', String(at + 1000))
    await expect(stop).toBeFocused()
    // Taken away, the keyboard is where the next can be made.
    await press('Delete')
    await expect(cursor(page)).toBeFocused()
    await press('Control+z')
    await expect(stop).toHaveAttribute('aria-valuenow', String(at + 1000))
  })

  await test.step('a source, and the stop charges from it', async () => {
    await skipTo('To the plan')
    await tabTo(page, plan.getByRole('link', { name: 'Rider and bike' }))
    await press('Enter')
    await tabTo(page, group('Batteries'))
    await press('Enter')
    await tabTo(page, plan.getByRole('button', { name: 'Add a carried pack' }))
    await press('Enter')
    await expect(plan.getByLabel('Name', { exact: true })).toBeFocused()
    // One too many is taken away again: the keyboard comes to the one that is left.
    await tabTo(page, plan.getByRole('button', { name: 'Add a carried pack' }))
    await press('Enter')
    await expect(plan.getByLabel('Name', { exact: true })).toHaveValue('Carried pack 2')
    await tabTo(page, plan.getByRole('button', { name: 'Remove', exact: true }))
    await press('Enter')
    await expect(plan.getByRole('button', { name: /^Carried pack 1/ })).toBeFocused()
    await skipTo('To the plan')
    await expect(plan.getByRole('link', { name: 'This day’s plan' })).toBeFocused()
    await option(plan.getByLabel('Charge', { exact: true }), 'Carried pack 1')
    await expect(plan.getByRole('link', { name: 'What flows there' })).toBeVisible()
  })

  await test.step('the ferry by its timetable, and a control', async () => {
    await tabTo(page, group('Crossings'))
    await press('Enter')
    await option(plan.getByLabel('Timetable'), 'Leaves at listed times')
    await expect(plan.getByLabel(/^Leaves at/), 'no invented sailing').toHaveValue('')
    await type(plan.getByLabel(/^Leaves at/), '07:00 09:30 12:00 14:30')
    await expect(plan.getByText(/catch the \d\d:\d\d/)).toBeVisible()
    await tabTo(page, group('Controls'))
    await press('Enter')
    await tabTo(page, plan.getByRole('button', { name: 'Add a control' }))
    await press('Enter')
    await expect(plan.getByLabel('Name', { exact: true }).last()).toBeFocused()
    await option(plan.getByLabel('Closes'), 'At a clock time')
    await type(plan.getByLabel('At', { exact: true }), '20:00')
  })

  await test.step('the verdict, the plan held, and what a change makes of it', async () => {
    await skipTo('To the answer')
    await expect(answer(page)).toBeFocused()
    await tabTo(page, page.getByRole('button', { name: 'Hold this plan' }))
    await press('Enter')
    await skipTo('To the plan')
    await type(plan.getByLabel('Start', { exact: true }), '600')
    await expect(
      page
        .getByRole('region', { name: 'The answer' })
        .locator('.change')
        .filter({ hasText: /−30\smin/ })
        .first(),
    ).toBeVisible()
  })

  await test.step('print the day sheet, take the legs along, take it back', async () => {
    await page.evaluate(() => (window.print = () => (document.title = 'printed')))
    await skipTo('To the section below')
    await tabTo(page, page.getByRole('button', { name: 'Save the legs as CSV' }))
    const saving = page.waitForEvent('download')
    await press('Enter')
    expect((await saving).suggestedFilename()).toMatch(/legs\.csv$/)
    await skipTo('To the section below')
    await tabTo(
      page,
      page.getByRole('navigation', { name: 'Parts of the page' }).getByRole('link', { name: 'The day' }),
      'Shift+Tab',
      10,
    )
    await press('Enter')
    await expect(page.getByRole('heading', { level: 2, name: 'The day' })).toBeFocused()
    await tabTo(page, page.getByRole('button', { name: /^Print/ }).first())
    await press('Enter')
    await expect(page).toHaveTitle('printed')
    await expect(plan.getByLabel('Start', { exact: true })).toHaveValue('06:00')
    await press('Control+z')
    await expect(plan.getByLabel('Start', { exact: true })).toHaveValue('05:30')
  })

  expect(await faultsOf(page)).toEqual([])
})
