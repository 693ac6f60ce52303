import { indexAtOrBelow } from '../../model/columns'
import { daylightOf, lightsAdvice } from '../../model/readings/light'
import { LightAlong, sunOn, type Light } from '../../model/world/daylight'
import { localAt } from '../../model/world/zone'
import type { Outcome } from '../../model/forecast/outcome'
import type { Units } from '../format'
import { clockOf } from '../clock'
import { dayWordsIn } from '../words/day'
import { wordsIn } from '../words/words'

/** A stretch of the day in one light, as shares of the time from start to finish. */
export interface LightSpan {
  light: Light
  from: number
  to: number
}

export interface LightOfDay {
  sentences: string[]
  spans: LightSpan[]
  /** In short, for the sheet to print. */
  inShort: string
}

const slices = 288

/** What the sun does on the day, in words and as stretches of a bar. */
export function lightOfDay(outcome: Outcome, units: Units): LightOfDay {
  const { route, plan, zone, started, columns } = outcome
  const clock = clockOf(outcome)
  const light = new LightAlong(route, started)
  const summary = daylightOf(outcome, light, plan.assist.lights)
  const { latitude, longitude } = route.stations
  const last = latitude.length - 1
  const finish = started + columns.time[last]!
  const morning = sunOn(latitude[0]!, longitude[0]!, plan.start.slice(0, 10), zone)
  const evening = sunOn(latitude[last]!, longitude[last]!, localAt(finish, zone).slice(0, 10), zone)
  const words = dayWordsIn(units).light
  const sun = words.sun(morning, evening, clock)
  const dark = summary.length.dark + summary.length.twilight
  const spare = evening.sunset === undefined ? undefined : evening.sunset - finish
  const advice = wordsIn(units).lights[lightsAdvice(summary, spare)]
  return {
    sentences: [
      sun,
      ...(dark > 0 ? [words.inDark(summary, (time) => clock(started + time))] : []),
      advice,
      ...(dark > 0 && plan.assist.lights > 0 ? [words.lamps(plan.assist, summary.lampEnergy)] : []),
    ],
    spans: spansOf(outcome, light),
    inShort: `${sun} ${advice}`,
  }
}

function spansOf({ columns }: Outcome, light: LightAlong): LightSpan[] {
  const finish = columns.time.at(-1)!
  const spans: LightSpan[] = []
  for (let k = 0; k < slices; k++) {
    const time = ((k + 0.5) * finish) / slices
    const here = light.lightAt(indexAtOrBelow(columns.time, time), { time })
    const before = spans.at(-1)
    if (before?.light === here) before.to = (k + 1) / slices
    else spans.push({ light: here, from: k / slices, to: (k + 1) / slices })
  }
  return spans
}
