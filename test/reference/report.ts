import { fileURLToPath } from 'node:url'
import type { Measured } from './check'
import { measureAll } from './measure'

const digits = (value: number, places = 7) => String(Number(value.toPrecision(places)))

/** All checks as a table of text: quantity, source, basis, figure, ours, difference, tolerance, unit. */
export function reportTable(rows: readonly Measured[]): string {
  const head = ['quantity', 'figure', 'ours', 'difference', 'tolerance', 'unit', 'basis', 'source']
  const cells = rows.map((row) => [
    row.quantity + (row.holds ? '' : '  <-- OUT OF TOLERANCE'),
    digits(row.expected),
    digits(row.figure),
    digits(row.difference, 3),
    digits(row.tolerance, 3),
    row.unit,
    row.basis,
    row.source,
  ])
  const widths = head.map((title, k) => Math.max(title.length, ...cells.map((row) => row[k]!.length)))
  const line = (row: readonly string[]) =>
    row
      .map((cell, k) => (k > 0 && k < 5 ? cell.padStart(widths[k]!) : cell.padEnd(widths[k]!)))
      .join('  ')
      .trimEnd()
  const topics = [...new Set(rows.map(({ topic }) => topic))]
  return topics
    .flatMap((topic) => ['', topic, line(head), ...cells.filter((_, i) => rows[i]!.topic === topic).map(line)])
    .concat('', summaryLine(rows))
    .join('\n')
}

function summaryLine(rows: readonly Measured[]): string {
  const bases = [...new Set(rows.map(({ basis }) => basis))]
  const counts = bases.map((basis) => `${rows.filter((row) => row.basis === basis).length} ${basis}`)
  return `${rows.filter(({ holds }) => holds).length} of ${rows.length} checks within tolerance: ${counts.join('; ')}.`
}

/** For the README: a line a topic, with the check that comes closest to its tolerance. */
export function reportMarkdown(rows: readonly Measured[]): string {
  const topics = [...new Set(rows.map(({ topic }) => topic))]
  const lines = topics.map((topic) => {
    const here = rows.filter((row) => row.topic === topic)
    const worst = here.reduce((a, b) => (b.share > a.share ? b : a))
    const off = `${digits(worst.difference, 2)} of ${digits(worst.expected, 5)} ${worst.unit === '1' ? '' : worst.unit}`
    const published = here.filter(({ basis }) => basis === 'published').length
    return `| ${topic} | ${here.length} | ${published} | ${worst.quantity} | ${off.trim()} | ${Math.round(100 * worst.share)} % |`
  })
  return [
    '| topic | checks | of them published figures | closest to its tolerance | off by | share of the tolerance |',
    '| --- | ---: | ---: | --- | --- | ---: |',
    ...lines,
    '',
    summaryLine(rows),
  ].join('\n')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const rows = measureAll()
  console.log(process.argv.includes('--markdown') ? reportMarkdown(rows) : reportTable(rows))
  if (rows.some(({ holds }) => !holds)) process.exitCode = 1
}
