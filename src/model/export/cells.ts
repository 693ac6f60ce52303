import type { UnparseConfig } from 'papaparse'

/** What a spreadsheet may take for a formula: the signs that begin one, in full width too, and the blanks before which some look on. */
export const formulaStart = /^[=+\-@\t\r\n＝＋－＠]/u

/** How tables leave: by RFC 4180, and a cell in quotes also where a spreadsheet of another country would cut it in two. */
export const tableForm: UnparseConfig = { newline: '\r\n', quotes: (cell: unknown) => /[;\t]/.test(String(cell)) }

/** A text that stands in a cell as it is: what a spreadsheet would run, and what a reader of tables would trim or take for nothing, comes behind an apostrophe. */
export const cellOf = (text: string): string =>
  text === '' || /^['\s]|\s$/u.test(text) || formulaStart.test(text) ? `'${text}` : text

/**
 * The text of a cell that `cellOf` or somebody else wrote.
 *
 * @param cell as it stands in the file
 * @returns trimmed where no apostrophe holds it together; empty where nothing stands there
 */
export function textOf(cell: string): string {
  const held = cell.slice(1)
  return cellOf(held) === cell ? held : cell.trim()
}
