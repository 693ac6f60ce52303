import { clockAfter } from '../../model/world/zone'
import { legNotes } from '../../model/readings/leg-notes'
import { totalsBetween, type Leg, type LegTotals } from '../../model/readings/legs'
import { departure, leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { joulesPerWattHour } from '../../model/units'
import { hoursAndMinutes, inDistance, inDrain, inHeight, inSpeed, number, type Units } from '../format'
import { drainChange, energyChange, timeChange } from '../change'
import type { FigureName } from '../words/en/formulas'
import { legWordsIn, type LegWords } from '../words/legs'
import { rowWordsIn } from '../words/rows'
import { wordsIn } from '../words/words'

type ColumnKey = keyof LegWords['columns']

/** A column of the leg table. */
export interface Column {
  key: ColumnKey
  /** Left-aligned. */
  isText?: true
  /** Left out on a narrow screen unless all columns are asked for. */
  isExtra?: true
  text: (leg: Leg) => string
  /** What says why, where it is a figure. */
  figure?: FigureName
  /** How the figure differs from that of the forecast which is compared with; absent where none is. */
  change?: (leg: Leg) => string
  /** What the column is sorted by. */
  order: (leg: Leg) => number | string
  /** In the row of totals. */
  total?: (totals: Totals) => string
}

export interface Totals extends LegTotals {
  outcome: Outcome
}

export const totalsOf = (outcome: Outcome): Totals => ({
  outcome,
  ...totalsBetween(outcome, 0, outcome.route.stations.distance.length - 1),
})

const kilojoules = (joules: number) => number(joules / 1000)
const wattHours = (joules: number) => number(joules / joulesPerWattHour)

/** Columns in order; texts and totals read the outcome given. @param against a forecast of the same route to compare with */
export function columnsFor(outcome: Outcome, units: Units, against?: Outcome): Column[] {
  const compared = (of: (outcome: Outcome, leg: Leg) => number, text: (change: number) => string) =>
    against && { change: (leg: Leg) => text(of(outcome, leg) - of(against, leg)) }
  const totals = (of: Outcome, { first, last }: Leg) => totalsBetween(of, first, last)
  const { start } = outcome.plan
  const isFlat = outcome.route.elevationKnown === 'none'
  /** Heights that nobody knows are no zeroes. */
  const known = (text: string) => (isFlat ? '–' : text)
  const metres = (value: number) => known(number(inHeight(value, units)))
  const gradient = (value: number) => known(number(100 * value, 1))
  const long = (value: number) => number(inDistance(value, units), 1)
  const quick = (value: number) => number(inSpeed(value, units), 1)
  const words = wordsIn(units)
  const legWords = legWordsIn(units)
  const charge = (from: number, to: number) => legWords.charge(from / outcome.usable, to / outcome.usable)
  const note = (leg: Leg) => rowWordsIn(units).legNotes(legNotes(outcome, leg))
  return [
    {
      key: 'from',
      isText: true,
      isExtra: true,
      text: (leg) => words.place(leg.from),
      order: (leg) => leg.start,
    },
    {
      key: 'to',
      isText: true,
      text: (leg) => words.place(leg.to),
      order: (leg) => leg.end,
      total: () => legWords.wholeRoute,
    },
    {
      key: 'length',
      figure: 'legLength',
      text: (leg) => long(leg.length),
      order: (leg) => leg.length,
      total: ({ length }) => long(length),
    },
    {
      key: 'ascent',
      figure: 'legAscent',
      isExtra: true,
      text: (leg) => metres(leg.ascent),
      order: (leg) => leg.ascent,
      total: ({ ascent }) => metres(ascent),
    },
    {
      key: 'descent',
      figure: 'legDescent',
      isExtra: true,
      text: (leg) => metres(leg.descent),
      order: (leg) => leg.descent,
      total: ({ descent }) => metres(descent),
    },
    {
      key: 'mean',
      figure: 'legMean',
      isExtra: true,
      text: (leg) => gradient(leg.meanGradient),
      order: (leg) => leg.meanGradient,
    },
    {
      key: 'steepest',
      figure: 'legSteepest',
      isExtra: true,
      text: (leg) => gradient(leg.steepestGradient),
      order: (leg) => leg.steepestGradient,
    },
    {
      key: 'riding',
      figure: 'legRiding',
      isExtra: true,
      text: (leg) => hoursAndMinutes(leg.ridingTime),
      ...compared((of, leg) => totals(of, leg).ridingTime, timeChange),
      order: (leg) => leg.ridingTime,
      total: ({ ridingTime }) => hoursAndMinutes(ridingTime),
    },
    {
      key: 'speed',
      figure: 'legSpeed',
      isExtra: true,
      text: (leg) => quick(leg.meanSpeed),
      order: (leg) => leg.meanSpeed,
      total: ({ meanSpeed }) => quick(meanSpeed),
    },
    {
      key: 'rider',
      figure: 'legRider',
      isExtra: true,
      text: (leg) => kilojoules(leg.riderWork),
      order: (leg) => leg.riderWork,
      total: ({ riderWork }) => kilojoules(riderWork),
    },
    {
      key: 'motor',
      figure: 'legMotor',
      isExtra: true,
      text: (leg) => kilojoules(leg.motorWork),
      order: (leg) => leg.motorWork,
      total: ({ motorWork }) => kilojoules(motorWork),
    },
    {
      key: 'battery',
      figure: 'legBattery',
      isExtra: true,
      text: (leg) => wattHours(leg.drained),
      ...compared((of, leg) => totals(of, leg).drained, energyChange),
      order: (leg) => leg.drained,
      total: ({ drained }) => wattHours(drained),
    },
    {
      key: 'drain',
      figure: 'legDrain',
      text: (leg) => number(inDrain(leg.drain, units), 1),
      ...compared(
        (of, leg) => totals(of, leg).drain,
        (change) => drainChange(change, units),
      ),
      order: (leg) => leg.drain,
      total: ({ drain }) => number(inDrain(drain, units), 1),
    },
    {
      key: 'charge',
      figure: 'legCharge',
      text: (leg) => charge(leg.leftAtStart, leg.leftAtEnd),
      ...compared(({ columns }, { last }) => columns.left[last]!, energyChange),
      order: (leg) => leg.leftAtEnd,
      total: () => charge(outcome.leftAtStart, leftAtFinish(outcome)),
    },
    {
      key: 'arrive',
      figure: 'legArrive',
      text: (leg) => clockAfter(start, leg.arrive, outcome.zone),
      ...compared(({ started, columns }, { last }) => started + columns.time[last]!, timeChange),
      order: (leg) => leg.arrive,
      total: () => clockAfter(start, outcome.columns.time.at(-1)!, outcome.zone),
    },
    {
      key: 'depart',
      isExtra: true,
      text: (leg) => clockAfter(start, leg.depart, outcome.zone),
      ...compared((of, { last }) => of.started + departure(of, last), timeChange),
      order: (leg) => leg.depart,
    },
    {
      key: 'wind',
      figure: 'legAhead',
      isExtra: true,
      text: (leg) => `${number(100 * leg.wind.ahead)}, ${number(100 * leg.wind.behind)}`,
      order: (leg) => leg.wind.ahead - leg.wind.behind,
    },
    {
      key: 'note',
      isText: true,
      isExtra: true,
      text: (leg) =>
        [leg.terrain === undefined ? '' : words.terrain[leg.terrain], note(leg)]
          .filter((part) => part !== '')
          .join('; '),
      order: note,
    },
  ]
}

export interface Sorting {
  key: string
  ascending: boolean
}

/** Legs by a column, in order of the route where it is equal or nothing is asked for. */
export function sorted(legs: readonly Leg[], columns: readonly Column[], sorting: Sorting | undefined): readonly Leg[] {
  const column = columns.find(({ key }) => key === sorting?.key)
  if (column === undefined || sorting === undefined) return legs
  const sign = sorting.ascending ? 1 : -1
  const keyed = legs.map((leg) => ({ leg, order: column.order(leg) }))
  keyed.sort((a, b) => (a.order < b.order ? -sign : a.order > b.order ? sign : a.leg.number - b.leg.number))
  return keyed.map(({ leg }) => leg)
}
