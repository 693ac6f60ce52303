import { strToU8, unzipSync, zipSync } from 'fflate'
import type { Plan } from '../../src/model/plan/schema'
import { WHOLE_FILE } from '../../src/model/route/reading'
import { writeDay, writeDays } from '../../src/state/day-file'
import { below, mutated, mutatedDocument, pick, type Random } from './mutate'

/** What days are made of. */
export interface Stuff {
  plans: readonly string[]
  /** Some of a plan's numbers changed, so that it stays one. */
  varied: (plan: Plan, random: Random) => Plan
  routes: readonly string[]
}

type Parts = Record<string, Uint8Array>

/** A good day as the parts of its file. */
function parts(stuff: Stuff, random: Random): Parts {
  const day = {
    ...{
      name: 'A day',
      isNamed: true,
      fileName: 'line.gpx',
      choice: { ...WHOLE_FILE, marked: [{ from: 10, to: 900 }] },
      at: 0,
    },
    ...{ changed: Date.UTC(2027, 5, 19), plan: pick(random, stuff.plans) },
  }
  return unzipSync(writeDay(day, strToU8(pick(random, stuff.routes))))
}

const documentOf = (files: Parts): unknown => JSON.parse(new TextDecoder().decode(files['day.json']))

/** In the place of a name that what packs zips can't take, as long as it. */
const stand = '__prota__'

function withProto(bytes: Uint8Array): Uint8Array {
  const text = Buffer.from(bytes)
  for (let at = text.indexOf(stand); at >= 0; at = text.indexOf(stand)) text.write('__proto__', at)
  return new Uint8Array(text)
}

/** Names that mean something to who unpacks a zip, or to an object that is asked by them. */
const names = [
  ...['', '.', '/', '/day.json', '../day.json', '..\\route', 'Day.json', 'day.json/', 'a/day.json', 'route.gz'],
  ...[stand, 'constructor', 'toString', 'day.json\0', 'ground/0123456789abcdef', 'ground/../route'],
  ...['recordings/a', 'inner.wattfare', '.wattfare', 'x'.repeat(60_000), '‮etuor', '\uFEFFday.json'],
]

/** Bytes that pack to a thousandth, packed once for each size. */
const packed = new Map<string, Uint8Array>()
function bomb(name: string, size: number): Uint8Array {
  const key = `${name} ${size}`
  if (!packed.has(key)) packed.set(key, zipSync({ [name]: new Uint8Array(size).fill(0x20) }))
  return packed.get(key)!.slice()
}

const signatures = [0x04034b50, 0x02014b50, 0x06054b50]
const extremes = [0, 1, 2, 0x7f, 0xff, 0xffff, 0x10000, 0x7fffffff, 0x80000000, 0xffffffff]

/** Where a zip's headers begin. */
function headersIn(bytes: Uint8Array): number[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
  const found: number[] = []
  for (let i = 0; i + 46 < bytes.length; i++) if (signatures.includes(view.getUint32(i, true))) found.push(i)
  return found
}

/** Some fields of a zip's headers another number: sizes, offsets, lengths, how it is packed. */
function withHeaders(bytes: Uint8Array, random: Random): Uint8Array {
  const changed = bytes.slice()
  const view = new DataView(changed.buffer)
  const headers = headersIn(changed)
  for (let changes = 1 + below(random, 3); changes > 0 && headers.length > 0; changes--) {
    const field = pick(random, headers) + 4 + 2 * below(random, 20)
    const number = below(random, 3) === 0 ? below(random, 2 ** 32) : pick(random, extremes)
    if (below(random, 2) === 0) view.setUint16(field, number & 0xffff, true)
    else view.setUint32(field, number, true)
  }
  return changed
}

/** A zip that says its only file unpacks to so many bytes. */
function saying(bytes: Uint8Array, size: number): Uint8Array {
  const view = new DataView(bytes.buffer)
  for (const header of headersIn(bytes)) {
    const signature = view.getUint32(header, true)
    if (signature === signatures[0]) view.setUint32(header + 22, size, true)
    if (signature === signatures[1]) view.setUint32(header + 24, size, true)
  }
  return bytes
}

