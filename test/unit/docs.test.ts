import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseHTML } from 'linkedom'
import { describe, expect, it } from 'vitest'
import { chanceFor } from '../../src/cli/chance'
import { learnFor, type LearnReport } from '../../src/cli/learn'
import { decideFor } from '../../src/cli/decide'
import { roadFor } from '../../src/cli/road'
import type { Report } from '../../src/cli/report'
import { forecastFor } from '../../src/cli/run'
import { catalogue } from '../../src/model/plan/catalogue'
import { surfaces, surroundings, type Parameter } from '../../src/model/plan/parameters'
import { addressOf, headingOf, headings, type Heading } from '../../src/view/docs/places'
import { toShown, unitOf } from '../../src/view/format'
import { citations } from '../../src/view/words/en/citations'
import { near } from '../asserts'
import { figuresByHeading } from '../figures-page'

const root = new URL('../../', import.meta.url)
const textOf = (path: string) => readFileSync(new URL(path, root), 'utf8')
const names = ['index', 'formulas', 'charging', 'day', 'kept', 'scripts', 'accuracy'].map((name) => `${name}.html`)
const pages = new Map(names.map((name) => [name, parseHTML(textOf(`static/docs/${name}`)).document]))
const page = (name: string) => pages.get(name)!
const inOneLine = (text: string | null | undefined) => (text ?? '').replace(/\s+/g, ' ').trim()

/** Whether an address within the documentation leads to a page, and to a heading on it, or to a schema beside it. */
function leads(address: string, from: string): boolean {
  if (address.endsWith('.schema.json')) return existsSync(new URL(`static/docs/${address}`, root))
  const [file, id] = address.split('#')
  const target = pages.get(file === '' ? from : file!)
  return target !== undefined && (id === undefined || /^H[1-6]$/.test(target.getElementById(id)?.tagName ?? ''))
}

