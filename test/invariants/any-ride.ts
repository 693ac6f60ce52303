import fc from 'fast-check'
import { defaultCarried, defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  packParameters,
  riderParameters,
  surroundings,
  weatherParameters,
  type Parameter,
  type Surroundings,
} from '../../src/model/plan/parameters'
import type { Plan } from '../../src/model/plan/schema'
import type { Course } from '../routes'

/** Every number of a group of the catalogue, anywhere within its bounds. */
const anyOf = <T extends Record<string, Parameter>>(group: T): fc.Arbitrary<{ [K in keyof T]: number }> =>
  fc.record<{ [K in keyof T]: number }>(
    Object.fromEntries(
      Object.entries(group).map(([key, { min, max, quantity }]) => [
        key,
        quantity === 'count' ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true }),
      ]),
    ) as { [K in keyof T]: fc.Arbitrary<number> },
  )

const anyPack = fc.tuple(anyOf(packParameters), fc.constantFrom('nmc' as const, 'lfp' as const))
const anyStop = fc.tuple(
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.boolean(),
  fc.constantFrom('duration' as const, 'charge' as const),
  fc.double({ min: 0, max: 7200, noNaN: true }),
  fc.double({ min: 0, max: 1, noNaN: true }),
)

export interface AnyRide {
  course: Course
  plan: Plan
}

/** A front that passes in the first half hour: the wind turns, rain sets in. */
const storm: Plan['weather']['table'][number] = {
  name: '',
  distance: 0,
  hours: [
    ['06:00', 12, 3, 180, 0],
    ['06:30', 7, 12, 300, 4],
  ].map(([time, temperatureCelsius, windSpeed, windFromDegrees, rainPerHour]) => ({
    time: `2027-06-19T${time}`,
    temperatureCelsius: Number(temperatureCelsius),
    windSpeed: Number(windSpeed),
    windFromDegrees: Number(windFromDegrees),
    rainPerHour: Number(rainPerHour),
    pressure: null,
  })),
}

/** A ride of any plan within the catalogue's bounds on a short course of formulas. */
export const anyRide: fc.Arbitrary<AnyRide> = fc
  .record({
    length: fc.double({ min: 500, max: 6000, noNaN: true }),
    spacing: fc.double({ min: 3, max: 40, noNaN: true }),
    hill: fc.double({ min: -60, max: 60, noNaN: true }),
    hillLength: fc.double({ min: 1000, max: 5000, noNaN: true }),
    ripple: fc.double({ min: 0, max: 4, noNaN: true }),
    bend: fc.double({ min: 0, max: 0.15, noNaN: true }),
    turns: fc.double({ min: -3, max: 3, noNaN: true }),
    crossing: fc.option(fc.double({ min: 0.2, max: 0.8, noNaN: true }), { nil: undefined }),
    rider: anyOf(riderParameters),
    bike: anyOf(bikeParameters),
    assist: anyOf(assistParameters),
    weather: anyOf(weatherParameters),
    battery: anyOf(batteryParameters),
    around: fc.constantFrom(...(Object.keys(surroundings) as Surroundings[])),
    place: fc.constantFrom('crank' as const, 'hub' as const),
    lightsOn: fc.constantFrom('always' as const, 'dark' as const),
    packs: fc.array(anyPack, { minLength: 1, maxLength: 4 }),
    stops: fc.array(anyStop, { maxLength: 4 }),
    source: fc.constantFrom('source-1', 'source-2', 'source-3'),
    fillFirst: fc.constantFrom('most' as const, 'in use' as const, 'emptiest' as const),
    storm: fc.boolean(),
    stretch: fc.option(
      fc.record({
        start: fc.double({ min: 0, max: 0.4, noNaN: true }),
        end: fc.double({ min: 0.5, max: 1, noNaN: true }),
        surface: fc.constantFrom(null, 'rough asphalt' as const, 'gravel' as const, 'cobbles' as const),
        shelter: fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
        speedLimit: fc.option(fc.double({ min: 3, max: 15, noNaN: true })),
        assistRatio: fc.option(fc.double({ min: 0, max: 4, noNaN: true })),
      }),
    ),
  })
  .map((r) => ({
    course: {
      length: r.length,
      spacing: r.spacing,
      elevation: (d) =>
        200 + r.hill * Math.sin((2 * Math.PI * d) / r.hillLength) + r.ripple * Math.sin((2 * Math.PI * d) / 170),
      curvature: (d) => r.bend * Math.max(0, Math.sin((2 * Math.PI * d) / 300)) ** 4,
      heading: (d) => (2 * Math.PI * r.turns * d) / r.length,
      crossings: r.crossing === undefined ? [] : [r.crossing * r.length],
    },
    plan: {
      ...defaultPlan(),
      rider: r.rider,
      bike: r.bike,
      assist: { ...r.assist, place: r.place, lightsOn: r.lightsOn },
      weather: { ...r.weather, surroundings: r.around, table: r.storm ? [storm] : [] },
      sources: [
        ...defaultPlan().sources,
        defaultCarried('source-2', 'Carried'),
        { id: 'source-3', name: 'Swap', kind: 'swap' as const },
      ],
      battery: {
        ...r.battery,
        packs: r.packs.map(([numbers, chemistry], i) => ({
          ...defaultPack(`pack-${i}`, `Pack ${i}`),
          ...numbers,
          chemistry,
        })),
      },
      stretches:
        r.stretch === null
          ? []
          : [
              {
                ...r.stretch,
                id: 'stretch-1',
                name: '',
                start: r.stretch.start * r.length,
                end: r.stretch.end * r.length,
              },
            ],
      stops: r.stops.map(([share, charges, goal, duration, chargeTo], i) => ({
        ...defaultStop(`stop-${i}`, `Stop ${i}`, share * r.length, charges ? r.source : null),
        goal,
        fillFirst: r.fillFirst,
        duration,
        chargeTo,
      })),
    },
  }))
