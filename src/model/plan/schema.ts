import * as v from 'valibot'
import { catalogue, type Catalogue } from './catalogue'
import { controlSchema, kitItemSchema, mostOfDay, timetableSchema, weatherTableSchema } from './day-schema'
import { surfaces, surroundings, type Parameter, type Surface, type Surroundings } from './parameters'

/** Described by its place in the catalogue, such as `rider.mass`: its words are elsewhere. */
const bounded = ({ min, max }: Parameter, path: string) =>
  v.pipe(v.number(), v.minValue(min), v.maxValue(max), v.description(path))
type Bounded = ReturnType<typeof bounded>

const numbers = <Group extends keyof Catalogue>(group: Group) =>
  Object.fromEntries(
    Object.entries<Parameter>(catalogue[group]).map(([key, parameter]) => [key, bounded(parameter, `${group}.${key}`)]),
  ) as { [Key in keyof Catalogue[Group]]: Bounded }

const shortText = v.pipe(v.string(), v.maxLength(80))
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(40))
const distance = v.pipe(v.number(), v.minValue(0), v.maxValue(5e7))

export const packSchema = v.strictObject({
  id,
  name: shortText,
  chemistry: v.picklist(['nmc', 'lfp']),
  ...numbers('pack'),
})
/** A lead: conductor, length, and what its connectors may carry. */
const cableSchema = v.strictObject(numbers('cable'))

export const mainsSchema = v.strictObject({
  id,
  name: shortText,
  kind: v.literal('mains'),
  ...numbers('mains'),
  ...numbers('socket'),
})
export const carriedSchema = v.strictObject({
  id,
  name: shortText,
  kind: v.literal('carried'),
  carried: v.strictObject({ chemistry: v.picklist(['nmc', 'lfp']), ...numbers('carried') }),
  converter: v.strictObject({
    kind: v.picklist(['step-down', 'step-up', 'step-up-down']),
    ...numbers('converter'),
  }),
  sourceCable: cableSchema,
  outputCable: cableSchema,
  /** The rider has measured plus and minus, and knows the bike pack's full voltage. */
  polarityMeasured: v.boolean(),
  fullVoltageKnown: v.boolean(),
})
/** Another pack of the bike takes its place. */
export const swapSchema = v.strictObject({ id, name: shortText, kind: v.literal('swap') })
export const sourceSchema = v.variant('kind', [mainsSchema, carriedSchema, swapSchema])

/** Which pack a charge fills first: as brings most energy in the time, the one in use, or the emptiest. */
const fillFirst = v.picklist(['most', 'in use', 'emptiest'])

export const stopSchema = v.strictObject({
  id,
  name: shortText,
  /** Ridden distance from the start, m. */
  distance,
  /** Id of the charge source used here. */
  source: v.nullable(id),
  kind: v.picklist(['charge', 'rest', 'food', 'water', 'control']),
  /** What ends the stop: its duration; the charge reached; both side by side, so the longer; or one after the other. */
  goal: v.picklist(['duration', 'charge', 'longer', 'sum']),
  fillFirst,
  ...numbers('stop'),
})

const ownOfStretch = numbers('stretch')

/** A part of the ride of which the rider states something of its own; null where it is as elsewhere. */
export const stretchSchema = v.strictObject({
  id,
  /** May be empty. */
  name: shortText,
  /** Ridden distances from the start, m; the end lies beyond the start. */
  start: distance,
  end: distance,
  /** In place of the bike's surface factor. */
  surface: v.nullable(v.picklist(Object.keys(surfaces) as [Surface, ...Surface[]])),
  shelter: v.nullable(ownOfStretch.shelter),
  speedLimit: v.nullable(ownOfStretch.speedLimit),
  assistRatio: v.nullable(ownOfStretch.assistRatio),
})

export const planVersion = 2

/** How many a plan can hold. */
export const most = { packs: 12, sources: 20, stops: 100, stretches: 200 } as const

export const planSchema = v.strictObject({
  format: v.literal('wattfare-plan'),
  version: v.literal(planVersion),
  /** Local date and time of the start. */
  start: v.pipe(v.string(), v.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/)),
  /** Name in the tz database; null for that of the route's start. */
  zone: v.nullable(v.pipe(v.string(), v.maxLength(60))),
  rider: v.strictObject(numbers('rider')),
  needs: v.strictObject(numbers('needs')),
  bike: v.strictObject(numbers('bike')),
  assist: v.strictObject({
    ...numbers('assist'),
    place: v.picklist(['crank', 'hub']),
    lightsOn: v.picklist(['always', 'dark']),
  }),
  weather: v.strictObject({
    ...numbers('weather'),
    surroundings: v.picklist(Object.keys(surroundings) as [Surroundings, ...Surroundings[]]),
    /** Weather by the hour at up to three places; empty where one weather holds all day. */
    table: weatherTableSchema,
  }),
  wet: v.strictObject(numbers('wet')),
  battery: v.strictObject({
    ...numbers('battery'),
    packs: v.pipe(v.array(packSchema), v.minLength(1), v.maxLength(most.packs)),
  }),
  sources: v.pipe(v.array(sourceSchema), v.maxLength(most.sources)),
  stops: v.pipe(v.array(stopSchema), v.maxLength(most.stops)),
  /** By the order of the route's crossings; where one is missing its time is assumed. */
  crossings: v.pipe(
    v.array(v.strictObject({ timetable: timetableSchema, source: v.nullable(id), fillFirst })),
    v.maxLength(1000),
  ),
  /** In any order; they may touch, not overlap. */
  stretches: v.pipe(v.array(stretchSchema), v.maxLength(most.stretches)),
  controls: v.pipe(v.array(controlSchema), v.maxLength(mostOfDay.controls)),
  /** Time to beat from start to finish, s. */
  goal: v.nullable(v.pipe(v.number(), v.minValue(60), v.maxValue(30 * 86_400))),
  kit: v.pipe(v.array(kitItemSchema), v.maxLength(mostOfDay.kit)),
  legs: v.strictObject({
    by: v.picklist(['length', 'terrain']),
    ...numbers('legs'),
  }),
})

export type Plan = v.InferOutput<typeof planSchema>
export type PlanPack = v.InferOutput<typeof packSchema>
export type PlanSource = v.InferOutput<typeof sourceSchema>
export type MainsSource = v.InferOutput<typeof mainsSchema>
export type CarriedSource = v.InferOutput<typeof carriedSchema>
export type PlanCrossing = Plan['crossings'][number]
export type FillFirst = v.InferOutput<typeof fillFirst>
export type PlanStretch = v.InferOutput<typeof stretchSchema>
export type PlanStop = v.InferOutput<typeof stopSchema>
