import type { Route, Stations } from '../../src/model/route/route'

/** Columns that hold for the step from a station to the next, not at the station. */
const ofTheStep = new Set<keyof Stations>(['gradient', 'heading'])

/** The same route with a station in the middle of every step: the same profile of straight lines, ridden in steps of half the length. */
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
      if (isStep) columns[name].push(ofTheStep.has(name) ? here : 0.5 * (here + stations[name][i + 1]!))
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
