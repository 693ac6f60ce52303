import type { Outcome } from '../../model/forecast/outcome'
import { comesAlong } from '../../model/plan/kit'
import { formatIn, type Units } from '../format'
import { mass } from '../kit/amounts'
import { exactIn, explainIn } from './explain'
import type { Given, Reason, Row } from './why.svelte'

/** What a whole ride takes with something and without it; what comes along is in the forecast already. */
function costOf(cost: Given['cost']['cost'], isAlong: boolean, outcome: Outcome, units: Units): Reason[] {
  const explain = explainIn(units)
  const exact = exactIn(units)
  const now = { time: outcome.columns.ridingTime.at(-1)!, energy: outcome.electric.drained }
  return (
    [
      ['kitTime', 'time'],
      ['kitEnergy', 'energy'],
    ] as const
  ).map(([figure, key]) =>
    explain(figure, {
      values: {
        with: exact[key](now[key] + (isAlong ? 0 : cost[key])),
        without: exact[key](now[key] - (isAlong ? cost[key] : 0)),
      },
      result: `${cost[key] < 0 ? '−' : ''}${exact[key](Math.abs(cost[key]))}`,
    }),
  )
}

/** Why a thing of the kit weighs and costs what it does. */
export function kitReasons({ line, reckoned }: Given['kit'], outcome: Outcome, units: Units): Row {
  const { number } = formatIn(units)
  const { item } = line
  return {
    title: item.name,
    reasons: [
      explainIn(units)('kitMass', {
        values: { one: mass(item.mass, units), count: number(item.count) },
        result: mass(line.mass, units),
      }),
      ...(reckoned ? costOf(line, comesAlong(item), outcome, units) : []),
    ],
  }
}

/** Why something of a mass, kg, that is along or would be costs what it does. */
export function costReasons({ name, mass: all, cost, isAlong }: Given['cost'], outcome: Outcome, units: Units): Row {
  const { measure } = formatIn(units)
  const reasons = costOf(cost, isAlong, outcome, units)
  return { title: `${name}, ${measure(all, 'mass')}`, reasons }
}
