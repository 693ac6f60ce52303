/**
 * Writes static/land.geojson, the coarse land of the real world that the map shows without network: Natural Earth
 * (public domain) at 1:50 million, from the package world-atlas. Run by hand: npx tsx sample-routes/make-land.ts
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { bboxClip, lineString, polygon, simplify } from '@turf/turf'
import { feature } from 'topojson-client'

type Ring = number[][]

const smallestExtentKm = 3
const toleranceDegrees = 0.012
const kmPerDegree = 111.2

/** The text of static/land.geojson. */
export function land(): string {
  const atlas = fileURLToPath(import.meta.resolve('world-atlas/land-50m.json'))
  const topology: { objects: { land: unknown } } = JSON.parse(readFileSync(atlas, 'utf8'))
  const polygons = feature(topology, topology.objects.land).features.flatMap(({ geometry }) =>
    geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates,
  )
  const coordinates = polygons
    .flatMap(cutAtAntimeridian)
    .map((rings) => rings.map(coarse).filter(isLargeEnough))
    .filter((rings) => rings.length > 0)
  const collection = {
    type: 'Feature',
    properties: {
      source: 'Natural Earth 1:50m land, public domain, from the npm package world-atlas; simplified to about 0.01°',
    },
    geometry: { type: 'MultiPolygon', coordinates },
  }
  return `${JSON.stringify(collection)}\n`
}

/** The source joins land across 180°, as on a globe; a flat map wants it in pieces (RFC 7946, section 3.1.9). */
function cutAtAntimeridian(rings: Ring[]): Ring[][] {
  const [shore = [], ...lakes] = rings.map(unwrap)
  const [west, east] = extent(shore, 0)
  if (west >= -180 && east <= 180) return [[shore, ...lakes]]
  const nearShore = lakes.map((lake) => shifted(lake, 360 * Math.round(((west + east) / 2 - lake[0]![0]!) / 360)))
  return [-360, 0, 360].map((shift) => {
    const moved = [shore, ...nearShore].map((ring) => shifted(ring, shift))
    return bboxClip(polygon(moved), [-180, -90, 180, 90]).geometry.coordinates as Ring[]
  })
}

function shifted(ring: Ring, degrees: number): Ring {
  return ring.map(([longitude, latitude]) => [longitude! + degrees, latitude!])
}

/** A ring without jumps of longitude; one that goes round the South Pole is closed along it. */
function unwrap(ring: Ring): Ring {
  let turns = 0
  const out = ring.map(([longitude, latitude], i) => {
    const before = ring[i - 1]?.[0] ?? longitude!
    if (Math.abs(longitude! - before) > 180) turns += longitude! < before ? 1 : -1
    return [longitude! + 360 * turns, latitude!]
  })
  if (turns === 0) return out
  return [...out, [out.at(-1)![0]!, -90], [out[0]![0]!, -90], out[0]!]
}

/** A ring without the points that hardly bend it, rounded to two decimals, without repeated points. */
function coarse(ring: Ring): Ring {
  if (ring.length < 4) return []
  return simplify(lineString(ring), { tolerance: toleranceDegrees, highQuality: true })
    .geometry.coordinates.map((place) => place.map((degrees) => Number(degrees.toFixed(2))))
    .filter((place, i, all) => i === 0 || place[0] !== all[i - 1]![0] || place[1] !== all[i - 1]![1])
}

function isLargeEnough(ring: Ring): boolean {
  if (ring.length < 4) return false
  const [west, east] = extent(ring, 0)
  const [south, north] = extent(ring, 1)
  const width = (east - west) * Math.cos((south * Math.PI) / 180)
  return Math.hypot(width, north - south) * kmPerDegree >= smallestExtentKm
}

/** The least and the greatest longitude (0) or latitude (1) of a ring. */
function extent(ring: Ring, axis: 0 | 1): [number, number] {
  const values = ring.map((place) => place[axis]!)
  return [Math.min(...values), Math.max(...values)]
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(new URL('../static/land.geojson', import.meta.url), land())
}
