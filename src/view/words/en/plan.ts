import type { Names } from '../../../model/plan/names'
import type { Identified, PlanFault } from '../../../model/plan/check'
import type { Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'

const identified: Record<Identified, string> = {
  packs: 'packs',
  sources: 'charge sources',
  stops: 'stops',
  controls: 'controls',
  stretches: 'stretches',
  kit: 'things of the kit',
}

/** What stands for a value in a plan's fault that is more than one number or text. */
const kinds: Record<string, string> = {
  number: 'a number',
  string: 'a text',
  boolean: 'true or false',
  Array: 'a list',
  Object: 'a group of fields',
}
const received = (value: string) => kinds[value] ?? cut(value)
const mostNamed = 5
/** @param value a kind, or `("this" | "that")` */
function expected(value: string): string {
  const options = value.replace(/^\(|\)$/g, '').split(' | ')
  if (options.length > mostNamed) return `${options.slice(0, 2).join(', ')} or another of ${options.length}`
  return kinds[value] ?? options.join(' or ')
}

/** Why a document is not taken as a plan. */
export const plan = worded<PlanFault>({
  tooLarge: ({ most }) =>
    `This file holds more than ${most / 1e6} million characters, far more than any plan, so it was not opened.`,
  tooDeep: () => 'This file is nested more deeply than any plan, so it was not opened.',
  tooMany: ({ most }) =>
    `This file holds more than ${most / 1e3} thousand values, more than any plan, so it was not opened.`,
  noJson: () => 'This plan file is not JSON, so it was not opened.',
  noPlan: () => 'This file is not a Wattfare plan: its “format” is missing.',
  noVersion: () => 'This plan’s “version” is not a whole number from 1, so it was not opened.',
  newer: ({ version, known }) =>
    `This plan is of version ${version}, newer than this program, which knows version ${known}.`,
  noDocument: () => 'This file is not a Wattfare plan.',
  missingField: ({ path }) => `The plan’s “${path}” is not right: it is missing.`,
  badForm: ({ path, received: value }) => `The plan’s “${path}” is not right: ${received(value)} is not of its form.`,
  outOfBounds: ({ path, bound, limit, received: value }) =>
    `The plan’s “${path}” is not right: ${value}, but ${limit} is the ${bound}.`,
  badField: ({ path, expected: form, received: value }) =>
    `The plan’s “${path}” is not right: ${received(value)} in place of ${expected(form)}.`,
  sameId: ({ of, id }) => `Two ${identified[of]} of the plan have the same id “${id}”.`,
  noSource: ({ stop }) => `The stop “${stop}” uses a charge source that the plan does not have.`,
  noSourceOfCrossing: () => 'A crossing uses a charge source that the plan does not have.',
  stretchOrder: ({ id }) => `The stretch “${id}” of the plan ends before it begins.`,
  stretchesOverlap: ({ ids }) => `The stretches “${ids[0]}” and “${ids[1]}” of the plan overlap.`,
  noZone: ({ zone }) => `“${zone}” is no time zone that the clock knows.`,
  noDate: ({ start }) => `The start “${start}” is not a date of the calendar.`,
  noHour: ({ place, time }) => `The weather at “${cut(place)}” has an hour at “${time}”, which is not on the calendar.`,
  hourTwice: ({ place, time }) => `The weather at “${cut(place)}” has the hour “${time}” twice.`,
})

/** What things of a plan are called until the rider names them. */
export const namesIn = ({ number, place }: Format) =>
  ({
    pack: (number) => `Pack ${number}`,
    source: {
      mains: (number) => `Charger ${number}`,
      carried: (number) => `Carried pack ${number}`,
      swap: () => 'Swap the pack',
    },
    firstCharger: (current) => `Charger ${number(current)} A`,
    stop: (number) => `Stop ${number}`,
    control: (number) => `Control ${number}`,
    weatherStart: 'Start',
    weatherPlace: (number) => `Place ${number}`,
    weatherAt: (distance) => place(distance, distance % 1000 === 0 ? 0 : 1),
    thing: 'Thing',
  }) satisfies Names
