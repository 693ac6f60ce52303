import { distanceUnit, drainUnit, heightUnit, speedUnit, type Format } from '../../format'

/** Of the table of legs. */
export const legsIn = ({ number, units }: Format) => ({
  title: 'Legs',
  fewer: 'Fewer columns',
  all: 'All columns',
  save: 'Save the legs as CSV',
  fileName: (route: string) => `${route} legs.csv`,
  table: 'Leg table',
  caption: (route: string) => `Legs of ${route}, with energy, charge and times. The heads of the columns sort it.`,
  leg: 'Leg',
  /** @param drain of the leg */
  why: (leg: number, drain: string) => `${drain}, why: leg ${leg}`,
  show: (leg: number) => `Leg ${leg}, show on the map`,
  totals: 'All',
  wholeRoute: 'Whole route',
  shown: (rows: number, legs: number) => `${number(rows)} of ${number(legs)} legs are shown; the CSV file has all.`,
  more: (legs: number) => `Show ${number(legs)} more`,

  split: 'Split',
  splits: { length: 'By length', terrain: 'By terrain' },

  /** Heads with their units. */
  columns: {
    from: ['From', ''],
    to: ['To', ''],
    length: ['Length', distanceUnit(units)],
    ascent: ['Ascent', heightUnit(units)],
    descent: ['Descent', heightUnit(units)],
    mean: ['Mean', 'gradient, %'],
    steepest: ['Steepest', 'gradient, %'],
    riding: ['Riding', 'h:min'],
    speed: ['Speed', speedUnit(units)],
    rider: ['Rider', 'kJ'],
    motor: ['Motor', 'kJ'],
    battery: ['Packs', 'Wh'],
    drain: ['Drain', drainUnit(units)],
    charge: ['Charge', '%'],
    arrive: ['Arrive', ''],
    depart: ['Depart', ''],
    wind: ['Head, tail', '% wind'],
    note: ['Note', ''],
  } satisfies Record<string, readonly [label: string, unit: string]>,
  /** Shares of the usable charge, without the unit. */
  charge: (from: number, to: number) => `${number(100 * from)} to ${number(100 * to)}`,
})
