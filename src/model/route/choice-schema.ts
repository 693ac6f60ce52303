import * as v from 'valibot'
import type { RouteChoice } from './reading'

const number = v.pipe(v.number(), v.integer(), v.minValue(0))
const metres = v.pipe(v.number(), v.minValue(-1e9), v.maxValue(1e9))
/** Of bytes: their SHA-256, or random digits where the browser has none. */
const key = v.pipe(v.string(), v.regex(/^[\da-f]{16,64}$/))
const text = v.pipe(v.string(), v.maxLength(500))

/** What is chosen about a route file, as it stands in what is kept and in the file of a day. */
export const choiceSchema: v.GenericSchema<unknown, RouteChoice> = v.object({
  line: v.union([v.picklist(['proposed', 'joined']), number, v.pipe(v.array(number), v.minLength(1))]),
  riddenGaps: v.array(v.number()),
  marked: v.exactOptional(v.array(v.object({ from: metres, to: metres }))),
  ground: v.exactOptional(v.object({ key, from: text, attribution: text })),
})