describe('the documentation', () => {
  it('has the heading that each link of the page opens', () => {
    const known = Object.keys(headings) as Heading[]
    expect(known.length).toBeGreaterThan(20)
    for (const heading of known) {
      expect(addressOf(heading)).toBe(`./docs/${headings[heading]}`)
      expect(leads(headings[heading], ''), heading).toBe(true)
    }
    expect(leads('formulas.html#no-such-heading', '')).toBe(false)
  })

  it('is opened from fields of the catalogue alone', () => {
    const all = new Set<Parameter>(Object.values(catalogue).flatMap((group) => Object.values<Parameter>(group)))
    for (const parameter of headingOf.keys()) expect(all.has(parameter)).toBe(true)
  })

  it.each(names)('%s leads nowhere but to pages and headings that are there', (name) => {
    const links = [...page(name).querySelectorAll('a')].map((link) => link.getAttribute('href')!)
    expect(links.length).toBeGreaterThanOrEqual(names.length)
    expect(links.filter((address) => !leads(address, name))).toEqual([])
    const ids = [...page(name).querySelectorAll('[id]')].map(({ id }) => id)
    expect(new Set(ids).size).toBe(ids.length)
  })

  it.each(names)('%s asks for nothing but its stylesheet and icon, and holds no script and no style', (name) => {
    const one = page(name)
    expect(one.querySelectorAll('script, style, [style], [onclick], img, iframe').length).toBe(0)
    expect([...one.querySelectorAll('link')].map((link) => link.getAttribute('href'))).toEqual([
      '../icon.svg',
      'docs.css',
    ])
    expect(one.querySelector('meta[http-equiv]')!.getAttribute('content')).toBe(
      "default-src 'none'; style-src 'self'; img-src 'self'",
    )
    const tabs = [...one.querySelectorAll('nav a')]
    expect(tabs.map((tab) => tab.getAttribute('href'))).toEqual(names)
    expect(tabs.filter((tab) => tab.hasAttribute('aria-current')).map((tab) => tab.getAttribute('href'))).toEqual([
      name,
    ])
  })

  it('is led to by README and DEVELOPERS, which name only what is there', () => {
    for (const file of ['README.md', 'DEVELOPERS.md']) {
      const links = [...textOf(file).matchAll(/\]\(static\/docs\/([^)]+)\)/g)].map(([, address]) => address!)
      expect(links.length, file).toBeGreaterThan(0)
      expect(links.filter((address) => !leads(address, ''))).toEqual([])
    }
  })

  it('quotes the numbers with which a plan begins as the catalogue has them', () => {
    const quoted = names.flatMap((name) => [...page(name).querySelectorAll('data')])
    expect(quoted.length).toBeGreaterThan(15)
    for (const one of quoted) {
      const [group, key] = one.getAttribute('data-of')!.split('.') as ['bike', 'mass']
      const { default: value, quantity } = catalogue[group][key] as Parameter
      near(Number(one.getAttribute('value')), value, 1e-6 * Math.abs(value), `${group}.${key}`)
      const unit = unitOf(quantity, 'metric')
      const [shown, symbol = ''] = inOneLine(one.textContent).split(' ')
      near(Number(shown), toShown(value, unit), 1e-6 * Math.abs(Number(shown)), `${group}.${key} as shown`)
      expect(symbol, `${group}.${key}`).toBe(unit.symbol)
    }
  })

  it('lists below its heading each figure of the page, as the panel that says why has it', () => {
    expect(figuresByHeading.length).toBeGreaterThan(15)
    for (const { page: name, id, rows } of figuresByHeading) {
      const list = page(name).getElementById(`figures-${id}`)!
      const texts = [...list.querySelectorAll('dt')].map((term) => {
        const [formula, source] = [...term.nextElementSibling!.childNodes]
          .map((node) => inOneLine(node.textContent))
          .filter(Boolean)
        return { name: inOneLine(term.textContent), formula, source }
      })
      expect(texts, `${name}#${id}: npx tsx test/figures-page.ts`).toEqual(rows)
      const before = [...page(name).querySelectorAll('h2, .figures')]
      expect(before[before.indexOf(list) - 1]!.id).toBe(id)
    }
  })

  it('has each formula and each publication in one place', () => {
    const prose = names.flatMap((name) => {
      const { document } = parseHTML(textOf(`static/docs/${name}`))
      for (const one of document.querySelectorAll('.figures, cite')) one.remove()
      return inOneLine(document.body.textContent)
    })
    const formulas = figuresByHeading.flatMap(({ rows }) => rows.map(({ formula }) => formula))
    for (const formula of new Set(formulas)) for (const text of prose) expect(text).not.toContain(formula)
    const cites = names.flatMap((name) => [...page(name).querySelectorAll('cite')])
    expect(cites.length).toBeGreaterThan(2)
    for (const cite of cites)
      expect(inOneLine(cite.textContent)).toBe(citations[cite.getAttribute('data-of') as keyof typeof citations])
    const words = readdirSync(new URL('src/view/words/en', root), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts') && file !== 'citations.ts')
      .map((file) => textOf(`src/view/words/en/${file}`))
    for (const citation of Object.values(citations))
      for (const text of [...prose, ...words]) expect(text).not.toContain(citation)
  })

  it('quotes the factors of surfaces and the roughness of surroundings as the model has them', () => {
    const below = (id: string) => inOneLine(page('formulas.html').getElementById(id)!.nextElementSibling!.textContent)
    for (const [name, factor] of Object.entries(surfaces)) expect(below('rolling')).toContain(`${name} ${factor}`)
    for (const [name, roughness] of Object.entries(surroundings))
      expect(below('wind')).toContain(`${name} ${roughness} m`)
  })

  it('has the colours of the page, light and dark', () => {
    const colours = (css: string, from: string) => {
      const block = css.slice(css.indexOf(from)).replace(/^[^{]*\{(\s*:root \{)?/, '')
      return new Map(
        [...block.slice(0, block.indexOf('}')).matchAll(/--([\w-]+): ([^;]+);/g)].map(([, k, v]) => [k, v]),
      )
    }
    const [docs, theme] = [textOf('static/docs/docs.css'), textOf('src/view/theme.css')]
    for (const [here, there] of [
      [':root {', ':root {'],
      ['@media (prefers-color-scheme: dark)', ":root[data-theme='dark'] {"],
    ] as const) {
      const ours = colours(docs, here)
      expect(ours.size).toBeGreaterThan(5)
      for (const [token, value] of ours) expect(value, token).toBe(colours(theme, there).get(token))
    }
  })
})

/** All names of fields in a report, however deep. */
const keysIn = (value: unknown): string[] =>
  typeof value !== 'object' || value === null
    ? []
    : Object.entries(value).flatMap(([key, inner]) => [...(Array.isArray(value) ? [] : [key]), ...keysIn(inner)])

describe('the documentation of the door for scripts', () => {
  const read = (name: string) => new Uint8Array(readFileSync(fileURLToPath(new URL(name, root))))
  const documented = new Set([...page('scripts.html').querySelectorAll('code')].map((code) => code.textContent))

  it.each([
    ['forecast', forecastFor],
    ['road', roadFor],
    ['chance', chanceFor],
    ['learn', learnFor],
    ['decide', decideFor],
  ])('has every option of %s', async (name, door) => {
    const help = await door(['--help'], read)
    const options = [...help.matchAll(/^ {2}(--[\w-]+)/gm)].map(([, option]) => option!)
    expect(options.length).toBeGreaterThan(4)
    const said = [...documented].map((code) => code!.split(' ')[0])
    expect(options.filter((option) => !said.includes(option))).toEqual([])
    const called = [...page('scripts.html').querySelectorAll('pre')].map((pre) => inOneLine(pre.textContent))
    expect(called).toContain(inOneLine(help.split('\n')[0]).replace('Usage: ', ''))
    expect(help).toContain(`npm run -s ${name} `)
  })

  it('has every field of a report, of a station, and of the rest of a day', async () => {
    const words = ['sample-routes/two-passes-62km.gpx', '--json', '--every', '20000']
    const report = JSON.parse(await forecastFor(words, read)) as Report & { stations: object[] }
    const fields = [...Object.keys(report), ...Object.keys(report.stations[0]!)]
    const reading = ['--at', '30', '--charge', '50', '--clock', '08:30', '--json']
    fields.push(...Object.keys(JSON.parse(await roadFor([words[0]!, ...reading], read)) as object))
    const few = ['--days', '64', '--json', '--set', 'goal=14400']
    fields.push(...keysIn(JSON.parse(await chanceFor([words[0]!, ...few], read))))
    const coarse = ['--ratios', '0,100,200', '--json']
    const { plan: taken, ...decided } = JSON.parse(await decideFor([words[0]!, ...coarse], read)) as { plan: object }
    fields.push('plan', ...keysIn(decided))
    expect(Object.keys(taken)).toContain('assist')
    expect(fields.length).toBeGreaterThan(35)
    expect(fields.filter((field) => !documented.has(field))).toEqual([])
  })

  it('has every field of what a ride tells', async () => {
    const words = ['sample-routes/into-town-18km.gpx', '--until', '9', '--json']
    const { beliefs, ...told } = JSON.parse(await learnFor(words, read)) as LearnReport
    const fields = [...keysIn(told), ...keysIn(Object.values(beliefs))]
    expect(fields.length).toBeGreaterThan(30)
    expect(fields.filter((field) => !documented.has(field))).toEqual([])
  })

  it('shows what its example gives', async () => {
    const [command, ...output] = page('scripts.html').getElementById('example-output')!.textContent!.trim().split('\n')
    const words = command!.replace('$ npm run -s forecast -- ', '').split(' ')
    expect(output.join('\n').trimEnd()).toBe((await forecastFor(words, read)).trimEnd())
  })
})
