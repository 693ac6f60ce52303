import type { Control } from '../../../model/plan/day-schema'
import type { Passage } from '../../../model/world/controls'
import { duration } from '../../format'
import { times, type Clock } from './times'

/** Of the plan's goal and controls. */
export const controlsIn = () => ({
  goals: { goal: 'Goal, whole day', ridingGoal: 'Goal, riding' } satisfies Record<'goal' | 'ridingGoal', string>,
  aboutGoals: {
    goal: 'Time from start to finish that you want to beat, such as last year’s, in hours and minutes. Empty for none.',
    ridingGoal:
      'Time of riding alone, halts and crossings left out, that you want to beat, in hours and minutes. Empty for none. Either goal or both.',
  },
  goalForm: 'such as 11 h 30 min',
  notSpan: 'Write hours and minutes, such as 11 h 30 min or 11:30.',
  spanOutside: 'The goal must be from a minute to 30 days.',
  atRiding: (time: number, margin: number) => `Riding ${duration(time)}: ${times.margin(margin)}.`,
  atFinish: (arrive: string, margin: number | undefined) => `At the finish ${arrive}: ${times.margin(margin)}.`,
  arrive: (passage: Passage, clock: Clock): string => {
    const open = times.open(passage, clock)
    return `You arrive at ${clock(passage.arrive)}${open === '' ? '; it is open all day' : `; ${open}`}${
      passage.margin === undefined ? '.' : `: ${times.margin(passage.margin)}.`
    }`
  },
  ends: { opens: 'Opens', closes: 'Closes' } satisfies Record<'opens' | 'closes', string>,
  limits: {
    never: 'At no set time',
    clock: 'At a clock time',
    speed: 'By a speed from the start',
  } satisfies Record<'never' | NonNullable<Control['opens']>['by'], string>,
  at: 'At',
  untilThen: 'Until it is typed, nothing is set.',
  add: 'Add a control',
  remove: 'Remove this control',
})
