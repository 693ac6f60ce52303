import type { Outcome } from '../../model/forecast/outcome'
import { daylightOf } from '../../model/readings/light'
import { LightAlong, sunOn } from '../../model/world/daylight'
import { localAt } from '../../model/world/zone'
import { clockOf } from '../clock'
import { formatIn, type Units } from '../format'
import { wordsIn } from '../words/words'
import { whyWordsIn } from '../words/why'
import { explainIn } from './explain'
import type { Row } from './why.svelte'

/** Why it is light and dark when it is. */
export function lightReasons(_: undefined, outcome: Outcome, units: Units): Row {
  const { distance, duration, energy, measure, number, percent } = formatIn(units)
  const { times } = wordsIn(units)
  const words = whyWordsIn(units)
  const explain = explainIn(units)
  const { route, plan, zone, started, columns } = outcome
  const { latitude, longitude } = route.stations
  const last = latitude.length - 1
  const clock = clockOf(outcome)
  const summary = daylightOf(outcome, new LightAlong(route, started), plan.assist.lights)
  const dark = summary.length.dark + summary.length.twilight
  const darkTime = summary.time.dark + summary.time.twilight
  const sunAt = (station: number, date: string, of: 'sunrise' | 'sunset', name: string) => {
    const instant = sunOn(latitude[station]!, longitude[station]!, date, zone)[of]
    return instant === undefined
      ? []
      : [
          explain('sun', {
            title: name,
            values: {
              latitude: `${number(latitude[station]!, 3)}°`,
              longitude: `${number(longitude[station]!, 3)}°`,
              date: times.date(date),
            },
            result: clock(instant),
          }),
        ]
  }
  const finish = started + columns.time[last]!
  return {
    title: words.lightTitle,
    reasons: [
      ...sunAt(0, plan.start.slice(0, 10), 'sunrise', words.sunrise),
      ...sunAt(last, localAt(finish, zone).slice(0, 10), 'sunset', words.sunset),
      explain('inDark', {
        values: { dark: distance(dark), length: distance(outcome.length) },
        result: percent(summary.share),
      }),
      ...(plan.assist.lights > 0 && dark > 0
        ? [
            explain('lamps', {
              values: { lampPower: measure(plan.assist.lights, 'power'), darkTime: duration(darkTime) },
              result: energy(summary.lampEnergy),
            }),
          ]
        : []),
    ],
  }
}
