import { ECCENTRICITY_SQUARED, EQUATORIAL_RADIUS, FLATTENING } from './wgs84'

const RADIANS = Math.PI / 180

/** Beyond this, m, a step is measured in parts: the formula of one scale is 1e-5 off at about 100 km. */
const LONGEST_PLAIN_STEP = 20_000
/** Nearer to a pole than this latitude a degree of longitude is too short for one scale over a step; there the chord is taken, 4e-7 short at 20 km. */
const POLAR = 80
/** Beyond this angle, radians, the great circle of the auxiliary sphere may lead far from the geodesic: the way over a pole may be shorter. */
const NEARLY_OPPOSITE = 3
/** Beyond this one the great circle is not certain to a metre. */
const OPPOSITE = Math.PI - 1e-6

export interface Scale {
  /** Metres in a degree of latitude. */
  north: number
  /** Metres in a degree of longitude. */
  east: number
}

/**
 * Metres in a degree of latitude and of longitude on the WGS84 ellipsoid, from the radii of curvature in the meridian and in the
 * prime vertical (Torge and Müller 2012, Geodesy, 4th edition, section 4.1.3; checked here against geodesics by Karney 2013).
 *
 * @param latitude degrees, geodetic
 * @returns metres per degree
 */
export function scaleAt(latitude: number): Scale {
  const sine = Math.sin(latitude * RADIANS)
  const w = 1 / (1 - ECCENTRICITY_SQUARED * sine * sine)
  const prime = EQUATORIAL_RADIUS * Math.sqrt(w)
  return {
    north: RADIANS * prime * (1 - ECCENTRICITY_SQUARED) * w,
    east: RADIANS * prime * Math.cos(latitude * RADIANS),
  }
}

/**
 * The same angle within half a turn of another, so that a path across the antimeridian has no step of 360 degrees.
 *
 * @param longitude degrees
 * @param near degrees
 * @returns degrees, longitude plus a whole number of turns, within 180 of `near`
 */
export function unwrap(longitude: number, near: number): number {
  const turns = Math.round((near - longitude) / 360)
  return turns === 0 ? longitude : longitude + 360 * turns
}

/**
 * Distance on the WGS84 ellipsoid. Steps up to 20 km take the scale at their middle latitude (within 1e-6 of the geodesic below 10 km,
 * away from the poles); longer ones are laid along the great circle of the auxiliary sphere and summed (within 1e-4 up to
 * 15,000 km, and within 5e-4 between places nearly opposite to each other).
 *
 * @param latitude degrees, of the first place
 * @param longitude degrees
 * @param toLatitude degrees, of the second place
 * @param toLongitude degrees; may be any number of turns away
 * @returns m
 */
export function distance(latitude: number, longitude: number, toLatitude: number, toLongitude: number): number {
  const far = unwrap(toLongitude, longitude)
  const plain = plainDistance(latitude, longitude, toLatitude, far)
  return plain <= LONGEST_PLAIN_STEP ? plain : longDistance(latitude, longitude, toLatitude, far)
}

function plainDistance(latitude: number, longitude: number, toLatitude: number, toLongitude: number): number {
  if (Math.abs(latitude) > POLAR) return chord(latitude, longitude, toLatitude, toLongitude)
  const scale = scaleAt((latitude + toLatitude) / 2)
  const north = (toLatitude - latitude) * scale.north
  const east = (toLongitude - longitude) * scale.east
  return Math.sqrt(north * north + east * east)
}

/** The straight line through the Earth. */
function chord(latitude: number, longitude: number, toLatitude: number, toLongitude: number): number {
  const from = inSpace(latitude, longitude)
  const to = inSpace(toLatitude, toLongitude)
  return Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
}

/** Place on the ellipsoid, m from the centre of the Earth: towards latitude 0, longitude 0, towards 90 degrees east, and towards the north pole (NIMA TR8350.2, eq. 4-14 for height 0). */
export function inSpace(latitude: number, longitude: number): Vector {
  const sine = Math.sin(latitude * RADIANS)
  const prime = EQUATORIAL_RADIUS / Math.sqrt(1 - ECCENTRICITY_SQUARED * sine * sine)
  const radius = prime * Math.cos(latitude * RADIANS)
  const east = longitude * RADIANS
  return [radius * Math.cos(east), radius * Math.sin(east), prime * (1 - ECCENTRICITY_SQUARED) * sine]
}

