import { fileURLToPath } from 'node:url'
import { putTable } from '../page-table'
import { quantities, type Measured, type Quantity } from './check'
import { measureAll } from './measure'

const raised = (power: number) =>
  [...String(power)].map((digit) => (digit === '-' ? '⁻' : '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(digit)])).join('')

/** `0.016`, `−2.8·10⁻¹⁰`. */
function digits(value: number, places: number): string {
  const [figure, power] = value.toExponential(places - 1).split('e') as [string, string]
  const isSmall = value !== 0 && Math.abs(value) < 1e-3
  const text = isSmall ? `${Number(figure)}·10${raised(Number(power))}` : String(Number(value.toPrecision(places)))
  return text.replace('-', '−')
}
const withUnit = (text: string, unit: string) => (unit === '1' ? text : `${text} ${unit}`)

/** Quantity, how many samples, mean and greatest difference, share of the tolerance that the closest takes, basis. */
const cellsOf = ({ quantity, samples, mean, most, unit, closest, holds }: Quantity): string[] => [
  quantity + (holds ? '' : '  <-- OUT OF TOLERANCE'),
  String(samples.length),
  withUnit(digits(mean, 2), unit),
  withUnit(digits(most, 2), unit),
  `${Math.round(100 * closest.share)} %`,
  samples[0]!.basis,
]
const head = ['quantity', 'samples', 'mean off', 'at most off', 'of what is let pass', 'basis']

/** All quantities as a table of text, and where each comes closest to its tolerance. */
function reportTable(all: readonly Quantity[]): string {
  const cells = all.map((one) => [
    ...cellsOf(one),
    [one.closest.sample, [...new Set(one.samples.map(({ source }) => source))].join('; ')]
      .filter((text) => text !== '')
      .join(': '),
  ])
  const titles = [...head, 'closest, and source']
  const widths = titles.map((title, k) => Math.max(title.length, ...cells.map((row) => row[k]!.length)))
  const line = (row: readonly string[]) =>
    row
      .map((cell, k) => (k > 0 && k < 5 ? cell.padStart(widths[k]!) : cell.padEnd(widths[k]!)))
      .join('  ')
      .trimEnd()
  return [...new Set(all.map(({ topic }) => topic))]
    .flatMap((topic) => ['', topic, line(titles), ...cells.filter((_, i) => all[i]!.topic === topic).map(line)])
    .join('\n')
}

function summaryLine(rows: readonly Measured[], all: readonly Quantity[]): string {
  const bases = [...new Set(all.map(({ samples }) => samples[0]!.basis))]
  const counts = bases.map((basis) => `${all.filter(({ samples }) => samples[0]!.basis === basis).length} ${basis}`)
  const within = all.filter(({ holds }) => holds).length
  return `${within} of ${all.length} quantities within tolerance, over ${rows.length} samples: ${counts.join('; ')}.`
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const rows = measureAll()
  const all = quantities(rows)
  console.log(`${reportTable(all)}\n\n${summaryLine(rows, all)}`)
  if (process.argv.includes('--page')) await putTable('checks-table', summaryLine(rows, all), all.map(cellsOf))
  if (rows.some(({ holds }) => !holds)) process.exitCode = 1
}
