import { joulesPerWattHour } from '../../model/units'
import { departure, leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { formatIn, type Units } from '../format'
import { chanceIn } from './chance'
import { exactIn, explainIn, type PutIn } from './explain'
import type { Tested } from '../../model/learn/foretell'
import type { FigureName } from '../words/en/formulas'
import type { Given, Row } from './why.svelte'
import { whyWordsIn } from '../words/why'

const alone = (figure: FigureName, putIn: PutIn, units: Units): Row => {
  const reason = explainIn(units)(figure, putIn)
  return { title: reason.title, reasons: [reason] }
}
const minus = (text: string, value: number) => (value < 0 ? `−${text}` : text)
/** Days that a proposal is ridden on. */
const fewDays = 256

/** Why two plans differ by so much. */
export const causesReasons = ({ name, parts, total }: Given['causes'], _: Outcome, units: Units): Row =>
  alone('causes', { title: name, each: parts, result: total }, units)

/** Why a proposal gains so much on the plan that was asked about. */
export function proposalReasons({ before, went, bound, price }: Given['proposal'], _: Outcome, units: Units): Row {
  const { duration, measure, number, percent } = formatIn(units)
  const explain = explainIn(units)
  const exact = exactIn(units)
  const last = before.columns.time.length - 1
  const differ = (figure: FigureName, was: number, is: number, text: (value: number) => string, sign = 1) =>
    explain(figure, {
      values: { before: text(was), with: text(is) },
      result: minus(text(Math.abs(was - is)), sign * (was - is)),
    })
  const kilojoules = (work: number) => measure(work, 'energy', 1)
  return {
    title: whyWordsIn(units).proposal,
    reasons: [
      differ('gain', departure(before, last), went.time, exact.time),
      differ('gainRiding', before.columns.ridingTime[last]!, went.ridingTime, exact.time),
      differ('gainLeft', leftAtFinish(before), went.left, exact.energy, -1),
      differ('gainWork', before.columns.riderWork[last]!, went.riderWork, kilojoules),
      ...(bound === undefined
        ? []
        : [
            explain('bound', {
              values: { best: exact.time(bound.best), least: exact.time(bound.least) },
              result: percent(Math.max(0, 1 - bound.least / bound.best), 1),
            }),
          ]),
      ...(price === undefined
        ? []
        : [
            explain('price', {
              values: { riding: duration(went.ridingTime) },
              result: `${number(price * joulesPerWattHour, 1)} s`,
            }),
          ]),
    ],
  }
}

/** Why a load-out has the figures that it has. */
export function loadOutReasons({ name, ride }: Given['loadOut'], _: Outcome, units: Units): Row {
  const { measure, percent } = formatIn(units)
  const explain = explainIn(units)
  return {
    title: name,
    reasons: [
      explain('loadOutMass', {
        values: {
          packs: measure(
            ride.plan.battery.packs.reduce((sum, { mass }) => sum + mass, 0),
            'mass',
            1,
          ),
        },
        result: measure(ride.mass, 'mass', 1),
      }),
      explain('loadOutLeast', { values: { leftAtFinish: percent(ride.left) }, result: percent(ride.least) }),
      explain('chance', chanceIn(units).of(ride.chance, fewDays)),
    ],
  }
}

/** Why one has to start by then. */
export function latestStartReasons({ name, row, clock }: Given['latestStart'], _: Outcome, units: Units): Row {
  const explain = explainIn(units)
  return {
    title: name,
    reasons: [
      explain('latestStart', { values: { latest: clock }, result: row.start.slice(11) }),
      explain('chance', chanceIn(units).of(row.chance, fewDays)),
    ],
  }
}

/** Why it is so sure. */
export function sureReasons({ name, chance }: Given['sure'], _: Outcome, units: Units): Row {
  const { values, result } = chanceIn(units).of(chance)
  const spread = formatIn(units).percent(chance.error, 1)
  return alone('sure', { ...(name === undefined ? {} : { title: name }), values: { ...values, spread }, result }, units)
}

/** Why a figure has such a share of the spread. */
export const driverReasons = ({ name, share, error }: Given['driver'], _: Outcome, units: Units): Row => {
  const { percent } = formatIn(units)
  return alone(
    'driver',
    { title: name, values: { days: chanceIn(units).days, spread: percent(error, 1) }, result: percent(share) },
    units,
  )
}

/** Why the rest of the way is so sure. */
export const restReasons = ({ name, chance, effective }: Given['rest'], _: Outcome, units: Units): Row => {
  const { number, percent } = formatIn(units)
  return alone(
    'restChance',
    {
      title: name,
      values: { days: number(effective), spread: percent(chance.error, 1) },
      result: percent(chance.value),
    },
    units,
  )
}

/** Why a figure of rider or bike is what rides told. */
export const learntReasons = ({ name, middle, span, prior }: Given['learnt'], _: Outcome, units: Units): Row =>
  alone('learnt', { title: name, values: { span, prior }, result: middle }, units)

/** How far off the rest of a ride was foretold. */
export function ownTestReasons({ riding, energy }: Given['ownTest'], _: Outcome, units: Units): Row {
  const explain = explainIn(units)
  const exact = exactIn(units)
  const words = whyWordsIn(units)
  const off = ({ foretold, plainGuess, ridden }: Tested, text: (value: number) => string, suffix: string) =>
    (
      [
        ['ownTest', foretold.middle],
        ['plainGuess', plainGuess],
      ] as const
    ).map(([figure, guess]) =>
      explain(figure, {
        title: words.figures[figure].title + suffix,
        values: { foretold: text(guess), ridden: text(ridden) },
        result: minus(text(Math.abs(guess - ridden)), guess - ridden),
      }),
    )
  return {
    title: words.ownTest,
    reasons: [
      ...off(riding, exact.time, ''),
      ...(energy === undefined ? [] : off(energy, exact.energy, words.inEnergy)),
    ],
  }
}

/** Why this plan differs from a ride. */
export const againstReasons = ({ name, then, now }: Given['against'], _: Outcome, units: Units): Row => {
  const { time } = exactIn(units)
  return alone(
    'against',
    {
      title: name,
      values: { now: time(now), then: time(then) },
      result: minus(time(Math.abs(now - then)), now - then),
    },
    units,
  )
}

/** Why training is worth so much. */
export const trainingReasons = (
  { name, time: { low, middle, high } }: Given['training'],
  _: Outcome,
  units: Units,
): Row => {
  const { number } = formatIn(units)
  const minutes = (seconds: number) => minus(`${number(Math.abs(seconds) / 60, 1)} min`, seconds)
  return alone(
    'training',
    { title: name, values: { span: `${minutes(low)} – ${minutes(high)}` }, result: minutes(middle) },
    units,
  )
}
