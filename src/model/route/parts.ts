import { Refusal } from './fault'

/** Points of one segment of a track, of a route element, or of a line, as the file has them. */
export interface Part {
  /** Degrees; NaN where the file has no number. */
  latitude: Float64Array
  longitude: Float64Array
  /** m; NaN where the file has none. */
  elevation: Float64Array
  /** Seconds since 1970 began; NaN where the file has none. */
  time: Float64Array
  /** What sensors measured there, where it was asked for and the file has any. */
  sensors?: Sensors
}

/** One entry a point; NaN where there is none. */
export interface Sensors {
  /** Of the rider, W. */
  power: Float64Array
  /** Beats and turns of the pedals a minute. */
  heartRate: Float64Array
  cadence: Float64Array
}
export type Sensor = keyof Sensors

const MOST_POINTS = 2_000_000

/** Growing columns of the parts of a file: the last of them is the one that points go to. */
export class Parts {
  private count = 0
  private latitude: number[] = []
  private longitude: number[] = []
  private elevation: number[] = []
  private time: number[] = []
  private sensed: Record<Sensor, number[]> | undefined

  /** @throws Refusal beyond 2,000,000 points of a file */
  add(latitude: number, longitude: number, elevation: number, time: number): void {
    if (++this.count > MOST_POINTS) {
      throw new Refusal({ code: 'tooManyPoints', most: MOST_POINTS })
    }
    this.latitude.push(latitude)
    this.longitude.push(longitude)
    this.elevation.push(elevation)
    this.time.push(time)
  }

  /** What a sensor measured at the point added last. */
  sense(sensor: Sensor, value: number): void {
    this.sensed ??= { power: [], heartRate: [], cadence: [] }
    this.sensed[sensor][this.latitude.length - 1] = value
  }

  /** Times of the points of the part, where they come apart from these. */
  setTimes(times: readonly number[]): void {
    for (let i = 0; i < Math.min(times.length, this.time.length); i++) this.time[i] = times[i]!
  }

  /** The points since the last call; undefined if there are none. */
  take(): Part | undefined {
    if (this.latitude.length === 0) return undefined
    const part: Part = {
      latitude: Float64Array.from(this.latitude),
      longitude: Float64Array.from(this.longitude),
      elevation: Float64Array.from(this.elevation),
      time: Float64Array.from(this.time),
      ...(this.sensed !== undefined && { sensors: this.columnsOf(this.sensed) }),
    }
    this.sensed = undefined
    this.latitude = []
    this.longitude = []
    this.elevation = []
    this.time = []
    return part
  }

  private columnsOf({ power, heartRate, cadence }: Record<Sensor, number[]>): Sensors {
    const column = (values: number[]) => Float64Array.from(this.latitude, (_, i) => values[i] ?? NaN)
    return { power: column(power), heartRate: column(heartRate), cadence: column(cadence) }
  }
}

/** A number as the file has it, strict: "12m" and an empty text are none, NaN. */
export function toNumber(text: string | undefined): number {
  const number = Number(text)
  if (number === 0 && text!.trim() === '') return NaN
  return Number.isFinite(number) ? number : NaN
}

/** Seconds since 1970 began of an xsd:dateTime; without a zone it is UTC, as GPX says, whatever zone the machine is in. NaN if it is none. */
export function toTime(text: string | undefined): number {
  if (text === undefined) return NaN
  if (text.endsWith('Z')) return Date.parse(text) / 1000
  const iso = text.trim()
  return Date.parse(/T.*(Z|[+-]\d\d:?\d\d)$/i.test(iso) || !iso.includes('T') ? iso : `${iso}Z`) / 1000
}
