import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { format, resolveConfig } from 'prettier'
import { headings } from '../src/view/docs/places'
import { formulaInWords } from '../src/view/reasons/explain'
import { whyWordsIn } from '../src/view/words/why'
import type { FormulaWords } from '../src/view/words/en/formulas/formula'

const { parts, names } = whyWordsIn('metric')

/** Where on the page a figure stands first, as the documentation says it. */
const where: Record<keyof typeof parts, string> = {
  story: 'Story and day',
  ride: 'Ride',
  day: 'Day and kit',
  charging: 'Charging',
  choosing: 'Comparing and choosing',
}

/** The figures of the page that are worked out below a heading of the documentation, each with its formula and source. */
export interface FiguresOfHeading {
  page: string
  id: string
  rows: { name: string; formula: string; source: string }[]
}

/** From the words of the panel that says why: what the documentation's lists of figures are written from. */
export const figuresByHeading: readonly FiguresOfHeading[] = [
  ...new Set(Object.values(parts).flatMap((part) => Object.values<FormulaWords>(part).map(({ heading }) => heading))),
].map((heading) => {
  const [page, id] = headings[heading].split('#') as [string, string]
  const rows = Object.entries(parts).flatMap(([part, figures]) =>
    Object.values<FormulaWords>(figures)
      .filter((figure) => figure.heading === heading)
      .map(({ title, formula, source }) => ({
        name: `${where[part as keyof typeof where]}: ${title}`,
        formula: formulaInWords(formula, names),
        source,
      })),
  )
  return { page, id, rows }
})

const asText = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')

async function write(page: string): Promise<void> {
  const file = fileURLToPath(new URL(`../static/docs/${page}`, import.meta.url))
  const before = readFileSync(file, 'utf8')
  const after = figuresByHeading
    .filter((figures) => figures.page === page)
    .reduce((text, { id, rows }) => {
      const list = new RegExp(`(<dl class="figures" id="figures-${id}">)[\\s\\S]*?(</dl>)`)
      if (!list.test(text)) throw new Error(`${page} has no list of figures ${id}.`)
      const items = rows.map(
        ({ name, formula, source }) =>
          `<dt>${asText(name)}</dt><dd>${asText(formula)}<p class="source">${asText(source)}</p></dd>`,
      )
      return text.replace(list, (_, open: string, close: string) => `${open}${items.join('\n')}${close}`)
    }, before)
  writeFileSync(file, await format(after, { ...(await resolveConfig(file)), parser: 'html' }))
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const page of new Set(figuresByHeading.map(({ page }) => page))) await write(page)
