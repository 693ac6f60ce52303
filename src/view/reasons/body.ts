import type { Outcome } from '../../model/forecast/outcome'
import { turnover } from '../../model/readings/needs'
import { formatIn, type Units } from '../format'
import { whyWordsIn } from '../words/why'
import { exactIn, explainIn } from './explain'
import { storyReason } from './story'
import type { Given, Row } from './why.svelte'

/** Why the rider works and turns over so much. */
export function workReasons(_: undefined, outcome: Outcome, units: Units): Row {
  const { measure, number, percent } = formatIn(units)
  const work = outcome.columns.riderWork.at(-1)!
  const { grossEfficiency } = outcome.plan.needs
  const { energy, kilocalories } = turnover(work, grossEfficiency)
  const own = storyReason('work', outcome, units)
  return {
    title: own.title,
    reasons: [
      own,
      explainIn(units)('turnover', {
        values: {
          work: own.result,
          efficiency: percent(grossEfficiency),
          kilocalories: whyWordsIn(units).kilocalories(number(kilocalories)),
        },
        result: measure(energy, 'energy', 0),
      }),
    ],
  }
}

/** Why a part of the energy has its share. */
export function partReasons({ name, energy: amount, whole }: Given['part'], _: Outcome, units: Units): Row {
  const { percent } = formatIn(units)
  const { energy } = exactIn(units)
  return {
    title: name,
    reasons: [
      explainIn(units)('share', {
        title: name,
        values: { part: energy(amount), all: energy(whole) },
        result: percent(amount / whole),
      }),
    ],
  }
}

/** Why a climb is so hard on the pedals. */
export function climbReasons({ start, end, hardest, mean }: Given['climb'], outcome: Outcome, units: Units): Row {
  const { measure, number, place } = formatIn(units)
  const explain = explainIn(units)
  const words = whyWordsIn(units)
  const torque = (value: number) => `${number(value, 1)} N·m`
  const turning = (cadence: number) => 2 * Math.PI * cadence
  const of = (name: string, pedalled: typeof mean) =>
    explain('torque', {
      title: `${words.figures.torque.title}, ${name}`,
      values: {
        power: measure(pedalled.torque * turning(pedalled.cadence), 'power', 1),
        turning: `${number(turning(pedalled.cadence), 2)} rad/s`,
        cadence: measure(pedalled.cadence, 'cadence'),
      },
      result: torque(pedalled.torque),
    })
  return {
    title: `${place(start)} – ${place(end)}`,
    reasons: [
      of(words.hardest, hardest),
      explain('force', {
        values: { torque: torque(hardest.torque), crank: measure(outcome.plan.pedalling.crankLength, 'crank') },
        result: `${number(hardest.force)} N`,
      }),
      of(words.wholeClimb, mean),
    ],
  }
}
