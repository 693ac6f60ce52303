import * as v from 'valibot'
import { fillChoices } from '../battery/fill-order'
import { catalogue, type Catalogue } from './catalogue'
import { controlSchema, kitItemSchema, mostOfDay, timetableSchema, weatherTableSchema } from './day-schema'
import {
  surfaces,
  surroundings,
  usualSurroundings,
  type Parameter,
  type Surface,
  type Surroundings,
} from './parameters'

/*
 * A key that is not known is left out, and one that is missing takes its default: neither is damage. Required is what there is no default for:
 * ids, places, and what kind of thing it is.
 */

/** Described by its place in the catalogue, such as `rider.mass`: its words are elsewhere. */
const bounded = ({ min, max }: Parameter, path: string) =>
  v.pipe(v.number(), v.minValue(min), v.maxValue(max), v.description(path))

const numbers = <Group extends keyof Catalogue>(group: Group) =>
  Object.fromEntries(
    Object.entries<Parameter>(catalogue[group]).map(([key, parameter]) => [
      key,
      v.optional(bounded(parameter, `${group}.${key}`), parameter.default),
    ]),
  ) as { [Key in keyof Catalogue[Group]]: v.OptionalSchema<ReturnType<typeof bounded>, number> }

const name = v.optional(v.pipe(v.string(), v.maxLength(80)), '')
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(40))
const distance = v.pipe(v.number(), v.minValue(0), v.maxValue(5e7))

export const packSchema = v.object({
  id,
  name,
  chemistry: v.picklist(['nmc', 'lfp']),
  ...numbers('pack'),
})
const orNull = <Schema extends v.GenericSchema>(schema: Schema) => v.optional(v.nullable(schema), null)

const steady = (key: 'outputCurrent' | 'inputCurrent') =>
  v.optional(v.nullable(bounded(catalogue.converter[key], `converter.${key}`)), catalogue.converter[key].default)

/** What was read on a meter while a charge was tried; null where it was not read. */
const meterReadingSchema = v.object({
  /** Since charging began, s. */
  time: bounded(catalogue.reading.time, 'reading.time'),
  /** Where the meter stood: between carried pack and converter, or between converter and the bike's pack. */
  side: v.picklist(['source', 'pack']),
  voltage: orNull(bounded(catalogue.reading.voltage, 'reading.voltage')),
  current: orNull(bounded(catalogue.reading.current, 'reading.current')),
  /** Of the bike's pack, as its display tells it. */
  charge: orNull(bounded(catalogue.reading.charge, 'reading.charge')),
})
/** A trial of charging at home. */
const trialSchema = v.object({
  /** Id of the bike's pack; null for the first. */
  pack: orNull(id),
  ...numbers('trial'),
  readings: v.optional(v.pipe(v.array(meterReadingSchema), v.maxLength(20)), []),
  /** What was stated before the readings were taken over; null where they are not. */
  stated: orNull(
    v.object({
      efficiency: bounded(catalogue.converter.efficiency, 'converter.efficiency'),
      packHealth: bounded(catalogue.pack.health, 'pack.health'),
      health: bounded(catalogue.carried.health, 'carried.health'),
    }),
  ),
})
/** A block of a carried pack before it is joined to others: its voltage at rest and its age; null where it was not measured. */
const blockSchema = v.object({
  voltage: orNull(bounded(catalogue.block.voltage, 'block.voltage')),
  age: orNull(bounded(catalogue.block.age, 'block.age')),
})

/** Whether a source comes along on a day that uses it nowhere; one that is used comes in any case. */
const along = v.optional(v.boolean())
/** A lead: conductor, length, and what its connectors may carry. */
const cableSchema = v.object(numbers('cable'))

