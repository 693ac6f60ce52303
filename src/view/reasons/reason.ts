import { departure, leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { massParts, totalMass, type MassParts } from '../../model/forecast/mass'
import { meanDrain } from '../../model/readings/drain'
import { factsOf, timesOf } from '../../model/readings/facts'
import { turnover } from '../../model/readings/needs'
import { passagesFor, ridingMargin } from '../../model/readings/passages'
import { daySheet } from '../../model/readings/sheet'
import { clockAfter } from '../../model/world/zone'
import { drain, formatIn, type Units } from '../format'
import { dayWordsIn } from '../words/day'
import { wordsIn } from '../words/words'
import { whyWordsIn } from '../words/why'
import type { Figure, Reason } from './why.svelte'

/** Why a figure of a forecast is what it is, with its values. */
export function reasonOf(figure: Figure, outcome: Outcome, units: Units): Reason {
  const { figures, names } = whyWordsIn(units)
  return { ...figures[figure], ...valuesOf(figure, outcome, units, names) }
}

function valuesOf(
  figure: Figure,
  outcome: Outcome,
  units: Units,
  names: ReturnType<typeof whyWordsIn>['names'],
): Pick<Reason, 'values' | 'result'> {
  const { duration, energy, distance, height, measure, number, percent, speed } = formatIn(units)
  const { plan, columns, electric, halts, usable } = outcome
  const { times: called } = dayWordsIn(units).timetable
  const { times: worded, place } = wordsIn(units)
  const times = timesOf(outcome)
  const last = columns.time.length - 1
  const finish = clockAfter(plan.start, times.elapsed, outcome.zone)
  const whole = Math.max(times.elapsed, departure(outcome, last))
  const timed = (...of: (keyof typeof times)[]): Reason['values'] =>
    of.filter((key) => times[key] > 0).map((key) => [called[key], duration(times[key])])
  const parts = timed('riding', 'smallHalts', 'stopped', 'crossing')
  const charged = halts.reduce((sum, { leftBefore, leftAfter }) => sum + Math.max(0, leftAfter - leftBefore), 0)
  const halted = (isOne: (halt: (typeof halts)[number]) => boolean): Reason['values'] =>
    halts
      .filter((halt) => halt.station !== last && isOne(halt))
      .map((halt) => [
        `${plan.stops.find(({ id }) => id === halt.stop)?.name ?? plan.controls.find(({ id }) => id === halt.control)?.name ?? (halt.kind === 'swap' ? names.otherHalt : called.crossing)}, ${formatIn(units).place(halt.distance)}`,
        duration(halt.depart - halt.arrive),
      ])
  switch (figure) {
    case 'finish':
      return { values: [[names.start, clockAfter(plan.start, 0, outcome.zone)], ...parts], result: finish }
    case 'elapsed':
      return { values: parts, result: duration(times.elapsed) }
    case 'day':
      return { values: [...parts, [names.atFinish, duration(whole - times.elapsed)]], result: duration(whole) }
    case 'riding':
      return {
        values: [
          [names.length, distance(outcome.length)],
          [names.ascent, height(outcome.route.ascent)],
          [names.steps, number(last)],
          [names.mass, measure(totalMass(plan), 'mass', 1)],
          [names.dragArea, measure(plan.bike.dragArea, 'area')],
          [names.rolling, measure(plan.bike.rolling, 'coefficient')],
          [names.power, measure(plan.rider.power, 'power')],
          [names.wind, measure(plan.weather.windSpeed, 'windSpeed')],
          [names.meanSpeed, speed(outcome.length / times.riding)],
        ],
        result: duration(times.riding),
      }
    case 'smallHalts':
      return {
        values: [
          [names.length, distance(outcome.length)],
          [names.eachHundred, measure(plan.rider.smallHalts, 'haltTime')],
        ],
        result: duration(times.smallHalts),
      }
    case 'standing':
      return { values: timed('stopped', 'smallHalts'), result: duration(times.stopped + times.smallHalts) }
    case 'stopped':
      return { values: halted(({ kind }) => kind !== 'crossing'), result: duration(times.stopped) }
    case 'crossing':
      return { values: halted(({ kind }) => kind === 'crossing'), result: duration(times.crossing) }
    case 'packs':
      return {
        values: [
          [names.motorWork, energy(electric.motorWork)],
          [names.motorLoss, energy(electric.motorLoss)],
          [names.electronics, energy(electric.electronics)],
          [names.packLoss, energy(electric.packLoss)],
          [names.drain, drain(meanDrain(outcome), units)],
        ],
        result: energy(electric.drained),
      }
    case 'goal': {
      const goal = passagesFor(outcome).find(({ kind }) => kind === 'goal')
      const values: Reason['values'] = [
        [names.goal, duration(plan.goal ?? 0)],
        [called.elapsed, duration(whole)],
      ]
      return { values, result: goal === undefined ? '–' : worded.margin(goal.margin) }
    }
    case 'ridingGoal': {
      const margin = ridingMargin(outcome)
      const values: Reason['values'] = [[names.goal, duration(plan.ridingGoal ?? 0)], ...timed('riding')]
      return { values, result: margin === undefined ? '–' : worded.margin(margin) }
    }
    case 'charge':
      return {
        values: [
          [names.leftAtStart, energy(outcome.leftAtStart)],
          [names.taken, energy(electric.drained)],
          [names.charged, energy(charged)],
          [names.full, energy(usable)],
        ],
        result: percent(leftAtFinish(outcome) / usable),
      }
    case 'least':
      return {
        values: [
          [names.reserve, `${percent(plan.battery.reserve)}, ${energy(outcome.reserve)}`],
          [names.taken, energy(electric.drained)],
          [names.charged, energy(charged)],
        ],
        result: percent(daySheet(outcome, factsOf(outcome))[0]!.least),
      }
    case 'margin': {
      const passages = passagesFor(outcome).flatMap(({ margin, ...passage }) =>
        margin === undefined ? [] : [{ ...passage, margin }],
      )
      const least = passages.reduce((least, { margin }) => Math.min(least, margin), Infinity)
      return {
        values: passages.map(({ name, distance, margin }) => [
          `${place(name)}, ${formatIn(units).place(distance)}`,
          worded.margin(margin),
        ]),
        result: least < Infinity ? worded.margin(least) : '–',
      }
    }
    case 'work': {
      const work = columns.riderWork[last]!
      return {
        values: [
          [names.power, measure(plan.rider.power, 'power')],
          ...timed('riding'),
          [names.efficiency, percent(plan.needs.grossEfficiency)],
          [names.turnover, measure(turnover(work, plan.needs.grossEfficiency).energy, 'energy', 0)],
        ],
        result: measure(work, 'energy', 0),
      }
    }
    case 'mass':
      return {
        values: Object.entries(massParts(plan)).map(([part, mass]) => [
          names[part as keyof MassParts],
          measure(mass, 'mass', 1),
        ]),
        result: measure(totalMass(plan), 'mass', 1),
      }
  }
}
