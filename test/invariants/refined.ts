import { defaultPlan } from '../../src/model/plan/defaults'
import type { Route, Stations } from '../../src/model/route/route'

/** Columns that hold for the step from a station to the next, not at the station. */
const ofTheStep = new Set<keyof Stations>(['gradient', 'heading'])

const { lateralAcceleration, topSpeed } = defaultPlan().bike

/** The curvature that gives the mean of two limits of v², as the ride has them in the middle of a step, for the default bike. */
function between(one: number, other: number): number {
  const limit = (curvature: number) => Math.min(topSpeed * topSpeed, lateralAcceleration / curvature)
  return lateralAcceleration / (0.5 * (limit(one) + limit(other)))
}

/** The same road with a station in the middle of every step: the same profile of straight lines, the same limits, ridden in steps of half the length. */
export function refined(route: Route): Route {
  const { stations } = route
  const names = Object.keys(stations) as (keyof Stations)[]
  const columns = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<keyof Stations, number[]>
  const moved: number[] = []
  for (let i = 0; i < stations.distance.length; i++) {
    moved.push(columns.distance.length)
    const isStep = stations.distance[i + 1]! > stations.distance[i]!
    for (const name of names) {
      const here = stations[name][i]!
      columns[name].push(here)
      const next = stations[name][i + 1]!
      if (isStep)
        columns[name].push(
          ofTheStep.has(name) ? here : name === 'curvature' ? between(here, next) : 0.5 * (here + next),
        )
    }
  }
  return {
    ...route,
    stations: Object.fromEntries(names.map((name) => [name, Float64Array.from(columns[name])])) as unknown as Stations,
    sections: route.sections.map((section) => ({
      ...section,
      first: moved[section.first]!,
      last: moved[section.last]!,
    })),
  }
}
