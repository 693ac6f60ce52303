import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { format, resolveConfig } from 'prettier'

const file = fileURLToPath(new URL('../static/docs/accuracy.html', import.meta.url))
const asText = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')

/**
 * Writes the rows of a table of the page on accuracy and speed, and the line above it.
 *
 * @param name its `id`; that of the line is `name-line`
 * @param rows cells, all text
 */
export async function putTable(name: string, line: string, rows: readonly (readonly string[])[]): Promise<void> {
  const head = new RegExp(`(<table id="${name}">[\\s\\S]*?<tbody>)[\\s\\S]*?(</tbody>)`)
  const above = new RegExp(`(<p id="${name}-line">)[\\s\\S]*?(</p>)`)
  const page = readFileSync(file, 'utf8')
  const columns = [
    ...(new RegExp(`<table id="${name}">[\\s\\S]*?</thead>`).exec(page)?.[0] ?? '').matchAll(/<th\b[^>]*>/g),
  ]
  if (columns.length !== rows[0]?.length || !above.test(page))
    throw new Error(`The page has no table ${name} of ${rows[0]?.length} columns.`)
  const isFigure = columns.map(([tag]) => tag.includes('class="figure"'))
  const cell = (text: string, i: number) => `<td${isFigure[i] ? ' class="figure"' : ''}>${asText(text)}</td>`
  const body = rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('\n')
  const filled = page
    .replace(head, (_, before: string, after: string) => before + body + after)
    .replace(above, (_, before: string, after: string) => before + asText(line) + after)
  writeFileSync(file, await format(filled, { ...(await resolveConfig(file)), parser: 'html' }))
}
