import * as v from 'valibot'
import { passageParameters } from './day-parameters'

/** The parts of the plan that make the day. SI; a local clock time is `HH:mm`, a local date and time `YYYY-MM-DDTHH:mm`. */

const between = (min: number, max: number) => v.pipe(v.number(), v.minValue(min), v.maxValue(max))
const name = v.optional(v.pipe(v.string(), v.maxLength(80)), '')
/** What may be unknown, and is where it is missing. */
const orNull = <Schema extends v.GenericSchema>(schema: Schema) => v.optional(v.nullable(schema), null)
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(40))
const distance = between(0, 5e7)
const duration = between(0, 48 * 3600)
const clock = v.pipe(v.string(), v.regex(/^([01]\d|2[0-3]):[0-5]\d$/))
const local = v.pipe(v.string(), v.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/))

/** All days of the week by ISO 8601: 1 is Monday, 7 Sunday. */
export const everyDay: readonly number[] = [1, 2, 3, 4, 5, 6, 7]
/** On which it sails. */
const days = v.optional(
  v.pipe(v.array(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(7))), v.minLength(1), v.maxLength(7)),
  [...everyDay],
)
/** Time to be there before it leaves, and time from leaving to riding on, s. */
const passage = {
  days,
  boardBefore: v.optional(duration, passageParameters.boardBefore.default),
  length: v.optional(duration, passageParameters.length.default),
}

/** How many the day can hold. */
export const mostOfDay = { sailings: 200, controls: 100, kit: 300, weatherPlaces: 3, weatherHours: 400 } as const

/** That one thing of the kit can draw, W. */
export const mostDraw = 200

export const timetableSchema = v.variant('kind', [
  /** From arriving to riding on, waiting included, s. */
  v.object({ kind: v.literal('duration'), duration }),
  v.object({
    kind: v.literal('list'),
    times: v.pipe(v.array(clock), v.minLength(1), v.maxLength(mostOfDay.sailings)),
    ...passage,
  }),
  /** Every so many seconds from a time to another; the second is on the next day where it is before the first. */
  v.object({
    kind: v.literal('every'),
    interval: v.optional(between(60, 86_400), passageParameters.interval.default),
    from: clock,
    until: clock,
    ...passage,
  }),
])

const limit = orNull(
  v.variant('by', [
    /** A clock time, so many days after the date of the start. */
    v.object({ by: v.literal('clock'), day: v.pipe(between(0, 30), v.integer()), time: clock }),
    /** As if ridden from the start at this speed, m/s, halts included. */
    v.object({ by: v.literal('speed'), speed: between(0.5, 30) }),
  ]),
)

export const controlSchema = v.object({ id, name, distance, opens: limit, closes: limit })

/** What a row of weather does not know is null: then the plan's one value, or the hours around it, stand in. */
export const weatherHourSchema = v.object({
  time: local,
  temperatureCelsius: orNull(between(-60, 60)),
  /** At 10 m height, m/s, and degrees it comes from. */
  windSpeed: orNull(between(0, 70)),
  windFromDegrees: orNull(between(0, 360)),
  /** mm/h. */
  rainPerHour: orNull(between(0, 300)),
  /** At sea level, Pa. */
  pressure: orNull(between(87_000, 109_000)),
})

export const weatherPlaceSchema = v.object({
  name,
  distance,
  hours: v.pipe(v.array(weatherHourSchema), v.minLength(1), v.maxLength(mostOfDay.weatherHours)),
})

/** Empty where the plan's one weather holds all day; else its places by distance, and in each its hours by time. */
export const weatherTableSchema = v.pipe(v.array(weatherPlaceSchema), v.maxLength(mostOfDay.weatherPlaces))

/** What of the day's food and water a thing of the kit is. */
export const provisions = ['bars', 'gels', 'bottles'] as const

export const kitItemSchema = v.object({
  id,
  name,
  /** Of one, kg. */
  mass: between(0, 100),
  count: v.optional(v.pipe(between(0, 1000), v.integer()), 1),
  place: v.optional(v.picklist(['bike', 'rider', 'spare']), 'bike'),
  /** 'unused' comes along, but came back unused from the last ride. */
  mark: v.optional(v.picklist(['comes', 'stays', 'unused']), 'comes'),
  /** How fast it is used up: kg for each second of the day or metre of the ride; null for what lasts. */
  use: orNull(v.object({ by: v.picklist(['time', 'distance']), rate: between(0, 1) })),
  /** Power that each takes, W, such as a lamp or heated gloves: from the packs of the bike or from cells of its own; absent where it takes none. */
  draws: v.optional(
    v.object({
      power: between(0, mostDraw),
      from: v.picklist(['packs', 'own']),
      /** 'dark' is in twilight and dark alone. */
      when: v.picklist(['always', 'dark']),
    }),
  ),
  /** What of the day's needs it covers; absent where it covers none. */
  covers: v.optional(v.picklist(provisions)),
})

export type Timetable = v.InferOutput<typeof timetableSchema>
export type Control = v.InferOutput<typeof controlSchema>
export type WeatherHour = v.InferOutput<typeof weatherHourSchema>
export type WeatherPlace = v.InferOutput<typeof weatherPlaceSchema>
export type KitItem = v.InferOutput<typeof kitItemSchema>
