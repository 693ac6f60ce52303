import { ratedEnergyWh } from '../../model/battery/pack'
import { leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { leastCharge, reachFrom } from '../../model/readings/reach'
import { energyChange } from '../change'
import { formatIn, type Units } from '../format'
import { whyWordsIn } from '../words/why'
import { wordsIn } from '../words/words'
import { exactIn, explainIn } from './explain'
import { storyReason } from './story'
import type { Given, Row, StoryFigure } from './why.svelte'

const ofStory: readonly StoryFigure[] = [
  'mass',
  'riding',
  'standing',
  'crossing',
  'finish',
  'elapsed',
  'packs',
  'drain',
]

/** Why a plan that stands beside others has the figures that it has. */
export function wholeReasons({ name, outcome }: Given['whole'], _: Outcome, units: Units): Row {
  const { number, place, percent } = formatIn(units)
  const words = whyWordsIn(units)
  const explain = explainIn(units)
  const { energy } = exactIn(units)
  const { plan, usable, reserve } = outcome
  const held = plan.battery.packs.map((pack) => ratedEnergyWh(pack) * pack.health)
  const least = leastCharge(outcome)
  const wattHours = (value: number) => `${number(value)} Wh`
  return {
    title: name,
    reasons: [
      ...ofStory.map((figure) => storyReason(figure, outcome, units)),
      explain('packsHold', {
        each: plan.battery.packs.map((pack, k) => [pack.name || words.pack(k + 1), wattHours(held[k]!)] as const),
        result: wattHours(held.reduce((sum, value) => sum + value, 0)),
      }),
      ...(usable > 0
        ? [
            explain('lowest', {
              values: { leftThere: energy(least.left), full: energy(usable), place: place(least.distance) },
              result: percent(least.left / usable),
            }),
          ]
        : []),
      explain('spare', {
        values: { leftAtFinish: energy(leftAtFinish(outcome)), reserve: energy(reserve) },
        result: energyChange(leftAtFinish(outcome) - reserve),
      }),
      explain('reach', {
        values: { leftAtStart: energy(outcome.leftAtStart), reserve: energy(reserve) },
        result: wordsIn(units).reach(reachFrom(outcome, 0), usable),
      }),
    ],
  }
}
