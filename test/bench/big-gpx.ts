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
  return `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="Wattfare bench" xmlns="http://www.topografix.com/GPX/1/1">\n <trk>\n  <name>Bench</name>\n  <trkseg>\n${lines.join('\n')}\n  </trkseg>\n </trk>\n</gpx>\n`
}
