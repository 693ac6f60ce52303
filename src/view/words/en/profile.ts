import { inSpeed, speedUnit, type Format } from '../../format'

/** Of the profile. */
export const profileIn = ({ distance, height, number, percent, place, units }: Format) => ({
  label: 'Profile',
  hint: 'Click or tap the profile to pin a stop, then drag its pin.',
  slider: 'Place on the route',
  speed: 'Speed',
  pin: 'Pin a stop',
  pinAt: (at: number) => `Pin a stop at ${place(at)}`,
  stop: 'Stop',

  /** Beside the lines of the drawing. */
  lines: {
    reserveReached: (at: number) => `reserve reached, ${place(at)}`,
    motorStops: (at: number) => `motor stops, ${place(at)}`,
    reserve: (share: number) => `reserve ${percent(share)}`,
    charge: 'charge',
    speed: (top: number) => `speed, 0 to ${number(inSpeed(top, units))} ${speedUnit(units)}`,
    missed: (control: string) => `${control} missed`,
    elevation: 'elevation',
    noElevation: 'no elevation in the file: flat ground assumed',
    crossing: 'crossing',
  },

  /** What a screen reader says of a place. @param elevation m; undefined where the file has none */
  place: (at: number, elevation: number | undefined, charge: number) =>
    [
      place(at),
      ...(elevation === undefined ? [] : [`elevation ${height(elevation)}`]),
      `charge ${percent(charge)}`,
    ].join(', '),

  /** `49 to 61 %`. */
  chargesInShort: (arrive: number, leave: number) => `${number(100 * arrive)} to ${number(100 * leave)} %`,

  /** What a screen reader says of a stop's pin. */
  charges: (at: number, arrive: number, leave: number) =>
    `${place(at)}, arrives with ${percent(arrive)}, leaves with ${percent(leave)}`,

  /** The profile in one sentence. @param ascent m; undefined where the file has none */
  sentence: (length: number, ascent: number | undefined, lowest: { charge: number; at: number }) => {
    const ground =
      ascent === undefined ? 'no elevation in the file, flat ground assumed' : `${height(ascent)} of ascent`
    return `${distance(length)}, ${ground}; the charge is lowest, ${percent(lowest.charge)}, at ${place(lowest.at)}.`
  },

  /** Of a plan that others are measured against. */
  holding: {
    hold: 'Hold this plan',
    about: 'Small figures: against the held plan, whose charge is the thin line.',
    noRoom: 'This plan is too large to be held beside the day.',
  },
})