/**
 * Reduced latitude puts a place on the auxiliary sphere, where the geodesic is close to a great circle (Karney 2013, eq. 6); but not between
 * places nearly opposite to each other, where it leads close by a pole.
 */
function longDistance(latitude: number, longitude: number, toLatitude: number, toLongitude: number): number {
  const from = onSphere(latitude, longitude)
  const to = onSphere(toLatitude, toLongitude)
  const angle = angleBetween(from, to)
  if (angle < NEARLY_OPPOSITE) return alongCircle({ latitude, longitude }, from, to, angle)
  const overPole = 2 * meridian(90) - Math.abs(meridian(latitude) + meridian(toLatitude))
  return angle > OPPOSITE ? overPole : Math.min(overPole, alongCircle({ latitude, longitude }, from, to, angle))
}

/** Along the meridian from the equator; negative to the south. */
function meridian(latitude: number): number {
  const from = onSphere(0, 0)
  const to = onSphere(latitude, 0)
  return Math.sign(latitude) * alongCircle({ latitude: 0, longitude: 0 }, from, to, angleBetween(from, to))
}

function angleBetween(from: Vector, to: Vector): number {
  const dot = from[0] * to[0] + from[1] * to[1] + from[2] * to[2]
  const cross = Math.hypot(
    from[1] * to[2] - from[2] * to[1],
    from[2] * to[0] - from[0] * to[2],
    from[0] * to[1] - from[1] * to[0],
  )
  return Math.atan2(cross, dot)
}

/** Length on the ellipsoid of the great circle of the auxiliary sphere; its ends are not opposite to each other. */
function alongCircle(start: { latitude: number; longitude: number }, from: Vector, to: Vector, angle: number): number {
  const parts = Math.ceil((angle * EQUATORIAL_RADIUS) / LONGEST_PLAIN_STEP)
  let sum = 0
  let last = start
  for (let i = 1; i <= parts; i++) {
    const a = Math.sin(angle * (1 - i / parts)) / Math.sin(angle)
    const b = Math.sin(angle * (i / parts)) / Math.sin(angle)
    const [x, y, z] = [a * from[0] + b * to[0], a * from[1] + b * to[1], a * from[2] + b * to[2]]
    const reduced = Math.atan2(z, Math.hypot(x, y))
    const next = {
      latitude: Math.atan(Math.tan(reduced) / (1 - FLATTENING)) / RADIANS,
      longitude: unwrap(Math.atan2(y, x) / RADIANS, last.longitude),
    }
    sum += plainDistance(last.latitude, last.longitude, next.latitude, next.longitude)
    last = next
  }
  return sum
}

type Vector = readonly [number, number, number]

function onSphere(latitude: number, longitude: number): Vector {
  const reduced = Math.atan((1 - FLATTENING) * Math.tan(latitude * RADIANS))
  const east = longitude * RADIANS
  return [Math.cos(reduced) * Math.cos(east), Math.cos(reduced) * Math.sin(east), Math.sin(reduced)]
}

/**
 * Heading of a short step, with the scale at its middle latitude.
 *
 * @param latitude degrees, of the first place
 * @param longitude degrees
 * @param toLatitude degrees, of the second place
 * @param toLongitude degrees; may be any number of turns away
 * @returns radians clockwise from north, 0 to 2π; 0 for two equal places
 */
export function heading(latitude: number, longitude: number, toLatitude: number, toLongitude: number): number {
  const scale = scaleAt((latitude + toLatitude) / 2)
  const north = (toLatitude - latitude) * scale.north
  const east = (unwrap(toLongitude, longitude) - longitude) * scale.east
  const angle = Math.atan2(east, north)
  return angle < 0 ? angle + 2 * Math.PI : angle
}
