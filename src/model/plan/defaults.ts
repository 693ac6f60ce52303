import { cableParameters, carriedParameters, converterParameters, socketParameters } from './bench-parameters'
import { needParameters, wetParameters } from './day-parameters'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  legParameters,
  mainsParameters,
  packParameters,
  pedallingParameters,
  riderParameters,
  stopParameters,
  usualSurroundings,
  weatherParameters,
  type Parameter,
} from './parameters'
import type { Names } from './names'
import { planVersion, type CarriedSource, type MainsSource, type Plan, type PlanPack, type PlanStop } from './schema'

const defaultsOf = <T extends Record<string, Parameter>>(group: T) =>
  Object.fromEntries(Object.entries(group).map(([key, parameter]) => [key, parameter.default])) as {
    [K in keyof T]: number
  }

/**
 * A pack as the catalogue's defaults describe it: 10 cells of the NMC type in series, 500 Wh.
 *
 * @param id unique within the plan
 * @param name as the rider reads it
 */
export const defaultPack = (id: string, name: string): PlanPack => ({
  id,
  name,
  chemistry: 'nmc',
  ...defaultsOf(packParameters),
})

/** A 42 V, 4 A mains charger that stands at the stop, its socket free all the time. */
export const defaultMains = (id: string, name: string): MainsSource => ({
  id,
  name,
  kind: 'mains',
  ...defaultsOf(mainsParameters),
  ...defaultsOf(socketParameters),
})

/** Three LFP blocks in series through a converter that steps both ways, with nothing confirmed yet. */
export const defaultCarried = (id: string, name: string): CarriedSource => ({
  id,
  name,
  kind: 'carried',
  carried: { chemistry: 'lfp', ...defaultsOf(carriedParameters) },
  converter: { kind: 'step-up-down', ...defaultsOf(converterParameters), outputPeak: null, inputPeak: null },
  sourceCable: defaultsOf(cableParameters),
  outputCable: defaultsOf(cableParameters),
  polarityMeasured: false,
  fullVoltageKnown: false,
  blocks: [],
  trial: null,
})

/**
 * A stop of 45 minutes.
 *
 * @param distance ridden distance from the start, m
 * @param source id of the charge source used, or null for a rest
 */
export const defaultStop = (id: string, name: string, distance: number, source: string | null): PlanStop => ({
  id,
  name,
  distance,
  source,
  kind: source === null ? 'rest' : 'charge',
  goal: 'duration',
  fillFirst: 'most',
  ...defaultsOf(stopParameters),
})

/**
 * The plan to begin with: a loaded upright touring e-bike of 45 kg with two packs of 500 Wh, and no stop.
 *
 * @param names packs and charger have none where absent
 */
export function defaultPlan(names?: Pick<Names, 'pack' | 'firstCharger'>): Plan {
  const pack = (number: number) => defaultPack(`pack-${number}`, names?.pack(number) ?? '')
  return {
    format: 'wattfare-plan',
    version: planVersion,
    start: '2027-06-19T06:00',
    zone: null,
    rider: defaultsOf(riderParameters),
    needs: defaultsOf(needParameters),
    bike: defaultsOf(bikeParameters),
    pedalling: { ...defaultsOf(pedallingParameters), mostTorque: null },
    assist: { ...defaultsOf(assistParameters), place: 'crank', lightsOn: 'always' },
    weather: { ...defaultsOf(weatherParameters), surroundings: usualSurroundings, table: [] },
    wet: defaultsOf(wetParameters),
    battery: {
      ...defaultsOf(batteryParameters),
      packs: [pack(1), pack(2)],
    },
    sources: [defaultMains('source-1', names?.firstCharger(mainsParameters.current.default) ?? '')],
    stops: [],
    crossings: [],
    stretches: [],
    controls: [],
    goal: null,
    ridingGoal: null,
    forecastAhead: 1,
    kit: [],
    steps: [],
    learnt: null,
    readings: [],
    beliefs: [],
    legs: { by: 'length', ...defaultsOf(legParameters) },
  }
}
