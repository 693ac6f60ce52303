import { terms, type TermName } from '../words/en/terms'

/** A piece of a text, which may be a term. */
export interface Piece {
  text: string
  term?: TermName
}

const all = Object.entries(terms) as [TermName, RegExp][]

/** A text with each term that stands in it as a piece of its own, where it stands first. */
export function piecesOf(text: string): Piece[] {
  const found = all
    .flatMap(([term, pattern]) => {
      const match = pattern.exec(text)
      return match === null ? [] : [{ term, at: match.index, end: match.index + match[0].length }]
    })
    .sort((a, b) => a.at - b.at)
  const pieces: Piece[] = []
  let at = 0
  for (const { term, at: from, end } of found) {
    if (from < at) continue
    if (from > at) pieces.push({ text: text.slice(at, from) })
    pieces.push({ text: text.slice(from, end), term })
    at = end
  }
  return at < text.length ? [...pieces, { text: text.slice(at) }] : pieces
}
