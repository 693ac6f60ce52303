import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gpx } from './gpx'
import { coasts } from './islands'
import { lastYear } from './last-year'
import { geodesicLength, toLonLat } from './plane'
import { record } from './record'
import { type Design, designs } from './roads'
import { build, type Road, steepest } from './truth'

/** The text of each sample file by its name. The same at every call: nothing is drawn but from the seeds. */
export function sampleFiles(): Map<string, string> {
  const files = new Map<string, string>()
  const roads = designs.map(build)
  files.set('coast.geojson', coast(roads))
  designs.forEach((route, i) => {
    const road = roads[i]!
    files.set(`${route.file}.gpx`, gpx(route, road, record(road, route)))
    files.set(`${route.file}.truth.json`, truth(route, road))
  })
  for (const [name, text] of lastYear(designs[0]!, roads[0]!)) files.set(name, text)
  return files
}

/** The coasts as polygons and the named places of all routes as points; one feature a line. */
function coast(roads: readonly Road[]): string {
  const islands = coasts().map(({ name, ring }) => ({
    type: 'Feature',
    properties: { name, type: 'island' },
    geometry: { type: 'Polygon', coordinates: [ring] },
  }))
  const places = new Map(roads.flatMap((road) => road.places).map((place) => [place.name, place]))
  const points = [...places.values()].map(({ name, type, at }) => ({
    type: 'Feature',
    properties: { name, type },
    geometry: { type: 'Point', coordinates: at.map((degrees) => round(degrees, 5)) },
  }))
  const lines = [...islands, ...points].map((feature) => JSON.stringify(feature))
  return `{"type":"FeatureCollection","features":[\n${lines.join(',\n')}\n]}\n`
}

/** What is true of a route, for tests to compare with; distances in m along the ridden road, without the crossing. */
function truth(route: Design, road: Road): string {
  const { distance, starts, profile } = road
  const length = distance.at(-1)!
  const steep = steepest(road)
  const head = {
    about: 'Made by sample-routes/make.ts: the invented truth that the GPX file of the same name was made from.',
    seed: route.seed,
    length: round(length, 2),
    ascent: round(profile.ascent, 2),
    descent: round(profile.descent, 2),
    steepestClimbOver50m: round(steep.up, 4),
    steepestDescentOver50m: round(steep.down, 4),
    crossings: starts.slice(1).map((start) => ({
      distance: round(distance[start]!, 2),
      gap: round(geodesicLength(toLonLat(road.points[start - 1]!), toLonLat(road.points[start]!)), 2),
    })),
    noise: route.noise,
  }
  const rows = Array.from({ length: Math.floor(length / 100) + 1 }, (_, i) => {
    const gradient = profile.elevationAt(i * 100 + 0.5) - profile.elevationAt(i * 100 - 0.5)
    return JSON.stringify({
      distance: i * 100,
      elevation: round(profile.elevationAt(i * 100), 2),
      gradient: round(gradient, 4),
    })
  })
  return `${JSON.stringify(head, undefined, 2).slice(0, -2)},\n  "profile": [\n    ${rows.join(',\n    ')}\n  ]\n}\n`
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals))
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, text] of sampleFiles()) writeFileSync(new URL(name, import.meta.url), text)
}