export const mainsSchema = v.object({
  id,
  name,
  kind: v.literal('mains'),
  along,
  ...numbers('mains'),
  ...numbers('socket'),
})
export const carriedSchema = v.object({
  id,
  name,
  kind: v.literal('carried'),
  along,
  carried: v.object({ chemistry: v.picklist(['nmc', 'lfp']), ...numbers('carried') }),
  converter: v.object({
    kind: v.picklist(['step-down', 'step-up', 'step-up-down']),
    ...numbers('converter'),
    /** What it gives and draws for hours; null where only the peak is printed. */
    outputCurrent: steady('outputCurrent'),
    inputCurrent: steady('inputCurrent'),
    /** What it gives and draws for moments only; null where nothing is printed. */
    outputPeak: orNull(bounded(catalogue.converter.outputPeak, 'converter.outputPeak')),
    inputPeak: orNull(bounded(catalogue.converter.inputPeak, 'converter.inputPeak')),
  }),
  sourceCable: cableSchema,
  outputCable: cableSchema,
  /** The rider has measured plus and minus, and knows the bike pack's full voltage. */
  polarityMeasured: v.optional(v.boolean(), false),
  fullVoltageKnown: v.optional(v.boolean(), false),
  /** What the one who builds the lead has answered; absent where not. */
  chargeLimitKnown: v.optional(v.boolean()),
  backFeedTried: v.optional(v.boolean()),
  blocksAlike: v.optional(v.boolean()),
  seriesRated: v.optional(v.boolean()),
  /** String by string; as many as were measured. */
  blocks: v.optional(v.pipe(v.array(blockSchema), v.maxLength(400)), []),
  trial: orNull(trialSchema),
})
/** Another pack of the bike takes its place. */
export const swapSchema = v.object({ id, name, kind: v.literal('swap') })
export const sourceSchema = v.variant('kind', [mainsSchema, carriedSchema, swapSchema])

const fillFirst = v.optional(v.picklist(fillChoices), 'most')
const sourceId = v.optional(v.nullable(id), null)

export const stopSchema = v.object({
  id,
  name,
  /** Ridden distance from the start, m. */
  distance,
  /** Id of the charge source used here. */
  source: sourceId,
  kind: v.optional(v.picklist(['charge', 'rest', 'food', 'water', 'control']), 'rest'),
  /** What ends the stop: its duration; the charge reached; both side by side, so the longer; or one after the other. */
  goal: v.optional(v.picklist(['duration', 'charge', 'longer', 'sum']), 'duration'),
  fillFirst,
  ...numbers('stop'),
})

const ownOfStretch = <Key extends keyof Catalogue['stretch']>(key: Key) =>
  v.optional(v.nullable(bounded(catalogue.stretch[key], `stretch.${key}`)), null)

/** A part of the ride of which the rider states something of its own; null where it is as elsewhere. */
export const stretchSchema = v.object({
  id,
  /** May be empty. */
  name,
  /** Ridden distances from the start, m; the end lies beyond the start. */
  start: distance,
  end: distance,
  /** In place of the bike's surface factor. */
  surface: v.optional(v.nullable(v.picklist(Object.keys(surfaces) as [Surface, ...Surface[]])), null),
  shelter: ownOfStretch('shelter'),
  speedLimit: ownOfStretch('speedLimit'),
  assistRatio: ownOfStretch('assistRatio'),
})

const localTime = v.pipe(v.string(), v.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/))

/** Figures of rider and bike that a ride can tell. */
export const learntPaths = [
  'rider.power',
  'rider.climbFactor',
  'rider.fade',
  'rider.smallHalts',
  'bike.dragArea',
  'bike.rolling',
  'assist.ratio',
  'assist.climbRatio',
  'assist.lossFactor',
] as const
const learntPath = v.picklist(learntPaths)
const above0 = v.pipe(v.number(), v.minValue(1e-9), v.maxValue(1e9))

/**
 * What rides told of rider and bike. It holds of a figure as long as that stands at its middle; of assist, which is chosen anew for each day, as a share
 * of whatever is chosen.
 */
