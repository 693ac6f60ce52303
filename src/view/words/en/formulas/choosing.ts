import { citations } from '../citations'
import type { Formulas } from './formula'

const asked = 'Whole days, ridden: the best against your plan.'

/** Of comparing plans, of choices, of how sure a day is, and of what rides told. */
export const choosingFormulas = {
  packsHold: {
    title: 'Packs',
    formula: 'what each holds when new × its health, all added up',
    adds: true,
    source: 'Your packs.',
    heading: 'packs',
  },
  lowest: {
    title: 'Least charge',
    formula: '{leftThere} / {full}',
    source: 'The whole day, ridden so.',
    heading: 'packs',
  },
  causes: {
    title: 'The difference, by cause',
    formula: 'what each group changes, as the mean over all orders of changing them; all added up',
    adds: true,
    source: `${citations.shapley}.`,
    heading: 'causes',
  },
  gain: { title: 'Sooner', formula: '{before} − {with}', source: asked, heading: 'bestAssist' },
  gainRiding: { title: 'Less riding', formula: '{before} − {with}', source: asked, heading: 'bestAssist' },
  gainLeft: { title: 'More left at the finish', formula: '{with} − {before}', source: asked, heading: 'bestAssist' },
  gainWork: { title: 'Less work of yours', formula: '{before} − {with}', source: asked, heading: 'bestAssist' },
  bound: {
    title: 'How far from the best',
    formula: '({best} − {least}) / {best}',
    source: `No choice of ratios over these stretches can ride less than the least: ${citations.everett}.`,
    heading: 'bestAssist',
  },
  price: {
    title: 'What a watt-hour saves',
    formula: 'seconds saved / watt-hours spent where the last one goes: at the best the same everywhere',
    source: `${citations.fox}.`,
    heading: 'bestAssist',
  },
  sure: {
    title: 'How sure',
    formula: '{held} / {days}',
    source: `Days as they may come, drawn evenly: ${citations.sobol}.`,
    heading: 'sure',
  },
  chance: {
    title: 'How sure',
    formula: '{held} / {days}',
    source: 'The plan, ridden on days as they may come.',
    heading: 'sure',
  },
  loadOutMass: {
    title: 'Mass',
    formula: 'as of what is ridden, with these packs',
    source: 'Your scale.',
    heading: 'loadOuts',
  },
  loadOutLeast: {
    title: 'Charge at least',
    formula: 'the least charge on arrival anywhere / all packs when full',
    source: 'The whole day, ridden so.',
    heading: 'loadOuts',
  },
  latestStart: {
    title: 'Start by',
    formula: 'the last start, by the minute, that is there in time; each start is a whole day, ridden',
    source: 'Your timetables and controls.',
    heading: 'latestStart',
  },
  driver: {
    title: 'Share of what differs',
    formula:
      'by how much less days would differ if this figure were known, as the mean over all orders of learning them',
    source: `Shapley effects: ${citations.effects}.`,
    heading: 'beliefs',
  },
  restChance: {
    title: 'How sure from here',
    formula: 'days on which it lasts / all days, each counted by how well it fits what you read',
    source: `${citations.doucet}.`,
    heading: 'onTheRoad',
  },
  learnt: {
    title: 'What rides told',
    formula:
      'the figures with which the forecast meets the ridden times and charge best, held to what was believed before',
    source: 'The most likely values, and their spans, after the rides.',
    heading: 'learnt',
  },
  ownTest: {
    title: 'Foretold, from the first part',
    formula: '{foretold} − {ridden}',
    source: 'The ride itself.',
    heading: 'learnt',
  },
  plainGuess: {
    title: 'By the mean speed',
    formula: '{foretold} − {ridden}',
    source: 'The ride itself.',
    heading: 'learnt',
  },
  against: {
    title: 'Difference',
    formula: '{now} − {then}',
    source: 'The recording, and this plan’s forecast.',
    heading: 'learnt',
  },
  training: {
    title: 'What training is worth',
    formula: 'the day as it is − the day with the change, on each of 64 possible days; the middle, and 8 of 10',
    source: 'Whole days, ridden.',
    heading: 'sure',
  },
} as const satisfies Formulas
