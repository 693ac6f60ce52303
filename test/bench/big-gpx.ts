/** A small seeded generator (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/**
 * A recorded ride of some length as GPX with elevations and times, about 106 bytes a point.
 *
 * @param points how many
 * @param length m in all
 */
export function bigGpx(points: number, length: number): string {
  const random = seeded(7)
  const step = length / points
  let latitude = 41
  let longitude = -151
  let heading = 0
  const lines: string[] = []
  for (let i = 0; i < points; i++) {
    heading += (random() - 0.5) * 0.05 * Math.sqrt(step)
    latitude += (Math.cos(heading) * step) / 111_000
    longitude += (Math.sin(heading) * step) / 83_900
    const elevation = 300 + 120 * Math.sin((i * step) / 3000) + 30 * Math.sin((i * step) / 500) + random()
    const time = new Date(1_800_000_000_000 + (i * step * 1000) / 6).toISOString().slice(0, 19)
    lines.push(
      `   <trkpt lat="${latitude.toFixed(7)}" lon="${longitude.toFixed(7)}">\n    <ele>${elevation.toFixed(1)}</ele>\n    <time>${time}Z</time>\n   </trkpt>`,
    )
  }
  return gpxOf(lines)
}

/**
 * A planned way to the east, a point each 50 m, with places within 700 m of it.
 *
 * @param waypoints how many places
 * @param length m
 * @param crossings gaps of 400 m in it, evenly spread
 */
export function gpxWithPlaces(waypoints: number, length: number, crossings = 0): string {
  const random = seeded(11)
  const east = (metres: number) => (-151 + metres / 83_900).toFixed(6)
  const places = Array.from(
    { length: waypoints },
    (_, i) =>
      ` <wpt lat="${(41 + (random() - 0.5) / 90).toFixed(6)}" lon="${east(length * random())}"><name>Place ${i}</name></wpt>`,
  )
  const apart = length / (crossings + 1)
  const isCrossed = (at: number) => Math.floor((at + 400) / apart) > Math.floor(at / apart) && at < length - apart
  const points = Array.from({ length: Math.floor(length / 50) }, (_, i) =>
    isCrossed(50 * i)
      ? '  </trkseg><trkseg>'
      : `   <trkpt lat="${(41 + 0.002 * Math.sin(i / 30)).toFixed(6)}" lon="${east(50 * i)}"></trkpt>`,
  )
  return gpxOf(points, places)
}

function gpxOf(points: readonly string[], places: readonly string[] = []): string {
  const before = places.map((place) => `${place}\n`).join('')
  return `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="Wattfare bench" xmlns="http://www.topografix.com/GPX/1/1">\n${before} <trk>\n  <name>Bench</name>\n  <trkseg>\n${points.join('\n')}\n  </trkseg>\n </trk>\n</gpx>\n`
}
