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

const columns = ['latitude', 'longitude', 'elevation', 'time'] as const
type Columns = Record<(typeof columns)[number], Float64Array<ArrayBuffer>>

const roomAtFirst = 256

const room = (points: number): Columns => ({
  latitude: new Float64Array(points),
  longitude: new Float64Array(points),
  elevation: new Float64Array(points),
  time: new Float64Array(points),
})

/** Growing columns of the parts of a file: the last of them is the one that points go to. */
export class Parts {
  private count = 0
  private columns = room(roomAtFirst)
  private length = 0
  private sensed: Record<Sensor, number[]> | undefined

  /** @throws Refusal beyond 2,000,000 points of a file */
  add(latitude: number, longitude: number, elevation: number, time: number): void {
    if (++this.count > MOST_POINTS) {
      throw new Refusal({ code: 'tooManyPoints', most: MOST_POINTS })
    }
    if (this.length === this.columns.time.length) this.grow()
    const { columns } = this
    const i = this.length++
    columns.latitude[i] = latitude
    columns.longitude[i] = longitude
    columns.elevation[i] = elevation
    columns.time[i] = time
  }

  private grow(): void {
    const wider = room(2 * this.length)
    for (const key of columns) wider[key].set(this.columns[key])
    this.columns = wider
  }

  /** What a sensor measured at the point added last. */
  sense(sensor: Sensor, value: number): void {
    this.sensed ??= { power: [], heartRate: [], cadence: [] }
    this.sensed[sensor][this.length - 1] = value
  }

  /** Times of the points of the part, where they come apart from these. */
  setTimes(times: readonly number[]): void {
    for (let i = 0; i < Math.min(times.length, this.length); i++) this.columns.time[i] = times[i]!
  }

  /** The points since the last call; undefined if there are none. */
  take(): Part | undefined {
    if (this.length === 0) return undefined
    const { latitude, longitude, elevation, time } = this.columns
    const part: Part = {
      latitude: latitude.slice(0, this.length),
      longitude: longitude.slice(0, this.length),
      elevation: elevation.slice(0, this.length),
      time: time.slice(0, this.length),
      ...(this.sensed !== undefined && { sensors: this.columnsOf(this.sensed) }),
    }
    this.sensed = undefined
    this.length = 0
    return part
  }

  private columnsOf({ power, heartRate, cadence }: Record<Sensor, number[]>): Sensors {
    const column = (values: number[]) => Float64Array.from({ length: this.length }, (_, i) => values[i] ?? NaN)
    return { power: column(power), heartRate: column(heartRate), cadence: column(cadence) }
  }
}
