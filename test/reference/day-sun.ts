import { sunOn } from '../../src/model/world/daylight'
import type { ReferenceCheck } from './check'

const golden = [39, -105, 'Etc/GMT+7'] as const

/** Seconds of a local day from `HH:mm` or `HH:mm:ss`. */
const seconds = (clock: string) => clock.split(':').reduce((sum, part, k) => sum + Number(part) * 60 ** (2 - k), 0)

/** An event as seconds of the local day at an offset from UTC, h. Not folded into one day: an event of the day before would come out negative. */
const ofDay = (instant: number | undefined, date: string, offset: number) =>
  (instant ?? NaN) + offset * 3600 - Date.parse(`${date}T00:00Z`) / 1000

/** Sunrise and sunset to the minute, 39° N 105° W, UTC-7. */
const almanac: [string, string, string][] = [
  ['2015-01-02', '07:19', '16:49'],
  ['2015-04-02', '05:43', '18:24'],
  ['2015-08-02', '05:01', '19:10'],
  ['2015-12-02', '07:01', '16:38'],
]

const naval = almanac.flatMap(([date, rise, set]): ReferenceCheck[] =>
  (
    [
      ['sunrise', rise],
      ['sunset', set],
    ] as const
  ).map(([event, clock]) => ({
    quantity: 'sunrise and sunset at 39° N 105° W, to the minute',
    sample: `${event} on ${date}`,
    source:
      'U.S. Naval Observatory, to the minute, as vendored in a solar position library’s tests; 60 s for its rounding and ours',
    unit: 's',
    expected: seconds(clock),
    ours: () => ofDay(sunOn(golden[0], golden[1], date, golden[2])[event], date, -7),
    tolerance: 60,
    basis: 'published',
  })),
)

const southern = (
  [
    ['1996-07-05', '07:08:15', '17:01:04'],
    ['2004-12-04', '04:38:57', '19:02:02'],
  ] as const
).flatMap(([date, rise, set]): ReferenceCheck[] =>
  (
    [
      ['sunrise', rise],
      ['sunset', set],
    ] as const
  ).map(([event, clock]) => ({
    quantity: 'sunrise and sunset at 35° S 0°, to the second',
    sample: `${event} on ${date}`,
    source:
      'Reda and Andreas 2004, Solar Energy 76:577-589 (NREL/TP-560-34302), as vendored in a solar position library’s tests',
    unit: 's',
    expected: seconds(clock),
    ours: () => ofDay(sunOn(-35, 0, date, 'UTC')[event], date, 0),
    tolerance: 10,
    basis: 'published',
  })),
)

const twilight = (
  [
    ['dawn', '04:31:47'],
    ['dusk', '19:40:05'],
  ] as const
).map(([event, clock]): ReferenceCheck => ({
  quantity: 'civil twilight at 39° N 105° W on 2015-08-02',
  sample: event,
  source: 'NOAA solar equations at zenith 96°, computed apart from this code',
  unit: 's',
  expected: seconds(clock),
  ours: () => ofDay(sunOn(golden[0], golden[1], '2015-08-02', golden[2])[event], '2015-08-02', -7),
  tolerance: 30,
  basis: 'computed from published',
}))

export const daySunChecks: ReferenceCheck[] = [...naval, ...southern, ...twilight]
