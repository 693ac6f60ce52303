import type { StepRatio, StepTestFault } from '../../../model/learn/steps'
import type { PlanStep } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { cut } from '../cut'

/** Of the steps of the bike's display. */
export const stepsIn = ({ distance, percent, speed }: Format) => {
  const span = ({ ratio, span }: StepRatio) => `${percent(ratio / span)} to ${percent(ratio * span)}`
  return {
    title: 'Steps of your display',
    about:
      'A display numbers its steps and hides the ratio behind each. Say how many it has. Each is a guess until a test or a ride tells more; advice then speaks in your steps.',
    count: 'How many steps',
    none: 'none',
    step: (number: number) => `Step ${number}`,
    name: 'Your word for it',
    ratio: 'Motor over rider',
    known: ({ span: width, ...step }: PlanStep) =>
      `${width >= 1.95 ? 'A guess: ' : ''}${span({ ratio: step.ratio, span: width })} in 8 of 10.`,
    use: 'Ride at it',
    flat: 'on the flat',
    climbs: 'on climbs',
    useFor: (number: number, on: 'flat' | 'climbs') => `Step ${number} ${on === 'flat' ? 'on the flat' : 'on climbs'}`,
    test: {
      title: 'Test it',
      about: (limit: number) =>
        `On a level, straight road ride there and back at this step, each way at an even pace, pedalling so gently that you stay well below ${speed(limit)}. Note the speed of each way and by how much the display’s charge fell over both. The longer, the surer: with whole percent, ${distance(5000, 0)} each way.`,
      length: 'One way',
      there: 'Speed there',
      back: 'Speed back',
      used: 'Charge used on both',
      empty: '?',
      tell: 'What does it tell?',
      found: (number: number, found: StepRatio) =>
        `Step ${number} gives ${percent(found.ratio)}: ${span(found)} in 8 of 10.`,
      take: 'Take it',
      taken: 'Taken.',
      faults: {
        tooFast: (limit: number) =>
          `That fast it tells nothing: near ${speed(limit)} the motor ends its help. Pedal more gently.`,
        nothingUsed: () => 'Nothing was used, so it tells nothing: ride farther.',
      } satisfies Record<StepTestFault, (limit: number) => string>,
    },
    /** Of advice. `step 2`, or with the rider's word. */
    named: (number: number, { name }: Pick<PlanStep, 'name'>) =>
      name === '' ? `step ${number}` : `step ${number}, “${cut(name, 24)}”`,
  }
}
