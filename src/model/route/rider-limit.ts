/** What goes faster than this needs, W, is no rider: a trained one gives half of it for long. A choice. */
const RIDER_LIMIT = 700
/** A strong motor helps up to its speed limit and a little more: W, m/s. */
const MOTOR_HELP = { power: 600, until: 7.5 }
/** In the rider's favour: low drag, good tyres, light where it goes up and heavy where it goes down; kg, m². */
const FAVOUR = { dragArea: 0.4, rolling: 0.004, light: 75, heavy: 150, airDensity: 1.2, gravity: 9.81 }
/** Where the elevation is not known the road may fall by this slope, and by this height in all, m. */
const UNKNOWN_SLOPE = -0.1
const UNKNOWN_FALL = 300

/**
 * Whether no rider goes as fast: by Martin et al. 1998, without wind, the most favourable position would need more than 700 W, which is
 * 50 km/h on the level.
 *
 * @param length m
 * @param seconds that it took
 * @param rise m from end to end; NaN where unknown
 */
export function isBeyondRider(length: number, seconds: number, rise: number): boolean {
  if (!(length > 0)) return false
  if (!(seconds > 0)) return true
  const speed = length / seconds
  const slope = Number.isNaN(rise) ? Math.max(UNKNOWN_SLOPE, -UNKNOWN_FALL / length) : rise / length
  const limit = RIDER_LIMIT + (speed < MOTOR_HELP.until ? MOTOR_HELP.power : 0)
  return powerFor(speed, slope) > limit
}

/** Power at the wheel that a rider in the most favourable position needs, W. */
function powerFor(speed: number, slope: number): number {
  const { dragArea, rolling, light, heavy, airDensity, gravity } = FAVOUR
  const mass = slope < 0 ? heavy : light
  return mass * gravity * (slope + rolling) * speed + (airDensity / 2) * dragArea * speed ** 3
}
