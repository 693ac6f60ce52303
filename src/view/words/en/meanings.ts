import type { Heading } from '../../docs/places'
import type { TermName } from './terms'

/** What a term means, in a sentence, and where the documentation says more. */
export const meanings: Record<TermName, { title: string; meaning: string; heading: Heading }> = {
  drain: {
    title: 'Drain',
    meaning: 'The energy taken from the packs for each kilometre or mile of the way.',
    heading: 'motor',
  },
  reserve: {
    title: 'Reserve',
    meaning: 'The charge that you refuse to go below before the finish. You set it with the batteries.',
    heading: 'easeOff',
  },
  reach: {
    title: 'Reach',
    meaning: 'How far the charge lasts from a place, until only your reserve is left.',
    heading: 'easeOff',
  },
  torque: {
    title: 'Torque',
    meaning: 'How hard something is turned: the force times the length of the arm that it pulls on.',
    heading: 'torque',
  },
  cadence: { title: 'Cadence', meaning: 'Turns of the pedals in a minute.', heading: 'torque' },
  criticalPower: {
    title: 'Critical power',
    meaning: 'The power that you could hold for about an hour.',
    heading: 'body',
  },
  wPrime: {
    title: 'W′',
    meaning: 'The work that you can do above critical power before you have to ease off; below it, it comes back.',
    heading: 'body',
  },
  twilight: {
    title: 'Civil twilight',
    meaning: 'Before sunrise and after sunset, until the sun stands 6° below the horizon. Then it is dark.',
    heading: 'daylight',
  },
  inSeries: {
    title: 'In series',
    meaning: 'One behind the other, plus to minus: their voltages add up.',
    heading: 'blocks',
  },
  inParallel: {
    title: 'In parallel',
    meaning: 'Side by side, plus to plus: their capacities and currents add up.',
    heading: 'blocks',
  },
  constantVoltage: {
    title: 'Constant voltage',
    meaning: 'The last part of a charge: the voltage is held, and the current falls until the pack is full.',
    heading: 'current',
  },
  converter: {
    title: 'Converter',
    meaning: 'A box that turns the voltage of one pack into the voltage that another is charged with.',
    heading: 'current',
  },
  polarity: {
    title: 'Polarity',
    meaning: 'Which of two wires is plus and which is minus.',
    heading: 'chargingSources',
  },
  milliohm: {
    title: 'mΩ',
    meaning: 'A thousandth of an ohm: how much a lead resists the current.',
    heading: 'chargingSources',
  },
  lfp: {
    title: 'LFP',
    meaning: 'Lithium cells of iron and phosphate: 3.2 V each, heavier, and sturdy.',
    heading: 'packs',
  },
  nmc: {
    title: 'NMC',
    meaning: 'Lithium cells of nickel, manganese and cobalt: 3.6 V each, in most packs of bikes.',
    heading: 'packs',
  },
  drag: {
    title: 'Air drag',
    meaning: 'How much the air holds back rider, bike and bags: frontal area times how badly they part the air (CdA).',
    heading: 'air',
  },
  rollingResistance: {
    title: 'Rolling resistance',
    meaning: 'How much the tyres hold back: a share of the weight on them (Crr).',
    heading: 'rolling',
  },
  fade: { title: 'Fade', meaning: 'How your power falls with the work that you have done.', heading: 'fade' },
  ratio: {
    title: 'Assist ratio',
    meaning: 'Motor power for each watt of yours: at 100 % the motor gives as much as you do.',
    heading: 'motor',
  },
  bound: {
    title: 'A bound',
    meaning: 'A figure that nothing can beat: it shows how much could still be gained at most.',
    heading: 'bestAssist',
  },
  likeTerrain: {
    title: 'Stretches of like terrain',
    meaning: 'Parts of the route, 100 m to 2 km long, that climb, fall or lie in the wind alike.',
    heading: 'bestAssist',
  },
  standardError: {
    title: 'Standard error',
    meaning: 'How far a figure may be off because only so many days were ridden; twice as far is rare.',
    heading: 'sure',
  },
}
