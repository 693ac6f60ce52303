/** What a spreadsheet may take for a formula: the signs that begin one, in full width too, and the blanks before which some look on. */
export const formulaStart = /^[=+\-@\t\r\n＝＋－＠]/u

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
