import { strFromU8, strToU8, Unzip, UnzipInflate, unzipSync, zipSync, type Zippable } from 'fflate'
import * as v from 'valibot'
import { mostText, readPlan, sizeFault, type PlanFault } from '../model/plan/check'
import { rideNotesSchema } from '../model/learn/notes'
import { planSchema, type Plan } from '../model/plan/schema'
import { choiceSchema } from '../model/route/choice-schema'
import { groundsFor, readBeside, rideEntries, type Day, type KeptRide, type Others } from './day'

/*
 * A day as one file: a zip of `day.json` and `route`, the bytes of the route file as they were opened. Several days are a zip of such files. What else is
 * in a file stays with its day and goes out with it again.
 */

const format = 'wattfare-day'
const version = 1
const documentName = 'day.json'
const routeName = 'route'
/** Of heights of the land, with the key that the choice names. */
const groundName = /^ground\/([\da-f]{16,64})$/
/** Of a ride that was ridden, with the id that `rides` names. */
const recordingName = /^recordings\/([\w-]{1,40})$/
export const dayEnding = '.wattfare'

/** Bytes, unpacked, of one file of a day, and of one of several. */
const most = { day: 170_000_000, days: 500_000_000 }
const mostEntries = 10_000
/** No text of a route or a plan is packed tighter than to a hundredth of its bytes, save short ones. */
const [mostRatio, freeBytes] = [100, 25_000_000]
/** Of a zip, bytes unpacked at once: to a thousand times as many at most. */
const pieceSize = 8192

const text = v.pipe(v.string(), v.maxLength(200))
const header = {
  format: v.literal(format),
  name: text,
  isNamed: v.boolean(),
  sample: v.exactOptional(text),
  fileName: text,
  /** By the clock of the world, ISO 8601. */
  changed: v.pipe(v.string(), v.isoTimestamp()),
  choice: choiceSchema,
}

/** What `day.json` is published to be. */
export const dayFileSchema = v.looseObject({
  ...header,
  version: v.literal(version),
  plan: planSchema,
  beside: v.exactOptional(
    v.object({
      held: v.exactOptional(planSchema),
      kept: v.array(v.object({ id: text, name: text, plan: planSchema })),
    }),
  ),
  rides: v.exactOptional(v.array(v.object({ id: text, fileName: v.exactOptional(text), notes: rideNotesSchema }))),
})
/** Its plan is checked by the plan's own door. */
const outerSchema = v.looseObject({ ...header, plan: v.unknown(), beside: v.exactOptional(v.unknown()) })

/** Why a file gives no day. */
export type DayFileFault =
  | { code: 'noDay' }
  | { code: 'damagedDay' }
  | { code: 'dayTooLarge'; most: number }
  | { code: 'tooManyParts'; most: number }
  | { code: 'newerDay'; version: number; known: number }
  | { code: 'planOfDay'; fault: PlanFault }

/** A day as its file gives it. */
export interface FiledDay {
  day: Pick<
    Day,
    'name' | 'isNamed' | 'sample' | 'fileName' | 'choice' | 'changed' | 'others' | 'grounds' | 'beside' | 'rides'
  >
  plan: Plan
  bytes: Uint8Array
}

export type DaysReading = { days: FiledDay[]; faults: { fileName: string; fault: DayFileFault }[] }

class Unfit extends Error {
  constructor(readonly fault: DayFileFault) {
    super(fault.code)
  }
}

const isZip = (bytes: Uint8Array) => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4

/** A day as the bytes of its file. @param plan as text, which need be no plan of this version */
export function writeDay(day: Omit<Day, 'id' | 'at' | 'route'>, bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const { name, isNamed, sample, fileName, choice, changed, plan, others, beside, rides } = day
  const document = {
    ...others?.keys,
    ...{ format, version, name: name.slice(0, 200), isNamed },
    ...(sample === undefined ? {} : { sample }),
    ...{ fileName: fileName.slice(-200), changed: new Date(changed).toISOString(), choice, plan: jsonOf(plan) },
    ...(beside === undefined ? {} : { beside: withPlans(beside, jsonOf) }),
    ...(rides === undefined ? {} : { rides: rides.map(rideInFile) }),
  }
  const grounds = Object.entries(groundsFor([choice], day.grounds)?.grounds ?? {})
  const brought = Object.fromEntries(grounds.map(([key, heights]) => [`ground/${key}`, heights]))
  const recordings = Object.fromEntries(
    (rides ?? []).flatMap(({ id, bytes }) => (bytes === undefined ? [] : [[`recordings/${id}`, bytes] as const])),
  )
  return zip({
    ...others?.files,
    ...brought,
    ...recordings,
    [documentName]: strToU8(JSON.stringify(document, null, 2)),
    [routeName]: bytes,
  })
}

