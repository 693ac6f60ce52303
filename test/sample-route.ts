import { readFileSync } from 'node:fs'
import { readRoute } from '../src/model/route/read'
import type { Route } from '../src/model/route/route'

/** One of the sample routes, read as the page reads it. @param name of its file, without `.gpx` */
export async function sampleRoute(name: string): Promise<Route> {
  const file = new Uint8Array(readFileSync(new URL(`../sample-routes/${name}.gpx`, import.meta.url)))
  const reading = await readRoute(file, name)
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading.route
}
