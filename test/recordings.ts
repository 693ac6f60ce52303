import type { Part } from '../src/model/route/parts'

/** How a stretch of a made-up recording goes, one point a step. */
export interface Piece {
  /** s */
  time: number
  /** m/s at a time since the piece began, s; 0 for standing. */
  speed: (time: number) => number
  /** m at a distance since the piece began, m. */
  elevation?: (distance: number) => number
  /** Radians clockwise from north at a distance since the piece began, m. */
  heading?: (distance: number) => number
}

/** Numbers from 0 to 1 in an order of their own, the same each time (Park and Miller 1988, the minimal standard generator). */
function seeded(): () => number {
  let state = 1
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
}

/**
 * A recording, one point in so many seconds, with the wander of a receiver, which stays for minutes: some metres in place, up to ±5 m in
 * elevation.
 *
 * @param every s between points
 */
export function recorded(pieces: readonly Piece[], every = 5): Part {
  const random = seeded()
  const columns = {
    latitude: [] as number[],
    longitude: [] as number[],
    elevation: [] as number[],
    time: [] as number[],
  }
  let north = 0
  let east = 0
  let clock = Date.UTC(2027, 5, 19, 6) / 1000
  const wander = { north: 0, east: 0, up: 0 }
  const keeps = Math.exp(-every / 150)
  const drift = (now: number) => keeps * now + Math.sqrt(1 - keeps * keeps) * 3.4 * (random() + random() - 1)
  for (const { time, speed, elevation = () => 3, heading = () => 0 } of pieces) {
    let way = 0
    for (let t = 0; t < time; t += every) {
      for (const key of ['north', 'east', 'up'] as const) wander[key] = drift(wander[key])
      columns.latitude.push(54 + (north + wander.north) / 111_320)
      columns.longitude.push(8 + (east + wander.east) / (111_320 * Math.cos((54 * Math.PI) / 180)))
      columns.elevation.push(elevation(way) + 1.8 * wander.up)
      columns.time.push(clock)
      const step = every * speed(t)
      north += step * Math.cos(heading(way))
      east += step * Math.sin(heading(way))
      way += step
      clock += every
    }
  }
  return {
    latitude: Float64Array.from(columns.latitude),
    longitude: Float64Array.from(columns.longitude),
    elevation: Float64Array.from(columns.elevation),
    time: Float64Array.from(columns.time),
  }
}

/** A rider on hilly, bending roads: 15 to 27 km/h. */
export const roads = (time: number): Piece => ({
  time,
  speed: (t) => 5.8 + 1.2 * Math.sin(t / 40) + 0.5 * Math.sin(t / 11),
  elevation: (d) => 30 + 27 * Math.sin(d / 400 - Math.PI / 2),
  heading: (d) => 0.9 * Math.sin(d / 250),
})

export const standing = (time: number): Piece => ({ time, speed: () => 0 })

/** Casts off over two minutes, keeps its speed to half a percent, lands over two minutes. */
export const ferry = (time: number, speed: number): Piece => ({
  time,
  speed: (t) => speed * Math.min(1, (t + 5) / 120, (time - t) / 120) * (1 + 0.005 * Math.sin(t / 90)),
  heading: (d) => 1 + 0.3 * Math.sin(d / 4000),
})

/** A rider on a straight, dead-level towpath: the minutes differ by the 5 % of gusts, wind and legs. */
export const towpath = (time: number, speed: number): Piece => ({
  time,
  speed: (t) => speed * (1 + 0.07 * Math.sin(t / 50) + 0.03 * Math.sin(t / 17)),
  heading: () => 1,
})

/** Speeds up and brakes over a minute. */
export const train = (time: number, speed: number): Piece => ({
  time,
  speed: (t) => speed * Math.min(1, (t + 5) / 60, (time - t) / 60),
  elevation: (d) => 30 + 0.002 * d,
  heading: (d) => 1 + 0.1 * Math.sin(d / 3000),
})

/** A recording without what the receiver did not see, from and to s after its first point. */
export function unseen(part: Part, ...spans: readonly (readonly [from: number, to: number])[]): Part {
  const seen = Array.from(part.time, (time) => time - part.time[0]!).map(
    (t) => !spans.some(([from, to]) => t > from && t < to),
  )
  const kept = (column: Float64Array) => column.filter((_, i) => seen[i])
  return {
    latitude: kept(part.latitude),
    longitude: kept(part.longitude),
    elevation: kept(part.elevation),
    time: kept(part.time),
  }
}

/** A recording as GPX. */
export function asGpx(name: string, ...parts: Part[]): string {
  const segments = parts.map((part) => {
    const points = Array.from(part.latitude, (latitude, i) => {
      const clock = part.time[i]!
      const time = Number.isNaN(clock) ? '' : `<time>${new Date(1000 * clock).toISOString()}</time>`
      return `<trkpt lat="${latitude.toFixed(7)}" lon="${part.longitude[i]!.toFixed(7)}"><ele>${part.elevation[i]!.toFixed(1)}</ele>${time}</trkpt>`
    })
    return `<trkseg>${points.join('\n')}</trkseg>`
  })
  return `<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>${name}</name>${segments.join('')}</trk></gpx>`
}
