/**
 * What comes from a file, such as a name, short enough to stand in a sentence: of a longer one its beginning and its end.
 *
 * @param most characters, an odd number
 */
export function cut(text: string, most = 41): string {
  if (text.length <= most) return text
  const half = (most - 1) / 2
  return `${text.slice(0, half)}…${text.slice(-half)}`.replace(/\p{Surrogate}/gu, '')
}
