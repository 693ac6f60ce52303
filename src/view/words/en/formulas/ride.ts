import type { Formulas } from './formula'

const file = 'Your file.'
const same = 'The forecast, step by step.'

/** Of the legs, and of where the energy goes. */
export const rideFormulas = {
  legLength: { title: 'Length', formula: '{to} − {from}', source: file, heading: 'distance' },
  legAscent: {
    title: 'Ascent',
    formula: 'all rises of the smoothed line, added up',
    source: file,
    heading: 'elevation',
  },
  legDescent: {
    title: 'Descent',
    formula: '{ascent} − {heightTo} + {heightFrom}',
    source: file,
    heading: 'elevation',
  },
  legMean: {
    title: 'Mean gradient',
    formula: '({heightTo} − {heightFrom}) / {length}',
    source: file,
    heading: 'elevation',
  },
  legSteepest: {
    title: 'Steepest gradient',
    formula: 'rise / length of the steepest 100 m',
    source: file,
    heading: 'elevation',
  },
  legRiding: {
    title: 'Riding',
    formula: 'length / speed of each step, all added up',
    source: same,
    heading: 'motion',
  },
  legSpeed: { title: 'Speed', formula: '{length} / {riding}', source: same, heading: 'motion' },
  legRider: { title: 'Your work', formula: '{meanPower} × {riding}', source: same, heading: 'fade' },
  legMotor: { title: 'Motor’s work', formula: '{meanMotor} × {riding}', source: same, heading: 'motor' },
  legBattery: {
    title: 'From the packs',
    formula: '{motorWork} + {losses}',
    source: 'As in the story.',
    heading: 'motor',
  },
  legDrain: { title: 'Drain', formula: '{taken} / {length}', source: 'Nothing but a quotient.', heading: 'motor' },
  legCharge: {
    title: 'Charge at its end',
    formula: '({leftSetOff} − {taken}) / {full}',
    source: 'As for the charge at the finish.',
    heading: 'packs',
  },
  legArrive: {
    title: 'Arrive',
    formula: '{setOff} + {riding} + {halts}',
    source: 'Nothing but a sum.',
    heading: 'clock',
  },
  legAhead: {
    title: 'Head wind',
    formula: '{ahead} / {length}',
    source: 'Head wind comes from within 60° of ahead: a choice.',
    heading: 'weather',
  },
  legBehind: {
    title: 'Tail wind',
    formula: '{behind} / {length}',
    source: 'Tail wind comes from within 60° of behind: a choice.',
    heading: 'weather',
  },
  share: { title: 'Share of it', formula: '{part} / {all}', source: 'The books of the forecast.', heading: 'motion' },
  torque: {
    title: 'Torque, mean over a turn',
    formula: '{power} / {turning}',
    source: 'Mechanics.',
    heading: 'torque',
  },
  force: { title: 'Force on the pedal', formula: '{torque} / {crank}', source: 'Mechanics.', heading: 'torque' },
} as const satisfies Formulas
