import * as v from 'valibot'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  crossingParameters,
  legParameters,
  mainsParameters,
  packParameters,
  quantityUnits,
  riderParameters,
  stopParameters,
  surroundings,
  weatherParameters,
  type Parameter,
  type Surroundings,
} from './parameters'

const bounded = ({ min, max, label, meaning, quantity }: Parameter) =>
  v.pipe(
    v.number(),
    v.minValue(min),
    v.maxValue(max),
    v.description(`${label}, ${quantityUnits[quantity]}. ${meaning}`),
  )
type Bounded = ReturnType<typeof bounded>

const numbers = <T extends Record<string, Parameter>>(group: T) =>
  Object.fromEntries(Object.entries(group).map(([key, parameter]) => [key, bounded(parameter)])) as {
    [K in keyof T]: Bounded
  }

const shortText = v.pipe(v.string(), v.maxLength(80))
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(40))
const distance = v.pipe(v.number(), v.minValue(0), v.maxValue(5e7))

export const packSchema = v.strictObject({
  id,
  name: shortText,
  chemistry: v.picklist(['nmc', 'lfp']),
  ...numbers(packParameters),
})
export const sourceSchema = v.strictObject({
  id,
  name: shortText,
  kind: v.literal('mains'),
  ...numbers(mainsParameters),
})
export const stopSchema = v.strictObject({
  id,
  name: shortText,
  /** Ridden distance from the start, m. */
  distance,
  /** Id of the charge source used here. */
  source: v.nullable(id),
  /** What ends the stop: its duration, or the charge reached. */
  goal: v.picklist(['duration', 'charge']),
  ...numbers(stopParameters),
})

export const planVersion = 1

/** How many a plan can hold. */
export const most = { packs: 12, sources: 20, stops: 100 } as const

export const planSchema = v.strictObject({
  format: v.literal('wattfare-plan'),
  version: v.literal(planVersion),
  /** Local date and time of the start, no zone. */
  start: v.pipe(v.string(), v.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/)),
  rider: v.strictObject(numbers(riderParameters)),
  bike: v.strictObject(numbers(bikeParameters)),
  assist: v.strictObject({ ...numbers(assistParameters), place: v.picklist(['crank', 'hub']) }),
  weather: v.strictObject({
    ...numbers(weatherParameters),
    surroundings: v.picklist(Object.keys(surroundings) as [Surroundings, ...Surroundings[]]),
  }),
  battery: v.strictObject({
    ...numbers(batteryParameters),
    packs: v.pipe(v.array(packSchema), v.minLength(1), v.maxLength(most.packs)),
  }),
  sources: v.pipe(v.array(sourceSchema), v.maxLength(most.sources)),
  stops: v.pipe(v.array(stopSchema), v.maxLength(most.stops)),
  /** Time each crossing takes, waiting included, s; by the order of the route's gaps. */
  crossings: v.pipe(v.array(bounded(crossingParameters.duration)), v.maxLength(1000)),
  legs: v.strictObject({
    by: v.picklist(['length', 'terrain']),
    ...numbers(legParameters),
  }),
})

export type Plan = v.InferOutput<typeof planSchema>
export type PlanPack = v.InferOutput<typeof packSchema>
export type PlanSource = v.InferOutput<typeof sourceSchema>
export type PlanStop = v.InferOutput<typeof stopSchema>