/** What is left of a day that can't be used, just as it is: parts that are bytes as files of their own. */
export function writeWreck(record: unknown, bytes: unknown): Uint8Array<ArrayBuffer> {
  const files: Record<string, Uint8Array> = bytes instanceof Uint8Array ? { [routeName]: bytes } : {}
  const document = JSON.stringify(
    record,
    (key, value: unknown) => {
      if (!(value instanceof Uint8Array)) return value
      files[key === 'bytes' ? routeName : key] = value
      return undefined
    },
    2,
  )
  return zip({ ...files, [documentName]: strToU8(document) })
}

/** Several days as one file, each a file of its own in it. */
export function writeDays(files: readonly { name: string; bytes: Uint8Array }[]): Uint8Array<ArrayBuffer> {
  const taken: Zippable = {}
  for (const { name, bytes } of files) {
    let free = name
    for (let n = 2; `${free}${dayEnding}` in taken; n++) free = `${name} ${n}`
    taken[`${free}${dayEnding}`] = [bytes, { level: 0 }]
  }
  return zipSync(taken)
}

/**
 * The days of a file: one, or several with each that can't be read named.
 *
 * @returns undefined where it holds no day at all, as another kind of file
 */
export function readDays(bytes: Uint8Array, fileName: string): DaysReading | undefined {
  if (!isZip(bytes)) return undefined
  try {
    const files = unzip(bytes, most.days)
    if (documentName in files) return { days: [dayOf(files)], faults: [] }
    const inner = Object.entries(files).filter(([name]) => name.toLowerCase().endsWith(dayEnding))
    if (inner.length === 0) return undefined
    const reading: DaysReading = { days: [], faults: [] }
    let left = most.days
    for (const [name, bytes] of inner)
      try {
        const parts = unzip(bytes, Math.min(most.day, left))
        left -= sizeOf(parts)
        reading.days.push(dayOf(parts))
      } catch (error) {
        reading.faults.push({ fileName: name, fault: faultOf(error) })
      }
    return reading
  } catch (error) {
    return { days: [], faults: [{ fileName, fault: faultOf(error) }] }
  }
}

const faultOf = (error: unknown): DayFileFault => (error instanceof Unfit ? error.fault : { code: 'damagedDay' })

function dayOf({ [documentName]: json, [routeName]: bytes, ...rest }: Record<string, Uint8Array>): FiledDay {
  const document = json === undefined ? undefined : documentOf(json)
  if (typeof document !== 'object' || document === null || (document as { format?: unknown }).format !== format)
    throw new Unfit({ code: 'noDay' })
  const { version: written } = document as { version?: unknown }
  if (typeof written !== 'number' || !Number.isSafeInteger(written) || written < 1) throw new Unfit({ code: 'noDay' })
  if (written > version) throw new Unfit({ code: 'newerDay', version: written, known: version })
  const reading = v.safeParse(outerSchema, document)
  if (!reading.success || bytes === undefined) throw new Unfit({ code: 'damagedDay' })
  const { name, isNamed, sample, fileName, changed, choice, plan, beside, rides } = reading.output
  const planned = readPlan(JSON.stringify(plan))
  if (!planned.ok) throw new Unfit({ code: 'planOfDay', fault: planned.fault })
  const keys = Object.fromEntries(Object.entries(document).filter(([key]) => !(key in dayFileSchema.entries)))
  const grounds: Record<string, Uint8Array> = {}
  const recordings: Record<string, Uint8Array> = {}
  const files: Record<string, Uint8Array> = {}
  for (const [name, content] of Object.entries(rest)) {
    const [, key] = groundName.exec(name) ?? []
    const [, id] = recordingName.exec(name) ?? []
    if (key !== undefined) grounds[key] = content
    else if (id !== undefined) recordings[id] = content
    else files[name] = content
  }
  const others: Others = { keys, files }
  const hasOthers = Object.keys(keys).length + Object.keys(files).length > 0
  return {
    day: {
      ...{ name, isNamed, fileName, choice, changed: Date.parse(changed) },
      ...(sample === undefined ? {} : { sample }),
      ...(hasOthers ? { others } : {}),
      ...groundsFor([choice], grounds),
      ...(beside === undefined ? {} : { beside: readBeside(withPlans(beside, JSON.stringify)) ?? { kept: [] } }),
      ...(rides === undefined ? {} : { rides: ridesFrom(rides, recordings) }),
    },
    plan: planned.plan,
    bytes,
  }
}

