import type { Outcome } from '../../../model/forecast/outcome'
import type { Margin } from '../../../model/readings/reach'
import type { Format } from '../../format'
import { times } from './times'

/** Of the answer, and of what becomes of the energy. */
export const answerIn = ({ distance, duration, energy, height, measure, percent, place }: Format) => ({
  label: 'The answer',
  facts: {
    finish: 'Finish',
    goal: 'To your goal',
    ridingGoal: 'Riding, to your goal',
    riding: 'Riding',
    standing: 'Stops and halts',
    crossing: 'Crossing',
    day: 'Whole day',
    packs: 'From the packs',
  },

  /** What fails by the clock. @param late s */
  goalMissed: (goal: number, late: number) => `You miss your goal of ${duration(goal)} by ${times.shortBy(late)}.`,
  ridingGoalMissed: (goal: number, late: number) =>
    `You miss your goal of ${duration(goal)} of riding by ${times.shortBy(late)}.`,
  controlMissed: (name: string, late: number) =>
    `You miss ${/^control\b/i.test(name) ? '' : 'the control '}${name} by ${times.shortBy(late)}.`,
  missed: (name: string, late: number) => `${name} missed by ${times.shortBy(late)}`,
  goal: 'Goal',

  /**
   * Does the charge last, with what margin, or how short and where.
   *
   * @param left at the finish, J
   */
  charge: ({ verdict, margin, emptyAt, reserveAt }: Margin, left: number, outcome: Outcome): string => {
    const arrival = percent(left / outcome.usable)
    switch (verdict) {
      case 'lasts':
        return `The charge lasts: ${arrival} at the finish, ${energy(margin)} above your reserve.`
      case 'reserve':
        return left >= outcome.reserve
          ? `The charge lasts, ${arrival} at the finish, but falls below your reserve from ${place(reserveAt!)}.`
          : `The charge just lasts: ${arrival} at the finish, ${energy(-margin)} below your reserve from ${place(reserveAt!)}.`
      case 'empty':
        return `The charge does not last: the motor stops at ${place(emptyAt!)}, ${distance(outcome.length - emptyAt!)} before the finish.`
    }
  },

  /** What is said of a route whose climbs are not known. */
  onFlat: (said: string) => `On flat ground ${said.charAt(0).toLowerCase()}${said.slice(1)}`,
  onFlatInShort: (said: string) => `${said}, on flat ground`,

  /** The same in one short line. @param finish clock time */
  verdict: ({ verdict, emptyAt }: Margin, share: number, finish: string): string =>
    verdict === 'empty'
      ? `Motor off at ${place(emptyAt!)}, finish ${finish}`
      : `${verdict === 'lasts' ? 'Lasts' : 'Below your reserve'}: ${percent(share)} left, finish ${finish}`,

  /** Behind the first of what is to be remarked. */
  noRemarks: 'Nothing to remark on file and ride.',
  moreRemarks: (count: number) => (count === 0 ? 'Read' : `and ${count} more`),

  /** @param share of the way, on which a pack is the limit */
  packLimited: (share: number) => `The pack can’t give the motor all it asks for on ${percent(share)} of the way.`,

  reasons: {
    title: 'Where the energy goes',
    plots: {
      sources: 'Who does the work',
      work: 'Where the work goes',
      packs: 'What the packs’ energy becomes',
    },
    parts: {
      air: 'Air',
      rolling: 'Rolling',
      brakes: 'Brakes',
      chain: 'Chain',
      gained: 'Height gained',
      bearings: 'Bearings',
      rider: 'You',
      motor: 'Motor',
      descent: 'Descent',
      motorWork: 'Work of the motor',
      motorLoss: 'Motor losses',
      electronics: 'Electronics and lamps',
      packLoss: 'Heat in the packs',
    },
    /** @param work J, for a mass, kg, over an ascent, m */
    lifting: ({ mass, work }: { mass: number; work: number }, ascent: number) =>
      `Lifting ${measure(mass, 'mass', 0)} over ${height(ascent)} of climbs takes ${energy(work)}; downhill it comes back as speed, and what the air and the brakes take of it is counted there.`,
  },
})
