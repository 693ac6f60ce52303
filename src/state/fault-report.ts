import { version } from '../../package.json'
import type { Forecast } from './forecaster'

/** As many lines of where it happened as tell anything. */
const linesOfStack = 12

/**
 * What tells a contributor of a fault of the model: version, what was thrown and where, size of the route and the plan. Nothing says where or who:
 * no coordinates, no names, no time zone, no address of the page.
 */
export function faultReport({ error, route, plan }: NonNullable<Forecast['fault']>): string {
  const { name, message, stack = '' } = error instanceof Error ? error : new Error(String(error))
  const report = {
    program: 'wattfare',
    version,
    thrown: `${name}: ${message}`,
    at: stack
      .split('\n')
      .filter((line) => /:\d+:\d+/.test(line))
      .slice(0, linesOfStack)
      .map((line) => line.replace(/\w+:\/\/\/?\S*\/|\/\S*\//g, '').trim()),
    route: {
      length: Math.round(route.length),
      stations: route.stations.distance.length,
      crossings: route.crossings.length,
      waypoints: route.waypoints.length,
    },
    plan,
  }
  const untold = ['name', 'zone']
  return JSON.stringify(report, (key, value: unknown) => (untold.includes(key) ? undefined : value), 2) + '\n'
}
