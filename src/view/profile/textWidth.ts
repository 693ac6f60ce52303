const context = document.createElement('canvas').getContext('2d')

/**
 * Width of a text, px.
 *
 * @param font as CSS has it
 */
export function textWidth(text: string, font: string): number {
  if (context === null) return 8 * text.length
  context.font = font
  return context.measureText(text).width
}
