/** Wrong changes to files, each decided by a seeded generator. */
export type Random = () => number

export const below = (random: Random, end: number): number => Math.floor(random() * end)
export const pick = <T>(random: Random, from: readonly T[]): T => from[below(random, from.length)]!

const mostLength = 2_000_000

const numbers = [
  ...[
    '0',
    '-0',
    '1e308',
    '-1e308',
    '1e999',
    '-1e999',
    '5e-324',
    'NaN',
    'Infinity',
    '',
    '٣',
    '0x10',
    '1,5',
    '1e',
    '.',
    '--5',
  ],
  ...[
    '90',
    '-90',
    '180',
    '-180',
    '180.0000001',
    '9007199254740993',
    '-1',
    '1e-9',
    '99999999999999999999',
    '1'.repeat(400),
  ],
]
const words = [
  '',
  '�',
  '\0',
  '\uFEFF',
  '‮',
  '<',
  '>',
  '&',
  '&amp;',
  '&#0;',
  '&#x1F6B2;',
  ']]>',
  '<!--',
  '"',
  "'",
  '\\',
  '{',
  '}',
  '[',
  ']',
]

/** Somewhere in a text, a piece of at most so many characters. */
function piece(random: Random, text: string, most: number): [from: number, to: number] {
  const from = below(random, text.length + 1)
  return [from, Math.min(text.length, from + below(random, most))]
}

type Change = (text: string, random: Random, other: string) => string

const otherNumber = (text: string, random: Random, every: number): string => {
  const number = pick(random, numbers)
  return text.replace(/-?\d+(\.\d+)?/g, (old) => (below(random, every) === 0 ? number : old))
}
/** Some lines of a text changed, as a list. */
const lines = (text: string, change: (lines: string[], from: number, to: number) => void, random: Random): string => {
  const list = text.split('\n')
  const from = below(random, list.length)
  change(list, from, Math.min(list.length, from + 1 + below(random, 30)))
  return list.join('\n')
}

/** What a reader has to live with, and the file mostly stays one. */
const small: readonly Change[] = [
  (text, random) => otherNumber(text, random, 1000),
  (text, random) => otherNumber(text, random, 100),
  // Another digit, or more of them.
  (text, random) =>
    text.replace(/\d/g, (digit) =>
      below(random, 300) === 0 ? `${below(random, 10)}`.repeat(1 + below(random, 3)) : digit,
    ),
  (text, random) => text.replace(/\d/g, (digit) => (below(random, 300) === 0 ? '-.e'[below(random, 3)]! : digit)),
  // Lines left out, doubled, in another order.
  (text, random) => lines(text, (list, from, to) => list.splice(from, to - from), random),
  (text, random) => lines(text, (list, from, to) => list.splice(to, 0, ...list.slice(from, to)), random),
  (text, random) =>
    lines(text, (list, from, to) => list.splice(from, to - from, ...list.slice(from, to).reverse()), random),
  (text, random) => lines(text, (list, from, to) => list.splice(0, 0, ...list.splice(from, to - from)), random),
]

/** What may happen to a text. */
const large: readonly Change[] = [
  // Cut off.
  (text, random) => text.slice(0, below(random, text.length)),
  // A piece left out.
  (text, random) => {
    const [from, to] = piece(random, text, 2000)
    return text.slice(0, from) + text.slice(to)
  },
  // A piece doubled, up to a thousand times.
  (text, random) => {
    const [from, to] = piece(random, text, 400)
    return text.slice(0, to) + text.slice(from, to).repeat(pick(random, [1, 2, 10, 1000])) + text.slice(to)
  },
  // A piece of another file.
  (text, random, other) => {
    const [from, to] = piece(random, other, 3000)
    const at = below(random, text.length + 1)
    return text.slice(0, at) + other.slice(from, to) + text.slice(at)
  },
  // Nested deep.
  (text, random) => {
    const at = below(random, text.length + 1)
    const opening = pick(random, ['<trk>', '<extensions>', '<a>', '<Folder>', '[', '{"a":', '(', '<!--'])
    return text.slice(0, at) + opening.repeat(pick(random, [5, 100, 20_000, 200_000])) + text.slice(at)
  },
  // A number, or some of them, an extreme.
  (text, random) => otherNumber(text, random, pick(random, [1, 3, 50])),
  // A sign that means something to a reader.
  (text, random) => {
    const at = below(random, text.length + 1)
    return text.slice(0, at) + pick(random, words) + text.slice(at + below(random, 2))
  },
  // All of a name another.
  (text, random) => {
    const names = [...new Set(text.slice(0, 20_000).match(/[A-Za-z]{3,20}/g))]
    return names.length === 0 ? text : text.replaceAll(pick(random, names), pick(random, [...names, ...words]))
  },
]