const learntSchema = v.object({
  /** The rides: what they are called, and the local date of the first, where one is known. */
  from: v.pipe(
    v.array(v.object({ name, date: v.optional(v.nullable(v.pipe(v.string(), v.isoDate())), null) })),
    v.maxLength(20),
  ),
  figures: v.pipe(
    v.array(
      v.object({
        path: learntPath,
        /** As the plan holds the figure. One case in ten lies below the low end, one above the high one. */
        middle: above0,
        low: above0,
        high: above0,
        /** As the plan had it before anything was learnt, from where rides are looked at again. */
        stated: v.pipe(v.number(), v.minValue(0), v.maxValue(1e9)),
        /** How much of what was believed before the rides narrowed. */
        verdict: v.picklist(['learnt', 'hardly', 'not']),
      }),
    ),
    v.maxLength(learntPaths.length),
  ),
  /** Of the logarithms of two figures; none where it is not named. */
  correlations: v.optional(
    v.pipe(
      v.array(v.object({ a: learntPath, b: learntPath, value: v.pipe(v.number(), v.minValue(-1), v.maxValue(1)) })),
      v.maxLength(learntPaths.length ** 2),
    ),
    [],
  ),
})

/** Figures that a rider can know better or worse than is usual. */
export const statablePaths = [
  'rider.power',
  'rider.fade',
  'rider.smallHalts',
  'rider.mass',
  'bike.mass',
  'bike.luggage',
  'bike.dragArea',
  'bike.rolling',
  'assist.lossFactor',
  'pack.health',
  'stop.duration',
] as const

/** How well the rider knows a figure: measured, or a guess; as is usual where it is not named. */
const beliefSchema = v.object({ path: v.picklist(statablePaths), known: v.picklist(['measured', 'guess']) })

/** What was read on the way, on arrival at a place. */
const readingSchema = v.object({
  /** Ridden, m. */
  distance,
  /** Local date and time, of the plan's zone. */
  at: localTime,
  /** Share of all usable energy that was left. */
  charge: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
})

const believedRatio = {
  ratio: bounded(catalogue.assist.ratio, 'assist.ratio'),
  /** In 8 of 10 cases the true ratio lies between this one divided by it and this one times it. */
  span: v.pipe(v.number(), v.minValue(1), v.maxValue(10)),
}

/** A step of the bike's display, by its place in the list: the ratio behind it, which nobody is told, as far as it is known. */
const stepSchema = v.object({
  /** What the rider calls it; may be empty. */
  name,
  ...believedRatio,
  /** As it was before a ride told more; null where none did. */
  before: v.optional(v.nullable(v.object(believedRatio)), null),
  /** What a test on a level road gave: length of one way, m, speed there and back, m/s, and charge used on both, of the first pack. */
  test: v.optional(
    v.nullable(
      v.object({
        length: v.pipe(v.number(), v.minValue(200), v.maxValue(20_000)),
        there: v.pipe(v.number(), v.minValue(1), v.maxValue(20)),
        back: v.pipe(v.number(), v.minValue(1), v.maxValue(20)),
        used: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
      }),
    ),
    null,
  ),
})

/** Forecasts of the weather reach no farther, days. */
export const mostAhead = 14

export const planVersion = 4

/** How many a plan can hold. */
export const most = {
  packs: 12,
  sources: 20,
  stops: 100,
  crossings: 1000,
  stretches: 200,
  readings: 50,
  steps: 12,
} as const

