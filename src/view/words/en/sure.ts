import type { Chances, FailsIn } from '../../../model/chance/chances'
import type { Deadline } from '../../../model/chance/deadlines'
import type { Estimate } from '../../../model/chance/spread'
import type { Terrain } from '../../../model/readings/terrain'
import type { Format } from '../../format'
import { cut } from '../cut'

/** A standard error above this makes a whole number doubtful; a part of the way in which this share of the days that fail do is named. */
const sureEnough = 0.01
const most = 0.4
/** Parts that are shorter, m, are a place. */
const short = 1000

const terrains: Record<Terrain, string> = { climb: 'climb', descent: 'descent', rolling: 'rolling stretch' }

/** `83 of 100`: a share of days in whole numbers, none or all of them never. */
export const ofHundred = ({ value, error }: Estimate): string =>
  value > 0.995
    ? 'more than 99 of 100'
    : value < 0.005
      ? 'fewer than 1 of 100'
      : `${error > sureEnough ? 'about ' : ''}${Math.round(100 * value)} of 100`

/** `83`, where it is clear of how many. */
const inShort = (chance: Estimate): string => ofHundred(chance).replace(/ of 100$/, '')

/** Of how sure a day is, in the answer and on the ribbon. */
export const sureIn = ({ percent, place }: Format) => {
  const where = ({ terrain, start, end, isLast, share, at }: FailsIn & Pick<NonNullable<Chances['fails']>, 'at'>) =>
    share < most
      ? `between ${place(at.low, 0)} and ${place(at.high, 0)}`
      : end - start < short
        ? `about ${place((start + end) / 2, 0)}`
        : `on the ${isLast ? 'last ' : ''}${terrains[terrain]}, from ${place(start, 0)}`
  return {
    /** How often the charge lasts above the reserve, and where it fails. */
    charge: ({ reserve, fails }: Chances): [string, string] => [
      `In ${ofHundred(reserve)} such days`,
      `the charge lasts${reserve.value > 0.995 || fails === undefined ? '' : `; most often it fails ${where(fails)}`}.`,
    ],
    /** How often the goals are met. @param goals one or two, those of the whole day first */
    goals: (goals: readonly (Deadline & { chance: Estimate })[]): string => {
      const [whole, riding] = (['goal', 'ridingGoal'] as const).map((kind) => goals.find((goal) => goal.kind === kind))
      if (riding === undefined) return `Your goal is met in ${inShort(whole!.chance)}.`
      return whole === undefined
        ? `Your goal for riding is met in ${inShort(riding.chance)}.`
        : `Your goal is met in ${inShort(whole.chance)}, that for riding in ${inShort(riding.chance)}.`
    },
    /** How often a sailing or a control is reached in time. @param name of a control */
    deadline: ({ kind, distance, chance }: Deadline & { chance: Estimate }, name: string): string =>
      kind === 'sailing'
        ? `The sailing at ${place(distance, 0)} is caught in ${inShort(chance)}.`
        : `${cut(name, 25)} is reached in time in ${inShort(chance)}.`,
    /** @param early clock that one day in ten is earlier than @param late that one is later than */
    finish: (early: string, late: string) => `Finish ${early} to ${late} in 8 of 10.`,
    anew: (share: number | undefined) =>
      share === undefined ? 'worked out anew' : `worked out anew, ${percent(share)}`,
    first: (share: number | undefined) =>
      share === undefined ? 'How sure this is follows.' : `How sure this is: ${percent(share)} worked out.`,
    failed: 'How sure this is could not be worked out.',
  }
}
