import type { Names } from '../../../model/plan/names'
import type { Identified, PlanFault } from '../../../model/plan/check'
import type { Format } from '../../format'
import { worded } from '../worded'

const identified: Record<Identified, string> = {
  packs: 'packs',
  sources: 'charge sources',
  stops: 'stops',
  controls: 'controls',
  stretches: 'stretches',
  kit: 'things of the kit',
}

/** Why a document is not taken as a plan. */
export const plan = worded<PlanFault>({
  noJson: () => 'This plan file is not JSON, so it was not opened.',
  noPlan: () => 'This file is not a Wattfare plan: its “format” is missing.',
  noVersion: () => 'This plan’s “version” is not a whole number from 1, so it was not opened.',
  newer: ({ version, known }) =>
    `This plan is of version ${version}, newer than this program, which knows version ${known}.`,
  noDocument: () => 'This file is not a Wattfare plan.',
  unknownField: ({ path }) => `The plan’s “${path}” is not right: no plan has it.`,
  missingField: ({ path }) => `The plan’s “${path}” is not right: it is missing.`,
  badForm: ({ path, received }) => `The plan’s “${path}” is not right: ${received} is not of its form.`,
  outOfBounds: ({ path, bound, limit, received }) =>
    `The plan’s “${path}” is not right: ${received}, but ${limit} is the ${bound}.`,
  badField: ({ path, expected, received }) => `The plan’s “${path}” is not right: ${received} in place of ${expected}.`,
  sameId: ({ of, id }) => `Two ${identified[of]} of the plan have the same id “${id}”.`,
  noSource: ({ stop }) => `The stop “${stop}” uses a charge source that the plan does not have.`,
  noSourceOfCrossing: () => 'A crossing uses a charge source that the plan does not have.',
  stretchOrder: ({ id }) => `The stretch “${id}” of the plan ends before it begins.`,
  stretchesOverlap: ({ ids }) => `The stretches “${ids[0]}” and “${ids[1]}” of the plan overlap.`,
  noZone: ({ zone }) => `“${zone}” is no time zone that the clock knows.`,
  noDate: ({ start }) => `The start “${start}” is not a date of the calendar.`,
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
