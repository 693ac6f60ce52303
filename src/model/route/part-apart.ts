import { APART, between, CROSSED } from './arrange'
import type { Line } from './line'
import { survey } from './survey'

/**
 * A line as it is; or, without times and with parts so far apart that it can't be one way in their order, a line of each part. Then they are
 * put in order, and asked about, as other lines are.
 */
export function partApart(line: Line): Line[] {
  const { parts } = line
  if (parts.length < 2 || parts.some(({ time }) => time.some((t) => !Number.isNaN(t)))) return [line]
  const pieces = parts.map((part) => survey({ ...line, parts: [part] })).filter(({ outline }) => outline.length > 0)
  const gaps = pieces.slice(1).map((piece, k) => between(pieces[k]!, piece))
  const length = pieces.reduce((sum, piece) => sum + piece.length, 0)
  const crossed = gaps.reduce((sum, gap) => sum + gap, 0)
  if (!gaps.some((gap) => gap > APART) || crossed <= CROSSED * length) return [line]
  return parts.map((part, k) => ({
    ...line,
    isPart: true as const,
    parts: [part],
    fromExtensions: k === 0 ? line.fromExtensions : 0,
  }))
}