/** A ride without the bytes of its file, which is a part of its own. */
const rideInFile = ({ bytes: _, notes, ...ride }: KeptRide) => ({ ...ride, notes: jsonOf(notes) })

/** Those that can be read, and whose recording is there where they have one. */
function ridesFrom(rides: unknown, recordings: Readonly<Record<string, Uint8Array>>): KeptRide[] {
  const entries = v.looseObject({ ...rideEntries, notes: v.unknown() })
  return (Array.isArray(rides) ? rides : []).flatMap((ride: unknown): KeptRide[] => {
    const reading = v.safeParse(entries, ride)
    if (!reading.success) return []
    const { id, fileName, notes } = reading.output
    const bytes = Object.hasOwn(recordings, id) ? recordings[id] : undefined
    if ((fileName === undefined) !== (bytes === undefined)) return []
    const text = JSON.stringify(notes ?? null)
    return [bytes === undefined || fileName === undefined ? { id, notes: text } : { id, fileName, notes: text, bytes }]
  })
}

/** Plans beside a day with each of them written another way; what is none is left for who reads it. */
function withPlans(beside: unknown, written: (plan: string) => unknown): unknown {
  const { held, kept } = beside as { held?: string; kept?: { plan: string }[] }
  return {
    ...(held === undefined ? {} : { held: written(held) }),
    kept: Array.isArray(kept) ? kept.map((one) => ({ ...one, plan: written(one.plan) })) : kept,
  }
}

/** Measured like a plan before it is parsed, for a plan is most of it. */
function documentOf(json: Uint8Array): unknown {
  // A letter has at most 3 bytes for each of its units.
  const isTooLong = json.length > 3 * mostText
  const text = isTooLong ? '' : strFromU8(json)
  const fault: PlanFault | undefined = isTooLong ? { code: 'tooLarge', most: mostText } : sizeFault(text)
  if (fault !== undefined) throw new Unfit({ code: 'planOfDay', fault })
  return jsonOf(text)
}

/** The parts of a zip: what it says of their sizes is looked at first, and as it may lie it is unpacked piece by piece, no further than the limit. */
function unzip(bytes: Uint8Array, mostBytes: number): Record<string, Uint8Array> {
  const limit = Math.min(mostBytes, freeBytes + mostRatio * bytes.length)
  let [said, entries, size] = [0, 0, 0]
  const within = (bytes: number) => {
    if (bytes > limit) throw new Unfit({ code: 'dayTooLarge', most: limit })
  }
  unzipSync(bytes, {
    filter: ({ originalSize }) => {
      within((said += originalSize))
      if (++entries > mostEntries) throw new Unfit({ code: 'tooManyParts', most: mostEntries })
      return false
    },
  })
  const files = new Map<string, Uint8Array>()
  const reader = new Unzip((file) => {
    const pieces: Uint8Array[] = []
    file.ondata = (error, piece, isLast) => {
      // Typed as if there were always one.
      if ((error as Error | null) !== null) throw error
      within((size += piece.length))
      pieces.push(piece)
      if (isLast) files.set(file.name, joined(pieces))
    }
    file.start()
  })
  reader.register(UnzipInflate)
  for (let at = 0; at < bytes.length; at += pieceSize)
    reader.push(bytes.subarray(at, at + pieceSize), at + pieceSize >= bytes.length)
  // No part may be taken for what an object comes from.
  if (files.size !== entries || files.has('__proto__')) throw new Unfit({ code: 'damagedDay' })
  return Object.fromEntries(files)
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const piece of pieces) {
    whole.set(piece, at)
    at += piece.length
  }
  return whole
}

const sizeOf = (files: Record<string, Uint8Array>) => Object.values(files).reduce((sum, { length }) => sum + length, 0)

/** What is packed already is not packed again. */
const zip = (files: Record<string, Uint8Array>): Uint8Array<ArrayBuffer> =>
  zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, bytes]) => [
        name,
        [bytes, { level: bytes[0] === 0x1f && bytes[1] === 0x8b ? 0 : 6 }] as const,
      ]),
    ) as Zippable,
  )

/** As JSON, or where it is none as the text that it is. */
function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return text
  }
}
