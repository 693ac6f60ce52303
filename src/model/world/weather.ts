/** A moment of a ride: time since the start, s, and distance ridden, m. One record, for numbers handed to the hot loop would each be allocated. */
export interface Moment {
  time: number
  distance: number
}

export const setOut: Moment = { time: 0, distance: 0 }

/** The weather at a moment, for the hot loop: made once, filled in again and again. */
export interface Weather {
  /** °C, carried down to sea level by the lapse rate: the air at a height h m has this less lapse rate × h. */
  seaLevelCelsius: number
  /** The air's own motion at 10 m height toward east and north, m/s. */
  windEast: number
  windNorth: number
  /** At sea level, Pa. */
  pressure: number
  /** How wet the road is: 0 dry, 1 wet. */
  wetness: number
}

export const noWeather = (): Weather => ({
  seaLevelCelsius: 0,
  windEast: 0,
  windNorth: 0,
  pressure: 0,
  wetness: 0,
})

/**
 * Wind against a rider, m/s: what `StepConditions` calls headWind, before the share of it that reaches the rider's height.
 *
 * @param east sine of the rider's heading from north
 * @param north its cosine
 */
export const headWindOf = ({ windEast, windNorth }: Weather, east: number, north: number): number =>
  -(windEast * east + windNorth * north)

/**
 * Wind from the rider's right, m/s.
 *
 * @param east sine of the rider's heading from north
 * @param north its cosine
 */
export const sideWindOf = ({ windEast, windNorth }: Weather, east: number, north: number): number =>
  windNorth * east - windEast * north

/**
 * A dry factor made one of a part-wet road.
 *
 * @param wetness 0 to 1
 * @param wetFactor what a wholly wet road multiplies by
 */
export const wetFactor = (wetness: number, wetFactor: number): number => 1 + (wetFactor - 1) * wetness
