/** Mutants that no test can notice, because the model does the same with and without them; each with the reason. */
export interface Equivalent {
  file: string
  /** What stands there, and instead. */
  from: string
  to: string
  why: string
}

export const equivalent: Equivalent[] = [
  {
    file: 'ride/air.ts',
    from: 'place >= 0',
    to: 'place > 0',
    why: 'at -60 °C the first entry of the table is what the formula gives',
  },
  {
    file: 'ride/motor.ts',
    from: 'electrical <= 0',
    to: 'electrical < 0',
    why: 'for 0 W the root gives 0 W',
  },
  {
    file: 'ride/motor.ts',
    from: 'straight >= squareUpTo',
    to: 'straight > squareUpTo',
    why: 'at the power where the laws meet both give it',
  },
  {
    file: 'ride/forces.ts',
    from: 'above < coastingFadesOver',
    to: 'above <= coastingFadesOver',
    why: 'at the end of the fade the straight line gives the 0 W beyond it (of the power; of the slope a test is red)',
  },
  {
    file: 'ride/forces.ts',
    from: 'below > 0',
    to: 'below >= 0',
    why: 'at the limit the power times 0 m/s is the 0 W above it (of the power; of the slope a test is red)',
  },
  {
    file: 'ride/forces.ts',
    from: '{ rider: 0, motor: 0, drive: 0, air: 0, resistance: 0, riderSlope: 0, motorSlope: 0, driveSlope: 0, airSlope: 0, resistanceSlope: 0, }',
    to: '{}',
    why: 'all of it is written before it is read',
  },
  {
    file: 'ride/step.ts',
    from: '{ from: 0, to: 0, least: 0, instead: 0 }',
    to: '{}',
    why: 'all of it is written before it is read',
  },
  {
    file: 'ride/step.ts',
    from: 'reached > ahead.to',
    to: 'reached >= ahead.to',
    why: 'a piece that ends on the limit meets it at its whole length, and bringing it there takes no work',
  },
  {
    file: 'ride/bends.ts',
    from: 'bend * top > accepted',
    to: 'bend * top >= accepted',
    why: 'where the bend allows the top speed its limit is the top speed',
  },
  {
    file: 'ride/bends.ts',
    from: 'limits[i]! > reachable',
    to: 'limits[i]! >= reachable',
    why: 'a limit that can just be met is set to itself; those before it were braked for already',
  },
  {
    file: 'forecast/pack-state.ts',
    from: 'given <= 0',
    to: 'given < 0',
    why: 'for 0 W the current of the law is 0 A',
  },
  {
    file: 'forecast/steps.ts',
    from: "'steps'",
    to: '""',
    why: 'a name of what is kept, which no other has',
  },
  {
    file: 'world/weather.ts',
    from: 'q < quantities',
    to: 'q <= quantities',
    why: 'what is written behind the end of an array of numbers is dropped',
  },
  {
    file: 'world/daylight.ts',
    from: 'noon === undefined',
    to: 'true',
    why: 'what is kept is worked out anew, to the same',
  },
  {
    file: 'world/daylight.ts',
    from: 'time >= between(this.fromFirst, this.fromNext, share) && time < between(this.untilFirst, this.untilNext, share)',
    to: 'false',
    why: 'the span that is kept is looked up anew, to the same',
  },
  {
    file: 'world/daylight.ts',
    from: 'anchor === at.length - 2',
    to: 'false',
    why: 'at the last station the span that is kept is looked up anew, to the same',
  },
  {
    file: 'world/daylight.ts',
    from: 'started + time',
    to: 'started - time',
    why: 'from whichever day the search begins it goes on to the one that holds',
  },
  {
    file: 'forecast/prepare.ts',
    from: "'limits'",
    to: '""',
    why: 'a name of what is kept, which no other has',
  },
  {
    file: 'route/lexer.ts',
    from: 'this.nextOwnEnd <= at',
    to: 'true',
    why: 'the same end tag is looked for again',
  },
  {
    file: 'route/lexer.ts',
    from: "{ tag: '', at: 0 }",
    to: '{}',
    why: 'an element is closed before it is told of',
  },
  {
    file: 'route/parts.ts',
    from: "text.endsWith('Z')",
    to: "text.startsWith('Z')",
    why: 'what follows reads the same time, but not as fast',
  },
  {
    file: 'route/elevation.ts',
    from: '(e[i]! - road) * Math.sign(one.rise)',
    to: '(e[i]! - road) / Math.sign(one.rise)',
    why: 'the sign is 1 or -1',
  },
  {
    file: 'route/recognise.ts',
    from: 'i - first > 1',
    to: 'i - first >= 1',
    why: 'a single point does not move',
  },
  {
    file: 'route/recognise.ts',
    from: 'longest.last - longest.first',
    to: 'longest.last + longest.first',
    why: 'a run of less than 70 % of the minutes counts as none, and a longer one is longer than all before it',
  },
  {
    file: 'route/beside.ts',
    from: 'number - 1',
    to: 'number + 1',
    why: 'shorter runs, next to each other, hold the same places',
  },
  {
    file: 'route/beside.ts',
    from: '(a, b) => a - b',
    to: '() => undefined',
    why: 'shorter runs, next to each other, hold the same places',
  },
]
