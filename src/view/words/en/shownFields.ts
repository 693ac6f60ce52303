import type { FieldWords } from '../fields'

/** Of a number that the rider chooses, and of a place. */
export const choice = { source: 'A choice.' }
export const draggedPlace = 'Ridden distance from the start. It can be dragged on the map and the profile too.'

export type ShownFields = Pick<FieldWords, 'stop' | 'legs'>

/** Numbers of the plan's catalogue whose fields the first view shows. */
export const shownFields: ShownFields = {
  stop: {
    duration: {
      label: 'Stay for',
      meaning: 'From arrival to departure.',
      source: 'A choice.',
      belief: 'Judgement: a stop lasts longer than meant more often than not.',
    },
    chargeTo: {
      label: 'Charge up to',
      meaning: 'Charge of all packs together at which you leave.',
      source: 'A choice; the last tenth charges slowest.',
    },
  },
  legs: {
    length: {
      label: 'Leg length',
      meaning: 'Legs are cut at multiples of this length, and at every stop.',
      source: 'A choice.',
    },
  },
}
