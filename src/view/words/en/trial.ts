import type { TrialBelief, TrialFigure, TrialRow } from '../../../model/learn/trial'
import type { PlanTrial } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { measures } from './measures'

/** Of a trial of charging at home. */
export const trialIn = ({ duration, energy, measure, number, percent }: Format) => {
  const joined = new Intl.ListFormat(measures.locale, { type: 'conjunction' })
  const capital = (text: string) => text[0]!.toUpperCase() + text.slice(1)
  const share = (value: number) => percent(value, 1)
  const figures: Record<TrialFigure, string> = {
    efficiency: 'the converter’s best efficiency',
    packHealth: 'what the bike’s pack holds',
    health: 'what the carried pack holds',
  }
  const better: Record<TrialFigure, string> = {
    efficiency: 'volts and amperes before and behind the converter would tell the efficiency',
    packHealth: 'a longer charge would tell what the bike’s pack holds',
    health: 'a reading when the carried pack is nearly empty would tell what it holds',
  }
  const shown = (of: TrialRow['of'], value: number) => (of === 'charge' ? percent(value) : measure(value, of))
  const rowNames = { voltage: 'the meter', current: 'the meter', charge: 'the display' }
  return {
    title: 'A trial of charging',
    inShort: (trial: PlanTrial | null) => {
      const count = trial?.readings.length ?? 0
      if (count === 0) return 'no reading yet: it corrects efficiency and capacities'
      const readings = `${number(count)} ${count === 1 ? 'reading' : 'readings'}`
      return `${readings}, ${(trial?.stated ?? null) === null ? 'not taken over' : 'taken over'}`
    },
    about:
      'Charge once at home, with someone beside it, and type what meter and display show: that corrects efficiency and capacities.',
    pack: 'Pack that was filled',
    readings: 'Readings',
    reading: (number: number) => `Reading ${number}`,
    side: 'Meter stood',
    sides: { source: 'before the converter', pack: 'behind the converter' },
    notRead: 'none',
    add: 'Add a reading',
    remove: 'Remove',
    removeThis: (number: number) => `Remove reading ${number}`,
    found: 'What it tells',
    /** `The converter’s best efficiency is 91.2 % (88.0 to 94.1 %); 95.5 % was stated.` */
    belief: ({ figure, stated, middle, low, high, verdict }: TrialBelief): string => {
      const of = figure === 'efficiency' ? '' : ' of what is rated'
      const roughly = verdict === 'hardly' ? ' roughly' : ''
      return `${capital(figures[figure])} is${roughly} ${share(middle)}${of}, 8 in 10 that it lies from ${share(low)} to ${share(high)}; ${share(stated)} was stated.`
    },
    /** What can not be told, and what would tell it. */
    notTold: (not: readonly TrialFigure[]) =>
      `Not to be told from this, and left as it is: ${joined.format(not.map((figure) => figures[figure]))}. ${capital(joined.format(not.map((figure) => better[figure])))}.`,
    far: ({ reading, of, read, found }: TrialRow) =>
      `Reading ${reading + 1} does not fit: ${rowNames[of]} shows ${shown(of, read)}, with all that is stated it would show ${shown(of, found)}. Look at what is set and stated first.`,
    /** What it changes at the halt that is looked at. @param stay s @param before and after, J */
    effect: (stay: number, before: number, after: number) =>
      energy(before) === energy(after)
        ? `The ${duration(stay)} looked at above stay as they are: ${energy(after)} come into the pack.`
        : `In the ${duration(stay)} looked at above, ${energy(after)} come into the pack by these figures, ${energy(before)} by those stated.`,
    take: 'Take these figures over',
    taken: 'These figures stand in the plan.',
    undo: 'Back to what was stated',
  }
}
