import type { Surface } from '../ground'

/** A lane of 20 km due north over the invented sea, a point every 100 m, without elevation. */
export const hillyLane = Buffer.from(
  `<gpx><trk><name>Lane</name><trkseg>${Array.from(
    { length: 201 },
    (_, i) => `<trkpt lat="${(41 + i * 0.0009).toFixed(4)}" lon="-151"/>`,
  ).join('')}</trkseg></trk></gpx>`,
)
/** Land of four waves along it, 200 m from trough to crest. */
export const hills: Surface = (latitude) => 200 - 100 * Math.cos((2 * Math.PI * (latitude - 41)) / 0.045)
/** West, south, east, north. */
export const aboutLane = [-151.01, 40.99, -150.99, 41.19] as const
