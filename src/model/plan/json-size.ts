/** How deep a document of JSON is nested, and how many values, lists and objects it holds. */
export interface Size {
  depth: number
  values: number
}

/**
 * The size of a document before it is made: one pass over its text, without memory of its own. What is no JSON gets some size as well.
 *
 * @param text JSON
 */
export function measureJson(text: string): Size {
  let depth = 0
  let deepest = 0
  let values = 1
  for (let i = 0; i < text.length; i++)
    switch (text[i]) {
      case '"':
        i = endOfString(text, i)
        break
      case '{':
      case '[':
        values++
        deepest = Math.max(deepest, ++depth)
        break
      case '}':
      case ']':
        depth--
        break
      case ',':
        values++
    }
  return { depth: deepest, values }
}

/** Where the string ends that begins at a place: at the next quotation mark that no odd number of backslashes stands before. */
function endOfString(text: string, from: number): number {
  for (let end = text.indexOf('"', from + 1); end >= 0; end = text.indexOf('"', end + 1)) {
    let backslashes = 0
    while (text[end - 1 - backslashes] === '\\') backslashes++
    if (backslashes % 2 === 0) return end
  }
  return text.length
}
