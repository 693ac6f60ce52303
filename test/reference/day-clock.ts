import { dateAfter, instantOf, offsetAt } from '../../src/model/world/zone'
import type { ReferenceCheck } from './check'

const instant = (iso: string) => Date.parse(iso) / 1000

/** Zone, the instant of a change in 2027, offsets from UTC before and after, s. */
const changes: [string, string, number, number, string][] = [
  ['Europe/Berlin', '2027-03-28T01:00:00Z', 3600, 7200, 'Directive 2000/84/EC: 01:00 UTC on the last Sunday of March'],
  [
    'Europe/Berlin',
    '2027-10-31T01:00:00Z',
    7200,
    3600,
    'Directive 2000/84/EC: 01:00 UTC on the last Sunday of October',
  ],
  ['Europe/Lisbon', '2027-03-28T01:00:00Z', 0, 3600, 'Directive 2000/84/EC: 01:00 UTC on the last Sunday of March'],
  [
    'America/New_York',
    '2027-03-14T07:00:00Z',
    -18_000,
    -14_400,
    '15 U.S.C. 260a: 02:00 local on the second Sunday of March',
  ],
  [
    'America/New_York',
    '2027-11-07T06:00:00Z',
    -14_400,
    -18_000,
    '15 U.S.C. 260a: 02:00 local on the first Sunday of November',
  ],
]

const atChanges = changes.flatMap(([zone, iso, before, after, source]): ReferenceCheck[] =>
  (
    [
      ['a second before', -1, before],
      ['at', 0, after],
    ] as const
  ).map(([when, shift, expected]) => ({
    quantity: 'offset from UTC about the changes of summer time',
    sample: `${zone}, ${when} the change of ${iso.slice(0, 10)}`,
    source: `${source}; rule from memory, the offsets themselves are the tz database’s`,
    unit: 's',
    expected,
    ours: () => offsetAt(instant(iso) + shift, zone),
    tolerance: 0.05,
    basis: 'from memory',
  })),
)

const midnight = (date: string) => instantOf(`${date}T00:00`, 'Europe/Berlin')

export const dayClockChecks: ReferenceCheck[] = [
  ...atChanges,
  ...(
    [
      ['2027-03-28', 23],
      ['2027-10-31', 25],
      ['2027-06-19', 24],
    ] as const
  ).map(([date, hours]): ReferenceCheck => ({
    quantity: 'length of a day in Europe/Berlin',
    sample: date,
    source: 'Directive 2000/84/EC; rule from memory',
    unit: 'h',
    expected: hours,
    ours: () => (midnight(dateAfter(date, 1)) - midnight(date)) / 3600,
    tolerance: 1e-9,
    basis: 'from memory',
  })),
  {
    quantity: 'instant after 01:00 UTC of 02:30 on 2027-03-28 in Europe/Berlin, which the clock skips: as 03:30',
    sample: '',
    source: 'RFC 5545, section 3.3.5: a skipped local time is read with the offset before the gap',
    unit: 's',
    expected: 1800,
    ours: () => instantOf('2027-03-28T02:30', 'Europe/Berlin') - instant('2027-03-28T01:00:00Z'),
    tolerance: 1e-6,
    basis: 'from memory',
  },
  {
    quantity:
      'instant before 01:00 UTC of 02:30 on 2027-10-31 in Europe/Berlin, which the clock shows twice: the first',
    sample: '',
    source: 'RFC 5545, section 3.3.5: a repeated local time is its first occurrence',
    unit: 's',
    expected: 1800,
    ours: () => instant('2027-10-31T01:00:00Z') - instantOf('2027-10-31T02:30', 'Europe/Berlin'),
    tolerance: 1e-6,
    basis: 'from memory',
  },
]
