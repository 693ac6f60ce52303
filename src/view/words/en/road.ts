import type { Advice } from '../../../model/chance/rest-chances'
import type { Deadline } from '../../../model/chance/deadlines'
import type { Estimate } from '../../../model/chance/spread'
import { distanceUnit, type Format } from '../../format'
import { ofHundred } from './sure'

/** Of the screen that is used on the way. */
export const roadIn = ({ distance, duration, number, percent, place, units }: Format) => {
  const lasts: Record<Advice['verdict'], string> = {
    enough: 'Enough',
    likely: 'Probably enough',
    doubtful: 'Doubtful',
    not: 'Not enough',
  }
  const ratios = ({ flat, climb }: { flat: number; climb: number }) =>
    flat === climb ? percent(flat) : `${percent(flat)}, on climbs ${percent(climb)}`
  return {
    label: 'On the road',
    about: 'Where are you, what is left, what is the time? It works without network, and nothing leaves this device.',
    fields: { km: distanceUnit(units), charge: 'Charge, %', clock: 'Clock' },
    here: 'Where I am',
    locating: 'Looking …',
    notLocated: 'This device does not say where it is; type how far you are.',
    offRoute: (offset: number) => `You are ${distance(offset)} from the route; type how far you are.`,
    say: 'How does the rest go?',
    faults: {
      km: (length: number) => `How far must be a number from 0 to ${number(length, 1)} ${distanceUnit(units)}.`,
      charge: 'The charge must be a number from 0 to 100.',
      clock: 'The clock must be a time such as 12:40.',
      before: 'At that time the day has not begun.',
      order: 'That is not later than the reading before it.',
    },

    working: (share: number | undefined) =>
      share === undefined ? 'One moment.' : `One moment, ${percent(share)} done.`,
    failed: 'This could not be worked out.',
    none: 'No reading yet.',

    verdict: (verdict: Advice['verdict'], chance: Estimate) =>
      `${lasts[verdict]}: as planned the charge lasts in ${ofHundred(chance)} such days.`,
    /** @param ratio to ride at @param until name of the next place */
    advice: {
      more: (ratio: { flat: number; climb: number }, until: string) =>
        `You may spend more: up to ${ratios(ratio)} until ${until}, and it still lasts in at least 90 of 100.`,
      same: (ratio: { flat: number; climb: number }, until: string) =>
        `Ride on as planned, at ${ratios(ratio)}, until ${until}.`,
      ease: (ratio: { flat: number; climb: number }, until: string) =>
        `Ease off to ${ratios(ratio)} until ${until}: then it lasts in at least 90 of 100.`,
      none: 'Not even a quarter of the planned assist lasts in 90 of 100: charge on the way, or leave the route at one of the places below.',
    },
    deadline: (
      { kind, distance: at }: Deadline,
      name: string,
      chance: Estimate,
      faster: Estimate,
      latest: string,
    ): string => {
      const what = kind === 'goal' ? 'Your goal' : kind === 'sailing' ? `The sailing at ${place(at, 0)}` : name
      const by = `${what}, by ${latest}`
      if (chance.value >= 0.9) return `${by}: in ${ofHundred(chance)}.`
      if (faster.value < 0.15)
        return kind === 'sailing' ? `${by}: leave it, and take the next.` : `${by}: out of reach.`
      return faster.value > chance.value + 0.03
        ? `${by}: in ${ofHundred(chance)} as planned, in ${ofHundred(faster)} with more assist.`
        : `${by}: in ${ofHundred(chance)}.`
    },
    odd: (late: number, spare: number) =>
      `Check this reading: ${Math.abs(spare) > Math.abs(late) ? (spare < 0 ? 'the charge is far less' : 'the charge is far more') : late > 0 ? 'it is far later' : 'it is far earlier'} than this plan makes likely. If it is right, trust the reading more than these figures.`,

    columns: { how: 'Ridden', lasts: 'Lasts', finish: 'Finish', left: 'Left' },
    ways: { ease: 'Ease off', planned: 'As planned', more: 'Spend more' },
    ratios,
    ofHundred,
    span: (low: string, high: string) => `${low} to ${high}`,
    left: (low: number, high: number) =>
      percent(low) === percent(high) ? percent(high) : `${number(100 * low)} to ${percent(high)}`,

    at: (distance: number) => place(distance, 0),
    readings: 'What you read',
    reading: (at: number, charge: number, clock: string) => `${place(at)}, ${percent(charge)}, ${clock}`,
    unfitting: 'Readings that do not lie in this day, or are not each later than the one before, do not count.',
    remove: (reading: string) => `Remove ${reading}`,

    stuck: {
      ask: 'I can’t go on like this',
      back: 'Go on as before',
      power: 'Your power from here on, W',
      fault: 'The power must be a number from 20 to 500.',
      /** @param finish clock, in the middle of all */
      said: (chance: Estimate, power: number, finish: string, later: number) =>
        `At ${number(power)} W the charge lasts in ${ofHundred(chance)} such days; finish about ${finish}, ${duration(later)} later.`,
      sooner: (chance: Estimate, power: number, finish: string) =>
        `At ${number(power)} W the charge lasts in ${ofHundred(chance)} such days; finish about ${finish}.`,
      columns: { place: 'Ways out', arrive: 'There', charge: 'Left', by: 'Be there by' },
      /** @param isLate whether one is there later, at this power */
      by: (latest: string, isLate: boolean) => (isLate ? `${latest}, too late` : latest),
      aboutBy:
        'Be there by: later than that, a control or the goal there or beyond is out of reach at this power; at a crossing, the sailing.',
      care: 'Pain or illness is for a clinician, not for a plan.',
    },
  }
}
