import { departure, leftAfter, type Outcome } from '../../model/forecast/outcome'
import type { Leg } from '../../model/readings/legs'
import { clockAfter } from '../../model/world/zone'
import { drain, formatIn, type Units } from '../format'
import { wordsIn } from '../words/words'
import { whyWordsIn } from '../words/why'
import { explainIn } from './explain'
import type { Row } from './why.svelte'

/** Why each figure of a leg is what it is. */
export function legReasons(leg: Leg, outcome: Outcome, units: Units): Row {
  const { distance, duration, energy, height, measure, percent, place, speed } = formatIn(units)
  const words = whyWordsIn(units)
  const explain = explainIn(units)
  const { plan, zone, usable, route } = outcome
  const { elevation } = route.stations
  const [heightFrom, heightTo] = [height(elevation[leg.first]!), height(elevation[leg.last]!)]
  const length = distance(leg.length, 2)
  const riding = duration(leg.ridingTime)
  const setOff = departure(outcome, leg.first)
  const meanOf = (work: number) => measure(leg.ridingTime > 0 ? work / leg.ridingTime : 0, 'power', 1)
  const kilojoules = (work: number) => measure(work, 'energy', 0)
  const ends = { from: place(leg.start, 2), to: place(leg.end, 2) }
  const climbs =
    route.elevationKnown === 'none'
      ? []
      : [
          explain('legAscent', { values: { heightFrom, heightTo }, result: height(leg.ascent) }),
          explain('legDescent', {
            values: { ascent: height(leg.ascent), heightTo, heightFrom },
            result: height(leg.descent),
          }),
          explain('legMean', { values: { heightTo, heightFrom, length }, result: percent(leg.meanGradient, 1) }),
          explain('legSteepest', { values: {}, result: percent(leg.steepestGradient, 1) }),
        ]
  const isCharging = leg.halts.some(
    ({ leftBefore, leftAfter, station }) => station < leg.last && leftAfter > leftBefore,
  )
  return {
    title: `${words.leg(leg.number)}, ${wordsIn(units).place(leg.to)}`,
    reasons: [
      explain('legLength', { values: ends, result: distance(leg.length) }),
      ...climbs,
      explain('legRiding', {
        values: { length, meanPower: meanOf(leg.riderWork), meanMotor: meanOf(leg.motorWork) },
        result: riding,
      }),
      explain('legSpeed', { values: { length, riding }, result: speed(leg.meanSpeed) }),
      explain('legRider', { values: { meanPower: meanOf(leg.riderWork), riding }, result: kilojoules(leg.riderWork) }),
      explain('legMotor', { values: { meanMotor: meanOf(leg.motorWork), riding }, result: kilojoules(leg.motorWork) }),
      explain('legBattery', {
        values: { motorWork: energy(leg.motorWork), losses: energy(leg.drained - leg.motorWork) },
        result: energy(leg.drained),
      }),
      explain('legDrain', { values: { taken: energy(leg.drained), length }, result: drain(leg.drain, units) }),
      ...(usable > 0 && !isCharging
        ? [
            explain('legCharge', {
              values: {
                leftSetOff: energy(leftAfter(outcome, leg.first)),
                taken: energy(leg.drained),
                full: energy(usable),
              },
              result: percent(leg.leftAtEnd / usable),
            }),
          ]
        : []),
      explain('legArrive', {
        values: {
          setOff: clockAfter(plan.start, setOff, zone),
          riding,
          halts: duration(leg.arrive - setOff - leg.ridingTime),
        },
        result: clockAfter(plan.start, leg.arrive, zone),
      }),
      explain('legAhead', {
        values: { ahead: distance(leg.wind.ahead * leg.length, 2), length },
        result: percent(leg.wind.ahead),
      }),
      explain('legBehind', {
        values: { behind: distance(leg.wind.behind * leg.length, 2), length },
        result: percent(leg.wind.behind),
      }),
    ],
  }
}
