const context = document.createElement('canvas').getContext('2d')

/** Widths of the texts measured so far, by font and text. */
const known = new Map<string, number>()
const most = 2000

/**
 * Width of a text, px.
 *
 * @param font as CSS has it
 */
export function textWidth(text: string, font: string): number {
  const key = `${font}|${text}`
  let width = known.get(key)
  if (width === undefined) {
    if (known.size >= most) known.clear()
    known.set(key, (width = measured(text, font)))
  }
  return width
}

/** Of letters that were not there yet. */
export const forgetWidths = (): void => known.clear()

function measured(text: string, font: string): number {
  if (context === null) return 8 * text.length
  context.font = font
  return context.measureText(text).width
}
