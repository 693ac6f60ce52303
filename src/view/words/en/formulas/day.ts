import { citations } from '../citations'
import type { Formulas } from './formula'

const sum = 'Nothing but a sum.'

/** Of the timetable of the day, wind, daylight, and what is taken along. */
export const dayFormulas = {
  placeArrive: { title: 'Arrive', formula: '{start} + {ridingSoFar} + {haltsSoFar}', source: sum, heading: 'clock' },
  placeLeave: { title: 'Leave', formula: '{arrive} + {stay}', source: sum, heading: 'clock' },
  placeCharge: {
    title: 'Charge on arrival',
    formula: '({leftAtStart} − {takenSoFar} + {chargedSoFar}) / {full}',
    source: 'As for the charge at the finish.',
    heading: 'packs',
  },
  placeLeast: {
    title: 'Least charge',
    formula: 'reserve + what is taken from here to the finish − what is charged on the way, never below the reserve',
    source: 'The same forecast, read backwards from the finish.',
    heading: 'easeOff',
  },
  placeBand: {
    title: 'Charge on eight days of ten',
    formula: 'one day in ten is below, one above: of all days that were ridden',
    source: 'As for “How sure”.',
    heading: 'sure',
  },
  placeMargin: {
    title: 'To spare',
    formula: '{latest} − {arrive}',
    source: 'Your controls and timetables.',
    heading: 'timetables',
  },
  placeChance: { title: 'In time', formula: '{held} / {days}', source: 'As for “How sure”.', heading: 'sure' },
  placeOnward: { title: 'To the next place', formula: '{to} − {from}', source: 'Your file.', heading: 'distance' },
  windAgainst: {
    title: 'Wind against you',
    formula: 'wind × cosine of the angle between wind and road, mean over the leg',
    source: 'Your weather.',
    heading: 'weather',
  },
  sun: {
    title: 'Sunrise and sunset',
    formula: 'the sun’s middle stands 0.833° below the horizon; twilight ends at 6° below',
    source: 'Meeus, Astronomical Algorithms.',
    heading: 'daylight',
  },
  inDark: {
    title: 'In twilight or dark',
    formula: '{dark} / {length}',
    source: 'The sun, hour by hour.',
    heading: 'daylight',
  },
  lamps: { title: 'Lamps', formula: '{lampPower} × {darkTime}', source: 'The lamp’s label.', heading: 'daylight' },
  kitMass: { title: 'Mass', formula: '{one} × {count}', source: 'Your scale.', heading: 'kit' },
  kitTime: {
    title: 'Riding time it costs',
    formula: '{with} − {without}',
    source: 'Two whole forecasts, one with it and one without.',
    heading: 'kit',
  },
  kitEnergy: {
    title: 'Charge it costs',
    formula: '{with} − {without}',
    source: 'Two whole forecasts, one with it and one without.',
    heading: 'kit',
  },
  turnover: {
    title: 'What the body burns',
    formula: '{work} / {efficiency}',
    source: `${citations.moseley}.`,
    heading: 'body',
  },
} as const satisfies Formulas
