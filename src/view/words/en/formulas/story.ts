import { citations } from '../citations'
import type { Formulas } from './formula'

const sum = 'Nothing but a sum.'

/** Of the story, and of what the day, the kit list and the comparison say of a whole forecast. */
export const storyFormulas = {
  finish: {
    title: 'Finish',
    formula: '{start} + {riding} + {smallHalts} + {stopped} + {crossing}',
    source: sum,
    heading: 'clock',
  },
  elapsed: {
    title: 'From start to finish',
    formula: '{riding} + {smallHalts} + {stopped} + {crossing}',
    source: sum,
    heading: 'clock',
  },
  day: {
    title: 'Whole day',
    formula: '{riding} + {smallHalts} + {stopped} + {crossing} + {atFinish}',
    source: sum,
    heading: 'clock',
  },
  riding: {
    title: 'Riding',
    formula: 'length / speed of each step, all added up; the speed follows from all forces on the bike',
    source: `${citations.martin}.`,
    heading: 'motion',
  },
  smallHalts: {
    title: 'Small halts',
    formula: '{length} × {eachHundred}',
    source: 'As you stated it.',
    heading: 'clock',
  },
  standing: { title: 'Stops and halts', formula: '{stopped} + {smallHalts}', source: sum, heading: 'clock' },
  stopped: {
    title: 'Stops',
    formula: 'leaving − arriving of each stop, all added up',
    adds: true,
    source: sum,
    heading: 'clock',
  },
  crossing: {
    title: 'Crossing',
    formula: 'riding on − arriving of each crossing, all added up; waiting is in it',
    adds: true,
    source: 'Your timetables.',
    heading: 'crossings',
  },
  packs: {
    title: 'From the packs',
    formula: '{motorWork} + {motorLoss} + {electronics} + {packLoss}',
    source: 'Losses of the motor: fitted to one that was measured; of the packs: I²R by published resistances.',
    heading: 'motor',
  },
  drain: { title: 'Drain', formula: '{taken} / {length}', source: 'Nothing but a quotient.', heading: 'motor' },
  goal: { title: 'To your goal', formula: '{goal} − {wholeDay}', source: 'Your goal.', heading: 'clock' },
  ridingGoal: { title: 'Riding, to your goal', formula: '{goal} − {riding}', source: 'Your goal.', heading: 'clock' },
  charge: {
    title: 'Charge at the finish',
    formula: '({leftAtStart} − {taken} + {charged}) / {full}',
    source: 'Voltages and resistances of cells by published tables; charge is counted in ampere-hours.',
    heading: 'packs',
  },
  least: {
    title: 'Least charge at the start',
    formula: 'reserve + what is taken from here to the finish − what is charged on the way, never below the reserve',
    source: 'The same forecast, read backwards from the finish.',
    heading: 'easeOff',
  },
  margin: {
    title: 'The least time to spare',
    formula: 'the least of all: closing, or the time to be there, − arriving',
    source: 'Your controls and timetables.',
    heading: 'clock',
  },
  work: {
    title: 'Work of your own',
    formula: '{meanPower} × {riding}',
    source: `Power falls with the work done: ${citations.clark}.`,
    heading: 'body',
  },
  mass: {
    title: 'What is ridden',
    formula: '{rider} + {bike} + {packs} + {luggage} + {kit} + {sources}',
    source: 'Your scale.',
    heading: 'kit',
  },
} as const satisfies Formulas
