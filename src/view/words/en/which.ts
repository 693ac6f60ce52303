import type { Arrangement, Question, Ride } from '../../../model/route/arrange'
import type { Format } from '../../format'

/** Asks which ride of a file is meant. */
export const whichIn = ({ distance, number }: Format) => ({
  /** Asks which of several rides is meant. */
  which: ({ question, rides, all, proposed }: Arrangement) => {
    const shown = proposed === all ? 'shown are all as one, with crossings between' : 'shown is the longest'
    const what: Record<Question, string> = {
      days: `The file holds ${number(rides.length)} rides of different days`,
      variants: `The file holds ${number(rides.length)} rides that are choices, not one after the other`,
      apart: `The file holds ${number(rides.length)} rides that lie apart, with ${distance(all.between)} between them`,
      long: `The ${number(rides.length)} parts of the file are ${distance(all.length, 0)} together, more than a day’s ride`,
    }
    return question === undefined ? '' : `${what[question]}; ${shown}. Which do you plan?`
  },
  /** All rides of a file as one. */
  asOne: 'All as one ride',
  /** When a ride was recorded: first and last day, ISO 8601. */
  days: (from: string, to: string) => (from === to ? from : `${from} to ${to}`),
  /** Of a file with more rides than are shown. */
  moreRides: (count: number) => `${number(count)} more stand in the plan, under Route.`,
  /** What lies between the lines of a ride; empty where they meet. */
  between: ({ between }: Ride) => (between < 300 ? '' : `${distance(between)} between them`),
})
