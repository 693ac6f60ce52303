import type { Outcome } from '../../model/forecast/outcome'
import { legsOf } from '../../model/readings/legs'
import { isBefore, isInto } from '../../model/readings/wind'
import { formatIn, type Units } from '../format'
import { whyWordsIn } from '../words/why'
import { explainIn } from './explain'
import type { Row } from './why.svelte'

/** Why a leg is said to be into the wind, or to have it behind: that of the hardest, and the first with wind from behind. */
export function windReasons(_: undefined, outcome: Outcome, units: Units): Row {
  const { distance, measure, number, percent } = formatIn(units)
  const words = whyWordsIn(units)
  const explain = explainIn(units)
  const { weather } = outcome.plan
  const legs = legsOf(outcome)
  const hardest = legs.reduce((a, b) => (b.wind.against > a.wind.against ? b : a))
  const behind = legs.find(({ wind }) => isBefore(wind))
  const length = (leg: (typeof legs)[number], share: number) => distance(share * leg.length, 2)
  return {
    title: words.windTitle,
    reasons: [
      explain('windAgainst', {
        title: `${words.figures.windAgainst.title}, ${words.leg(hardest.number).toLowerCase()}`,
        values:
          weather.table.length > 0
            ? { leg: number(hardest.number) }
            : {
                leg: number(hardest.number),
                wind: measure(weather.windSpeed, 'windSpeed'),
                windFrom: measure(weather.windFromDegrees, 'direction'),
              },
        result: measure(hardest.wind.against, 'windSpeed'),
      }),
      ...(isInto(hardest.wind)
        ? [
            explain('legAhead', {
              title: `${words.figures.legAhead.title}, ${words.leg(hardest.number).toLowerCase()}`,
              values: { ahead: length(hardest, hardest.wind.ahead), length: length(hardest, 1) },
              result: percent(hardest.wind.ahead),
            }),
          ]
        : []),
      ...(behind === undefined
        ? []
        : [
            explain('legBehind', {
              title: `${words.figures.legBehind.title}, ${words.leg(behind.number).toLowerCase()}`,
              values: { behind: length(behind, behind.wind.behind), length: length(behind, 1) },
              result: percent(behind.wind.behind),
            }),
          ]),
    ],
  }
}
