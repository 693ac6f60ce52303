/**
 * What is asked of a room of the model: how many of its mutants are tried (all where it says nothing), and the fast list of tests that should
 * notice them. Of the list only the tests that pass through a mutant run, until one is red.
 */
export interface Room {
  take?: number
  tests: string[]
}

const unit = (...names: string[]) => names.map((name) => `test/unit/${name}.test.ts`)
const laws = (...names: string[]) => names.map((name) => `test/invariants/${name}.test.ts`)
const gate = ['test/reference/gate.test.ts']

export const rooms: Record<string, Room> = {
  ride: {
    tests: [
      ...unit('ride', 'ride-pieces'),
      'test/mutants/physics.test.ts',
      ...laws('truth'),
      ...unit('forecast', 'halts'),
      ...laws('violations'),
    ],
  },
  geo: { take: 60, tests: [...unit('geo-place'), 'test/reference/geodesic.test.ts'] },
  route: {
    take: 60,
    tests: [
      ...unit(
        'jumps',
        'geo-place',
        'recognise',
        'travelled',
        'files',
        'route-noise',
        'route-build',
        'route-arrange',
        'route-beside',
        'route-holes',
        'route-shapes',
        'route-bends',
        'route-reader',
      ),
      'test/reference/smoothing.test.ts',
    ],
  },
  battery: {
    take: 60,
    tests: [
      ...unit(
        'battery',
        'cable',
        'carried',
        'published-tables',
        'battery-fill-order',
        'transfer-bench',
        'battery-charge',
      ),
      'test/mutants/charging.test.ts',
      ...unit('transfer'),
    ],
  },
  plan: {
    take: 60,
    tests: unit(
      'plan',
      'edit',
      'catalogue',
      'day-plan',
      'keep-places',
      'stretches',
      'outcome-reach',
      'fields',
      'day-kit',
    ),
  },
  world: {
    take: 60,
    tests: [
      ...unit('day-zone', 'day-daylight', 'day-weather', 'day-sailings', 'day-controls', 'outcome-weather'),
      ...gate,
    ],
  },
  text: { take: 60, tests: unit('typed-tables', 'day-weather', 'day-sailings', 'miles') },
  forecast: {
    take: 60,
    tests: [
      ...unit(
        'forecast',
        'halts',
        'outcome-batteries',
        'outcome-weather',
        'outcome-reach',
        'day-rider',
        'day-plan',
        'on-foot',
      ),
      ...unit('fill-choices', 'day-kit', 'day-sheet', 'transfer-bench'),
      ...gate,
      ...laws('truth', 'violations', 'tally'),
    ],
  },
  readings: {
    take: 60,
    tests: [
      ...unit('legs', 'sheet', 'day-sheet', 'day-view', 'leg-line', 'on-foot', 'outcome-reach', 'stretches', 'terrain'),
      ...unit('day-daylight', 'day-rider', 'day-controls', 'day-weather', 'profile-labels', 'day-plan'),
      ...gate,
    ],
  },
  studies: {
    take: 60,
    tests: unit('fill-choices', 'near-walking', 'spread', 'stronger', 'day-kit', 'kit-view', 'bench-view'),
  },
  export: { take: 60, tests: unit('export-csv', 'day-kit', 'day-sheet', 'export-gpx', 'export-ics', 'miles', 'sheet') },
}
