import { ratedEnergyWh } from '../../model/battery/pack'
import { totalMass } from '../../model/forecast/mass'
import type { Outcome } from '../../model/forecast/outcome'
import { meanDrain } from '../../model/readings/drain'
import { timesOf } from '../../model/readings/facts'
import { leastCharge, marginOf } from '../../model/readings/reach'
import { clockAfter } from '../../model/world/zone'
import type { Plan } from '../../model/plan/schema'
import { energyChange } from '../change'
import { drain, duration, measure, wattHours, type Units } from '../format'
import type { FigureName } from '../words/en/formulas'
import { compareWordsIn, type CompareWords } from '../words/compare'

/** A plan of the route on screen that is looked at beside others. */
export interface Column {
  key: string
  name: string
  /** Undefined where it can't be read or forecast. */
  plan: Plan | undefined
  outcome: Outcome | undefined
  kind: 'onScreen' | 'held' | 'kept' | 'day'
}

export type RowKey = keyof CompareWords['rows']

/** What says why of each row. */
export const whyOf: Record<RowKey, FigureName> = {
  mass: 'mass',
  packs: 'packsHold',
  riding: 'riding',
  stopped: 'standing',
  crossing: 'crossing',
  finish: 'finish',
  energy: 'packs',
  drain: 'drain',
  least: 'lowest',
  margin: 'spare',
}

/** What stands in a column, row by row. */
export function figuresOf(outcome: Outcome, units: Units): Record<RowKey, string> {
  const { plan, usable } = outcome
  const { packs } = plan.battery
  const words = compareWordsIn(units)
  const { riding, smallHalts, stopped, crossing, elapsed } = timesOf(outcome)
  const least = leastCharge(outcome)
  const { margin, emptyAt } = marginOf(outcome)
  return {
    mass: measure(totalMass(plan), 'mass', units, 1),
    packs: words.packs(
      packs.length,
      packs.reduce((sum, pack) => sum + ratedEnergyWh(pack) * pack.health, 0),
    ),
    riding: duration(riding),
    stopped: duration(stopped + smallHalts),
    crossing: duration(crossing),
    finish: clockAfter(plan.start, elapsed, outcome.zone),
    energy: wattHours(outcome.electric.drained),
    drain: drain(meanDrain(outcome), units),
    least: words.least(least.left / usable, least.distance),
    margin: emptyAt === undefined ? energyChange(margin) : words.motorOff(emptyAt),
  }
}
