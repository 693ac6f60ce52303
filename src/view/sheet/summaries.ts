import { ratedEnergyWh } from '../../model/battery/pack'
import { passagesFor } from '../../model/readings/passages'
import { joulesPerWattHour } from '../../model/units'
import { totalMass } from '../../model/forecast/mass'
import type { Outcome } from '../../model/forecast/outcome'
import type { Units } from '../format'
import { sheetWordsIn, type SheetWords } from '../words/sheet'
import { wordsIn, type Words } from '../words/words'
import { compassPoint } from './compass'

/**
 * The state of each group of the sheet, in one line.
 *
 * @param proposed how many parts of the track look like crossings
 */
export function summaries(outcome: Outcome, units: Units, proposed = 0) {
  const { plan, route } = outcome
  const { rider, assist, weather, battery, stops } = plan
  const { inShort } = sheetWordsIn(units)
  const rated = battery.packs.reduce((sum, pack) => sum + ratedEnergyWh(pack), 0)
  const crossings = outcome.halts.filter(({ kind }) => kind === 'crossing')
  const crossingTime = crossings.reduce((sum, { arrive, depart }) => sum + depart - arrive, 0)
  return {
    rider: inShort.rider(rider),
    bike: inShort.bike(totalMass(plan)),
    batteries: inShort.batteries(battery.packs.length, outcome.usable / joulesPerWattHour, rated),
    assist: inShort.assist(assist, plan.stretches.filter(({ assistRatio }) => assistRatio !== null).length),
    weather:
      weather.table.length > 0
        ? inShort.byTheHour(weather.table.length)
        : inShort.weather(weather, compassPoint(weather.windFromDegrees)),
    stops: inShort.stops(stops.length),
    stretches: inShort.stretches(plan.stretches.length),
    crossings: inShort.crossings(crossings.length, crossingTime, proposed),
    controls: controlsInShort(outcome, wordsIn(units), inShort),
    route: inShort.route(route),
  }
}

/** The first that is missed, else the least margin of all. */
function controlsInShort(outcome: Outcome, { place }: Words, words: SheetWords['inShort']): string {
  const passages = passagesFor(outcome)
  if (passages.length === 0) return words.noControls
  const worst = passages.reduce((a, b) => ((b.margin ?? Infinity) < (a.margin ?? Infinity) ? b : a))
  const { controls, goal } = outcome.plan
  return words.controls(controls.length, goal !== null, { place: place(worst.name), margin: worst.margin })
}