export const planSchema = v.object({
  format: v.literal('wattfare-plan'),
  version: v.literal(planVersion),
  /** Local date and time of the start. */
  start: localTime,
  /** Name in the tz database; null for that of the route's start. */
  zone: v.optional(v.nullable(v.pipe(v.string(), v.maxLength(60))), null),
  rider: v.optional(v.object(numbers('rider')), {}),
  needs: v.optional(v.object(numbers('needs')), {}),
  bike: v.optional(v.object(numbers('bike')), {}),
  pedalling: v.optional(
    v.object({
      ...numbers('pedalling'),
      /** At the cranks: a figure that the rider was given; null where there is none. */
      mostTorque: orNull(bounded(catalogue.knee.mostTorque, 'knee.mostTorque')),
    }),
    {},
  ),
  assist: v.optional(
    v.object({
      ...numbers('assist'),
      place: v.optional(v.picklist(['crank', 'hub']), 'crank'),
      lightsOn: v.optional(v.picklist(['always', 'dark']), 'always'),
    }),
    {},
  ),
  weather: v.optional(
    v.object({
      ...numbers('weather'),
      surroundings: v.optional(
        v.picklist(Object.keys(surroundings) as [Surroundings, ...Surroundings[]]),
        usualSurroundings,
      ),
      /** Weather by the hour at up to three places; empty where one weather holds all day. */
      table: v.optional(weatherTableSchema, []),
    }),
    {},
  ),
  wet: v.optional(v.object(numbers('wet')), {}),
  battery: v.object({
    ...numbers('battery'),
    packs: v.pipe(v.array(packSchema), v.minLength(1), v.maxLength(most.packs)),
  }),
  sources: v.optional(v.pipe(v.array(sourceSchema), v.maxLength(most.sources)), []),
  stops: v.optional(v.pipe(v.array(stopSchema), v.maxLength(most.stops)), []),
  /** By the order of the route's crossings; where one is missing its time is assumed. */
  crossings: v.optional(
    v.pipe(v.array(v.object({ timetable: timetableSchema, source: sourceId, fillFirst })), v.maxLength(most.crossings)),
    [],
  ),
  /** In any order; they may touch, not overlap. */
  stretches: v.optional(v.pipe(v.array(stretchSchema), v.maxLength(most.stretches)), []),
  controls: v.optional(v.pipe(v.array(controlSchema), v.maxLength(mostOfDay.controls)), []),
  /** Time to beat from start to finish, s. */
  goal: v.optional(v.nullable(v.pipe(v.number(), v.minValue(60), v.maxValue(30 * 86_400))), null),
  /** The same of riding time alone, halts and crossings left out, s. */
  ridingGoal: v.optional(v.nullable(v.pipe(v.number(), v.minValue(60), v.maxValue(30 * 86_400))), null),
  /** From the forecast that the weather was taken from to the start, days. */
  forecastAhead: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(mostAhead)), 1),
  kit: v.optional(v.pipe(v.array(kitItemSchema), v.maxLength(mostOfDay.kit)), []),
  /** Of the display, weakest first; empty where ratios alone are spoken of. */
  steps: v.optional(v.pipe(v.array(stepSchema), v.maxLength(most.steps)), []),
  learnt: v.optional(v.nullable(learntSchema), null),
  beliefs: v.optional(v.pipe(v.array(beliefSchema), v.maxLength(statablePaths.length)), []),
  /** In order of the route. */
  readings: v.optional(v.pipe(v.array(readingSchema), v.maxLength(most.readings)), []),
  legs: v.optional(v.object({ by: v.optional(v.picklist(['length', 'terrain']), 'length'), ...numbers('legs') }), {}),
})

export type Plan = v.InferOutput<typeof planSchema>
export type PlanBelief = v.InferOutput<typeof beliefSchema>
export type PlanReading = v.InferOutput<typeof readingSchema>
export type Learnt = NonNullable<Plan['learnt']>
export type LearntFigure = Learnt['figures'][number]
export type LearntPath = LearntFigure['path']
export type PlanTrial = v.InferOutput<typeof trialSchema>
export type PlanMeterReading = v.InferOutput<typeof meterReadingSchema>
export type PlanBlock = v.InferOutput<typeof blockSchema>
export type PlanStep = v.InferOutput<typeof stepSchema>
export type PlanPack = v.InferOutput<typeof packSchema>
export type PlanSource = v.InferOutput<typeof sourceSchema>
export type MainsSource = v.InferOutput<typeof mainsSchema>
export type CarriedSource = v.InferOutput<typeof carriedSchema>
export type PlanCrossing = Plan['crossings'][number]
export type PlanStretch = v.InferOutput<typeof stretchSchema>
export type PlanStop = v.InferOutput<typeof stopSchema>
