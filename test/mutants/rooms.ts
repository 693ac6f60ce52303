/**
 * What is asked of a room of the model: how many of its mutants are tried (all where it says nothing), and the tests that should notice them: a list
 * that loads fast, then for what it left another. Of a list only the tests that pass through a mutant run, until one is red.
 */
export interface Room {
  take?: number
  tests: string[][]
}

const unit = (...names: string[]) => names.map((name) => `test/unit/${name}.test.ts`)
const laws = (...names: string[]) => names.map((name) => `test/invariants/${name}.test.ts`)
const gate = 'test/reference/gate.test.ts'

export const rooms: Record<string, Room> = {
  ride: {
    tests: [
      unit('ride-pieces', 'ride'),
      ['test/mutants/physics.test.ts', ...laws('truth'), ...unit('forecast', 'halts'), ...laws('violations')],
    ],
  },
  geo: { take: 60, tests: [[...unit('geo-place'), 'test/reference/geodesic.test.ts']] },
  route: {
    take: 60,
    tests: [
      [
        ...unit('route-elevation', 'route-recognise', 'route-times', 'route-points', 'route-gaps', 'route-notes'),
        ...unit('route-gpx', 'route-kml', 'route-lexer', 'route-parts', 'route-choice', 'geo-place', 'jumps'),
        ...unit('route-arrange', 'route-beside', 'route-holes', 'route-noise', 'route-stations', 'route-fill'),
      ],
      unit(
        'route-smoothing',
        'recognise',
        'travelled',
        'crossing-words',
        'ground',
        'route-build',
        'route-read',
        'files',
        'route-bends',
      ),
    ],
  },
  battery: {
    take: 60,
    tests: [
      unit('battery', 'cable', 'carried', 'battery-fill-order', 'transfer-bench'),
      [...unit('battery-charge', 'published-tables'), 'test/mutants/charging.test.ts', ...unit('transfer')],
    ],
  },
  plan: {
    take: 60,
    tests: [
      unit('plan', 'catalogue', 'keep-places', 'stretches', 'day-plan'),
      unit('edit', 'fields', 'outcome-reach', 'day-kit'),
    ],
  },
  world: {
    take: 60,
    tests: [
      unit('weather-along', 'day-zone', 'day-sailings', 'day-controls', 'day-weather'),
      [...unit('day-daylight'), gate],
    ],
  },
  text: { take: 60, tests: [unit('typed-tables', 'day-weather', 'day-sailings')] },
  forecast: {
    take: 60,
    tests: [
      unit('conditions', 'pack-state', 'halts-noted', 'forecast', 'halts', 'battery', 'outcome-batteries'),
      [
        ...unit('outcome-weather', 'outcome-reach', 'on-foot', 'fill-choices', 'day-sheet', 'day-kit', 'stretches'),
        'test/mutants/physics.test.ts',
        ...laws('tally', 'cut', 'violations'),
      ],
    ],
  },
  readings: {
    take: 60,
    tests: [
      unit('readings', 'legs', 'terrain', 'day-rider', 'day-controls', 'stretches', 'on-foot', 'profile-labels'),
      [
        ...unit(
          'outcome-reach',
          'day-sheet',
          'sheet',
          'day-plan',
          'day-weather',
          'day-daylight',
          'day-view',
          'leg-line',
          'miles',
          'published-tables',
          'export-csv',
        ),
        gate,
      ],
    ],
  },
  studies: {
    take: 60,
    tests: [
      unit('fill-choices', 'near-walking', 'spread', 'stronger', 'rest-of-day', 'bench-view'),
      unit('day-kit', 'kit-view'),
    ],
  },
  export: { take: 60, tests: [unit('export-csv', 'export-gpx', 'export-ics', 'day-kit', 'day-sheet', 'miles')] },
}
