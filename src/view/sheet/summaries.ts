import { ratedEnergyWh } from '../../model/battery/pack'
import { passagesFor } from '../../model/readings/passages'
import { totalMass } from '../../model/forecast/mass'
import type { Outcome } from '../../model/forecast/outcome'
import { distance, duration, height, measure, number, percent, type Units } from '../format'
import { wordsIn } from '../words/words'
import { compassPoint } from './compass'

const counted = (count: number, one: string, more = 's') => `${count} ${one}${count === 1 ? '' : more}`

/**
 * The state of each group of the sheet, in one line.
 *
 * @param proposed how many parts of the track look like crossings
 */
export function summaries(outcome: Outcome, units: Units, proposed = 0) {
  const { plan, route } = outcome
  const { rider, assist, weather, battery, stops } = plan
  const rated = battery.packs.reduce((sum, pack) => sum + ratedEnergyWh(pack), 0)
  const wind =
    weather.windSpeed === 0
      ? 'no wind'
      : `wind ${measure(weather.windSpeed, 'windSpeed', units)} from ${compassPoint(weather.windFromDegrees)}`
  const ownRatios = plan.stretches.filter(({ assistRatio }) => assistRatio !== null).length
  const crossings = outcome.halts.filter(({ kind }) => kind === 'crossing')
  return {
    rider: `${measure(rider.mass, 'mass', units, 0)}, ${measure(rider.power, 'power', units)}`,
    bike: `${measure(totalMass(plan), 'mass', units, 0)} with rider and load`,
    batteries: `${counted(battery.packs.length, 'pack')}, ${number(rated)} Wh`,
    assist: `${percent(assist.ratio)}, climbs ${percent(assist.climbRatio)}${ownRatios === 0 ? '' : `, other on ${counted(ownRatios, 'stretch', 'es')}`}, to ${measure(assist.limitSpeed, 'speed', units, 0)}`,
    weather:
      weather.table.length > 0
        ? `by the hour${weather.table.length > 1 ? `, ${weather.table.length} places` : ''}`
        : `${measure(weather.temperatureCelsius, 'temperature', units)}, ${wind}`,
    stops: stops.length === 0 ? 'none yet' : counted(stops.length, 'stop'),
    stretches: plan.stretches.length === 0 ? 'none' : `${plan.stretches.length} with something of their own`,
    crossings: [
      crossings.length === 0
        ? 'none'
        : `${crossings.length}, ${duration(crossings.reduce((sum, { arrive, depart }) => sum + depart - arrive, 0))}`,
      ...(proposed === 0 ? [] : [`${proposed} proposed`]),
    ].join(', '),
    controls: controlsInShort(outcome, units),
    route: `${distance(route.length, units)}, ${height(route.ascent, units)} up`,
  }
}

/** The first that is missed, else the least margin of all. */
function controlsInShort(outcome: Outcome, units: Units): string {
  const passages = passagesFor(outcome)
  if (passages.length === 0) return 'none, no goal'
  const worst = passages.reduce((a, b) => ((b.margin ?? Infinity) < (a.margin ?? Infinity) ? b : a))
  const { controls, goal } = outcome.plan
  const what = [controls.length > 0 ? counted(controls.length, 'control') : '', goal === null ? '' : 'a goal']
  const margin = wordsIn(units).times.margin(worst.margin)
  return [
    ...what.filter((part) => part !== ''),
    ...(margin === '' ? [] : [`${wordsIn(units).place(worst.name)}: ${margin}`]),
  ].join(', ')
}
