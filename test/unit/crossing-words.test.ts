import { describe, expect, it } from 'vitest'
import { clean } from '../../src/model/route/clean'
import { entrySentence, listed, proposalSentence, readPlace } from '../../src/view/sheet/crossingWords'
import type { GapReason } from '../../src/model/route/holes'
import { gapWordsIn } from '../../src/view/words/gaps'
import { recorded, roads } from '../recordings'

/** Straight north, three segments with gaps of 2 km between. */
const segments = [0, 7000, 14_000].map((from) => {
  const column = (of: (i: number) => number) => Float64Array.from({ length: 51 }, (_, i) => of(i))
  return {
    latitude: column((i) => 45 + (from + 100 * i) / 111_132),
    longitude: column(() => 7),
    elevation: column(() => 100),
    time: column(() => NaN),
  }
})

const brokenOff = 'taken as a crossing: the file breaks off and goes on there, and has no times to tell.'

describe('the list of crossings', () => {
  const shown = (riddenGaps: number[], marked: { from: number; to: number }[]) => {
    const { gaps, travelled, crossings } = clean(segments, riddenGaps, marked)
    return listed(gaps, travelled).map((entry) => [entry.crossing, entrySentence(entry, crossings, 'metric')])
  }

  it('has gaps with the number of their crossing, and none where they were ridden', () => {
    expect(shown([], [])).toEqual([
      [0, `km 5.0: a gap of 2.0 km, ${brokenOff}`],
      [1, `km 10.0: a gap of 2.0 km, ${brokenOff}`],
    ])
    expect(shown([0], [])).toEqual([
      [undefined, 'km 5.0: a gap of 2.0 km; ridden, as you said.'],
      [0, `km 12.0: a gap of 2.0 km, ${brokenOff}`],
    ])
  })

  it('has marked parts in their order, with the gaps in them', () => {
    expect(shown([], [{ from: 6000, to: 8000 }])).toEqual([
      [0, 'km 5.0: a marked part of 3.0 km.'],
      [1, `km 9.0: a gap of 2.0 km, ${brokenOff}`],
    ])
  })

  it('has what is left out at the ends, which is no crossing', () => {
    expect(
      shown(
        [],
        [
          { from: 0, to: 1000 },
          { from: 18_000, to: 1e5 },
        ],
      ),
    ).toEqual([
      [undefined, 'The first 1.0 km of the track are left out: the ride begins after them.'],
      [0, `km 4.0: a gap of 2.0 km, ${brokenOff}`],
      [1, `km 9.0: a gap of 2.0 km, ${brokenOff}`],
      [undefined, 'The last 1.0 km of the track are left out: the ride ends before them.'],
    ])
  })

  it('tells the time of the recording', () => {
    const { gaps, travelled, crossings } = clean([recorded([roads(3600)])], [], [{ from: 5000, to: 10_000 }])
    expect(entrySentence(listed(gaps, travelled)[0]!, crossings, 'imperial')).toMatch(
      /^mile 3\.1: a marked part of 3\.1 mi, 1\d min in the recording\.$/,
    )
  })
})

describe('a gap', () => {
  const gap = {
    from: 5000,
    to: 17_000,
    distance: 5000,
    numbers: [0],
    recordedTime: 2400,
    isCrossing: true,
    ridden: false,
    why: { code: 'silent', time: 2400 },
  } as const
  const { gap: said } = gapWordsIn('metric')

  it('says what it is taken for, and why', () => {
    const taken = 'km 5.0: a gap of 12.0 km, 40 min in the recording, taken as a crossing: '
    expect(said({ ...gap, numbers: [0] })).toBe(`${taken}nothing was recorded for 40 min.`)
    const reasons: [GapReason, string][] = [
      [{ code: 'tooFast', speed: 22 }, 'nobody rides 79.2 km/h there.'],
      [{ code: 'travelled', kind: 'level', speed: 5 }, 'all about it went at a steady 18.0 km/h on level water.'],
      [
        { code: 'travelled', kind: 'fast', speed: 30 },
        'all about it went at 108.0 km/h, faster than a rider can go there.',
      ],
    ]
    for (const [why, words] of reasons) expect(said({ ...gap, numbers: [0], why })).toBe(`${taken}${words}`)
    const ridden = { ...gap, numbers: [0], isCrossing: false, ridden: true }
    expect(said({ ...ridden, why: { code: 'rideable', speed: 5 } })).toBe(
      'km 5.0: a gap of 12.0 km, 40 min in the recording, counted as ridden straight: a rider can go 18.0 km/h.',
    )
    expect(said({ ...ridden, recordedTime: undefined, why: { code: 'drawn' } })).toBe(
      'km 5.0: a gap of 12.0 km, counted as ridden straight: the file draws a line there, and has no times to tell.',
    )
  })
})

describe('a proposal', () => {
  const part = { from: 71_200, to: 83_000, time: 41 * 60, speed: 4.72, halt: 720 } as const

  it('says where on the ride, how and after what', () => {
    expect(proposalSentence({ ...part, kind: 'level' }, [], 'metric')).toBe(
      'km 71.2 to 83.0 looks like a crossing: 41 min at a steady 17 km/h on level water after a halt of 12 min.',
    )
    const before = { from: 1000, to: 11_000, distance: 1000, place: 'between', marked: true } as const
    expect(proposalSentence({ ...part, kind: 'fast', speed: 30 }, [before], 'metric')).toBe(
      'km 61.2 to 73.0 looks like a crossing: 41 min at 108 km/h, faster than a rider can go there.',
    )
  })
})

describe('a place that is typed', () => {
  const read = (text: string, units: 'metric' | 'imperial' = 'metric') => {
    const reading = readPlace(text, 'begins', 62_034, units)
    return reading.ok ? reading.value : reading.sentence
  }

  it('is read in the units shown, with the unit or without', () => {
    expect([read('12.5'), read('12,5 km'), read(' km 12.5'), read('0')]).toEqual([12_500, 12_500, 12_500, 0])
    expect(read('10', 'imperial')).toBeCloseTo(16_093.44, 6)
    expect(read('mile 10', 'imperial')).toBeCloseTo(16_093.44, 6)
  })

  it('that rounds to the finish is the finish', () => {
    expect(read('62.03')).toBe(62_030)
    expect(read('62.07')).toBe(62_034)
    expect(read('62.2')).toBe('The route ends at km 62.0.')
  })

  it('is refused in one sentence', () => {
    expect(read('')).toBe('Write where the part begins, in km from the start, such as 12.5.')
    expect(read('the pier', 'imperial')).toBe('Write where the part begins, in mi from the start, such as 12.5.')
    expect(read('-1')).toBe('The route begins at km 0.0.')
  })
})