/** Bytes flipped, cut off, left out, doubled, or with a piece of another file. */
function withBytes(bytes: Uint8Array, other: Uint8Array, random: Random): Uint8Array {
  const from = below(random, bytes.length)
  const to = Math.min(bytes.length, from + below(random, 500))
  const together = (...pieces: Uint8Array[]) => new Uint8Array(Buffer.concat(pieces))
  const how = below(random, 5)
  if (how === 0) return bytes.slice(0, from)
  if (how === 1) return together(bytes.subarray(0, from), bytes.subarray(to))
  if (how === 2) return together(bytes.subarray(0, to), bytes.subarray(from))
  if (how === 3) return together(bytes.subarray(0, from), other.subarray(from, to), bytes.subarray(from))
  const changed = bytes.slice()
  for (let flips = 1 + below(random, 20); flips > 0; flips--)
    changed[below(random, changed.length)]! ^= 1 << below(random, 8)
  return changed
}

type Make = (stuff: Stuff, random: Random) => Uint8Array

/** What may be wrong with one day. */
const wrong: readonly Make[] = [
  (stuff, random) => withBytes(zipSync(parts(stuff, random)), zipSync(parts(stuff, random)), random),
  (stuff, random) => withHeaders(zipSync(parts(stuff, random)), random),
  (stuff, random) => {
    const files = parts(stuff, random)
    const document = mutatedDocument(documentOf(files), random)
    return zipSync({ ...files, 'day.json': strToU8(JSON.stringify(document) ?? '') })
  },
  (stuff, random) => {
    const files = parts(stuff, random)
    const document = documentOf(files) as { plan: Plan }
    return zipSync({
      ...files,
      'day.json': strToU8(JSON.stringify({ ...document, plan: stuff.varied(document.plan, random) })),
    })
  },
  (stuff, random) => {
    const files = parts(stuff, random)
    const text = new TextDecoder().decode(files['day.json'])
    return zipSync({ ...files, 'day.json': mutated(text, pick(random, stuff.plans), random) })
  },
  (stuff, random) => {
    const route = mutated(pick(random, stuff.routes), pick(random, stuff.routes), random)
    return zipSync({ ...parts(stuff, random), route })
  },
  // Parts that are gone, have another name, or come beside.
  (stuff, random) => {
    const files = Object.entries(parts(stuff, random))
    const at = below(random, files.length)
    const how = below(random, 3)
    if (how === 0) files.splice(at, 1)
    else if (how === 1) files[at]![0] = pick(random, names)
    else files.push([pick(random, names), pick(random, files)[1]])
    return withProto(zipSync(Object.fromEntries(files)))
  },
  // More than it says, or more than is taken.
  (_, random) => {
    const bytes = bomb(pick(random, ['route', 'day.json', 'x']), pick(random, [1e6, 24e6, 60e6]))
    return below(random, 2) === 0 ? bytes : saying(bytes, pick(random, [0, 1, 1000, 20e6, 0xffffffff]))
  },
  (stuff, random) => {
    const many = Object.fromEntries(
      Array.from({ length: pick(random, [9_998, 9_999, 20_000]) }, (_, i) => [`${i}`, new Uint8Array()]),
    )
    return zipSync({ ...parts(stuff, random), ...many }, { level: 0 })
  },
]

/** A file of one or several days that may be wrong in any way. */
export function wrongDays(stuff: Stuff, random: Random): Uint8Array {
  const one = () => pick(random, wrong)(stuff, random)
  if (below(random, 5) > 0) return one()
  let several: Uint8Array = writeDays(
    Array.from({ length: 1 + below(random, 4) }, (_, i) => ({ name: `Day ${i}`, bytes: one() })),
  )
  for (let deeper = pick(random, [0, 0, 1, 20]); deeper > 0; deeper--)
    several = zipSync({ 'inner.wattfare': several }, { level: pick(random, [0, 9]) })
  return below(random, 3) === 0 ? withHeaders(several, random) : several
}
