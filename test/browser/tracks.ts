/** A point as latitude and longitude, degrees, and elevation, m. */
export type TrackPoint = readonly [latitude: number, longitude: number, elevation: number]

export const gpx = (inner: string): Buffer =>
  Buffer.from(
    `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">${inner}</gpx>`,
  )

/** A track with a segment for each list of points; the name is markup already. */
export const track = (name: string, ...segments: readonly TrackPoint[][]): string => {
  const written = segments.map((points) =>
    points.map(
      ([latitude, longitude, elevation]) =>
        `<trkpt lat="${latitude.toFixed(6)}" lon="${longitude.toFixed(6)}"><ele>${elevation.toFixed(1)}</ele></trkpt>`,
    ),
  )
  return `<trk><name>${name}</name>${written.map((points) => `<trkseg>${points.join('')}</trkseg>`).join('')}</trk>`
}

/** A straight ride north over ripples of 30 m, a point every 20 m. */
export const north = (points: number, latitude = 45, longitude = 7): TrackPoint[] =>
  Array.from({ length: points }, (_, i) => [latitude + i * 0.00018, longitude, 200 + 30 * Math.sin(i / 60)])

/** A straight ride as a track. */
export const line = (name: string, points: number, latitude = 45): string => track(name, north(points, latitude))

/** A figure of eight in open sea, about 30 km, from its eastern end; it crosses itself a quarter and three quarters of the way along. */
export const figureOfEight = (): TrackPoint[] =>
  Array.from({ length: 3001 }, (_, i) => {
    const turn = Math.PI / 2 + (2 * Math.PI * i) / 3000
    return [41 + 0.045 * Math.sin(turn) * Math.cos(turn), -151.4 + 0.06 * Math.sin(turn), 100 + 20 * Math.sin(2 * turn)]
  })