const encoded = (text: string, bigEndian: boolean): Uint8Array => {
  const view = new DataView(new ArrayBuffer(2 * text.length))
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), !bigEndian)
  return new Uint8Array(view.buffer)
}

/** A text as bytes, mostly UTF-8, and with bytes that are wrong now and then. */
function bytesOf(text: string, random: Random): Uint8Array {
  const how = below(random, 20)
  let bytes: Uint8Array
  if (how === 0) bytes = encoded(text, false)
  else if (how === 1) bytes = encoded(text, true)
  else if (how === 2) bytes = encoded(`\uFEFF${text}`, below(random, 2) === 0)
  else if (how === 3) bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0xff)
  else bytes = new TextEncoder().encode(how === 4 ? `\uFEFF${text}` : text)
  if (below(random, 4) === 0 && bytes.length > 0)
    for (let flips = 1 + below(random, 20); flips > 0; flips--)
      bytes[below(random, bytes.length)]! ^= 1 << below(random, 8)
  return bytes
}

/**
 * A file with one to four wrong changes.
 *
 * @param text the file
 * @param other one of which pieces may come
 */
export function mutated(text: string, other: string, random: Random): Uint8Array {
  const isSmall = below(random, 2) === 0
  for (let changes = 1 + below(random, 4); changes > 0; changes--)
    text = pick(random, isSmall ? small : large)(text, random, other).slice(0, mostLength)
  return isSmall ? new TextEncoder().encode(text) : bytesOf(text, random)
}

const values: readonly unknown[] = [
  ...[
    null,
    true,
    '',
    0,
    -1,
    0.5,
    1e308,
    -1e308,
    1e15,
    'x',
    'x'.repeat(100_000),
    [],
    {},
    [[]],
    '2027-02-31T06:00',
    '0000-01-01T00:00',
  ],
  ...[
    '9999-12-31T23:59',
    '24:00',
    '00:00',
    'Europe/Oslo',
    'Etc/GMT+12',
    '__proto__',
    { constructor: { prototype: 1 } },
  ],
]

/** A document with some values, keys and items of lists changed, left out or doubled. */
export function mutatedDocument(document: unknown, random: Random): unknown {
  const root = structuredClone(document)
  for (let changes = 1 + below(random, 3); changes > 0; changes--) {
    let here: unknown = root
    for (;;) {
      if (typeof here !== 'object' || here === null) break
      const keys = Object.keys(here)
      if (keys.length === 0) break
      const record = here as Record<string, unknown>
      const key = pick(random, keys)
      const inside = record[key]
      if (typeof inside === 'object' && inside !== null && Object.keys(inside).length > 0 && below(random, 5) > 0) {
        here = inside
        continue
      }
      const how = below(random, 6)
      if (how === 0) delete record[key]
      else if (how === 1 && Array.isArray(here)) {
        const list = here as unknown[]
        const item: unknown = list[Number(key)]
        for (let more = pick(random, [1, 5, 300, 3000]); more > 0; more--) list.push(structuredClone(item))
      } else record[key] = structuredClone(pick(random, values))
      break
    }
  }
  return root
}
