/**
 * By how much what is drawn is larger than usual: as much as the text of the page, as far as there is room; never smaller.
 *
 * @param width there is, px
 * @param least width that the drawing takes at its usual size, px
 */
export function scaleWithText(width: number, least: number): number {
  const text = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16
  return Math.max(1, Math.min(text, width / least))
}
