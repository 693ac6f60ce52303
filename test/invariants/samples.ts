import { readFileSync } from 'node:fs'
import { readRoute } from '../../src/model/route/read'
import { WHOLE_FILE } from '../../src/model/route/reading'
import type { Route } from '../../src/model/route/route'

const folder = new URL('../../sample-routes/', import.meta.url)

export const sampleNames = ['into-town-18km', 'two-passes-62km', 'two-islands-165km'] as const
export type SampleName = (typeof sampleNames)[number]

/** What the sample's file was made from. */
export interface Truth {
  length: number
  ascent: number
  descent: number
  crossings: { distance: number; gap: number }[]
  profile: { distance: number; elevation: number; gradient: number }[]
}

/** @param spacing of the stations, m */
export async function sampleRoute(name: SampleName, spacing = 10): Promise<Route> {
  const file = `${name}.gpx`
  const bytes = new Uint8Array(readFileSync(new URL(file, folder)))
  const reading = await readRoute(bytes, file, WHOLE_FILE, () => {}, undefined, { stationSpacing: spacing })
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading.route
}

export const sampleTruth = (name: SampleName): Truth =>
  JSON.parse(readFileSync(new URL(`${name}.truth.json`, folder), 'utf8'))
