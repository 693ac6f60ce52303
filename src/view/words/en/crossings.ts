import type { Timetable } from '../../../model/plan/day-schema'
import type { ProposedPart } from '../../../model/route/recognise'
import { distanceUnit, inDistance, inSpeed, speedUnit, type Format } from '../../format'
import { times } from './times'

/** Of the route's crossings, as the sheet lists them. */
export const crossingsIn = ({ distance, duration, number, place, units }: Format) => ({
  label: 'Crossings of the route',
  proposed: 'Proposed crossings',
  take: 'Take as a crossing',
  taken: 'The part is a crossing now; Undo makes it ridden again.',
  partRidden: 'This part was ridden',
  riddenAgain: 'The part is ridden again; Undo takes that back.',
  gapRidden: 'This gap was ridden',

  leftOut: {
    start: (length: number) => `The first ${distance(length)} of the track are left out: the ride begins after them.`,
    end: (length: number) => `The last ${distance(length)} of the track are left out: the ride ends before them.`,
  },
  marked: (at: number, length: number, recordedTime: number | undefined) =>
    `${place(at)}: a marked part of ${distance(length)}${recordedTime === undefined ? '' : `, ${duration(recordedTime)} in the recording`}.`,
  /** @param from ridden distance, m */
  looksLike: ({ kind, halt, speed: v, time }: ProposedPart, from: number, to: number): string => {
    const speed = `${number(inSpeed(v, units))} ${speedUnit(units)}`
    const how =
      kind === 'level'
        ? `at a steady ${speed} on level water after a halt of ${duration(halt)}`
        : `at ${speed}, faster than a rider can go there`
    return `${place(from)} to ${number(inDistance(to, units), 1)} looks like a crossing: ${duration(time)} ${how}.`
  },

  mark: {
    title: 'Mark a part of the route',
    about: 'A part that you travel by ferry or train is not counted as ridden.',
    fields: { begins: 'Begins at', ends: 'Ends at' },
    notPlace: {
      begins: `Write where the part begins, in ${distanceUnit(units)} from the start, such as 12.5.`,
      ends: `Write where the part ends, in ${distanceUnit(units)} from the start, such as 12.5.`,
    },
    before: `The route begins at ${place(0)}.`,
    beyond: (length: number) => `The route ends at ${place(length)}.`,
  },

  /** @param there when the rider comes */
  there: (there: string) => `You are there at ${there}.`,
  rideOn: (there: string, across: string) => `You are there at ${there} and ride on at ${across}.`,
  /** @param gone the sailing before it, missed by so much, s */
  justMissed: (there: string, gone: string, late: number, depart: string, across: string, wait: number) =>
    `You are there at ${there}, miss the ${gone} by ${times.shortBy(late)} and catch the ${depart}: ${duration(wait)} to wait. You ride on at ${across}.`,
  caught: (there: string, depart: string, across: string, wait: number, margin: number) =>
    `You are there at ${there} and catch the ${depart}: ${duration(wait)} to wait, ${times.spare(margin)} to spare. You ride on at ${across}.`,

  source: 'Charge',
  nothingOnBoard: 'Nothing on board',

  timetable: {
    label: 'Timetable',
    kinds: {
      duration: 'Takes a time',
      list: 'Leaves at listed times',
      every: 'Leaves every so often',
    } satisfies Record<Timetable['kind'], string>,
    times: 'Leaves at',
    aboutTimes: 'All sailings of a day, as the line’s timetable has them.',
    timesForm: 'such as 07:00 09:30 12:00',
    every: 'Leaves',
    aboutEvery: 'How often, and the first and last of a day, as the line’s timetable has them.',
    everyForm: 'such as every 60 min, 07:15 to 21:15',
    everyWritten: (interval: number, from: string, until: string) =>
      `every ${number(interval / 60)} min, ${from} to ${until}`,
    notEvery: 'Write how often and from when to when, such as every 60 min, 07:15 to 21:15.',
    everyOutside: (least: number, most: number) => `It must be every ${duration(least)} to ${duration(most)}.`,
    untilThen: 'Until sailings are typed, it counts as before.',
    from: 'From',
    until: 'Until',
    days: 'Days on which it sails',
  },
})
