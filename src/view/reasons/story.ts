import { departure, leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { massParts, totalMass, type MassParts } from '../../model/forecast/mass'
import { meanDrain } from '../../model/readings/drain'
import { factsOf, timesOf } from '../../model/readings/facts'
import { passagesFor, ridingMargin } from '../../model/readings/passages'
import { daySheet } from '../../model/readings/sheet'
import { clockAfter } from '../../model/world/zone'
import { drain, formatIn, type Units } from '../format'
import { wordsIn } from '../words/words'
import { whyWordsIn } from '../words/why'
import { explainIn, type PutIn } from './explain'
import type { Reason, StoryFigure } from './why.svelte'

/** Why a figure of a whole forecast is what it is. */
export const storyReason = (figure: StoryFigure, outcome: Outcome, units: Units): Reason =>
  explainIn(units)(figure, putIn[figure](outcome, units))

/** What is put into a pack over all halts, J. */
export const chargedIn = (halts: Outcome['halts']): number =>
  halts.reduce((sum, { leftBefore, leftAfter }) => sum + Math.max(0, leftAfter - leftBefore), 0)

/** Halts before the finish of one kind, by name and place, with their time. */
function haltsOf({ plan, columns, halts }: Outcome, units: Units, isCrossing: boolean): PutIn['each'] {
  const { duration, place } = formatIn(units)
  const words = whyWordsIn(units)
  return halts
    .filter(({ kind, station }) => station !== columns.time.length - 1 && (kind === 'crossing') === isCrossing)
    .map((halt) => {
      const own = plan.stops.find(({ id }) => id === halt.stop) ?? plan.controls.find(({ id }) => id === halt.control)
      const name = own?.name ?? (halt.kind === 'swap' ? words.otherHalt : words.names.crossing)
      return [`${name}, ${place(halt.distance)}`, duration(halt.depart - halt.arrive)]
    })
}

const timesIn = (outcome: Outcome, units: Units) => {
  const { duration } = formatIn(units)
  const { riding, smallHalts, stopped, crossing } = timesOf(outcome)
  return {
    riding: duration(riding),
    smallHalts: duration(smallHalts),
    stopped: duration(stopped),
    crossing: duration(crossing),
  }
}

/** From the start until all is over at the finish, s. */
const wholeDay = (outcome: Outcome) => departure(outcome, outcome.columns.time.length - 1)

const putIn: Record<StoryFigure, (outcome: Outcome, units: Units) => PutIn> = {
  finish: (outcome, units) => ({
    values: { start: clockAfter(outcome.plan.start, 0, outcome.zone), ...timesIn(outcome, units) },
    result: clockAfter(outcome.plan.start, timesOf(outcome).elapsed, outcome.zone),
  }),
  elapsed: (outcome, units) => ({
    values: timesIn(outcome, units),
    result: formatIn(units).duration(timesOf(outcome).elapsed),
  }),
  day: (outcome, units) => {
    const { duration } = formatIn(units)
    const whole = Math.max(timesOf(outcome).elapsed, wholeDay(outcome))
    return {
      values: { ...timesIn(outcome, units), atFinish: duration(whole - timesOf(outcome).elapsed) },
      result: duration(whole),
    }
  },
  riding: (outcome, units) => {
    const { distance, duration, height, measure, number, speed } = formatIn(units)
    const { plan, length, route, columns } = outcome
    const { riding } = timesOf(outcome)
    return {
      values: {
        length: distance(length),
        ascent: height(route.ascent),
        steps: number(columns.time.length - 1),
        mass: measure(totalMass(plan), 'mass', 1),
        dragArea: measure(plan.bike.dragArea, 'area'),
        rolling: measure(plan.bike.rolling, 'coefficient'),
        power: measure(plan.rider.power, 'power'),
        wind: measure(plan.weather.windSpeed, 'windSpeed'),
        meanSpeed: speed(length / riding),
      },
      result: duration(riding),
    }
  },
  smallHalts: (outcome, units) => {
    const { distance, duration, measure } = formatIn(units)
    return {
      values: {
        length: distance(outcome.length),
        eachHundred: `${measure(outcome.plan.rider.smallHalts, 'haltTime')} / ${whyWordsIn(units).hundred}`,
      },
      result: duration(timesOf(outcome).smallHalts),
    }
  },
  standing: (outcome, units) => {
    const { stopped, smallHalts } = timesIn(outcome, units)
    const times = timesOf(outcome)
    return { values: { stopped, smallHalts }, result: formatIn(units).duration(times.stopped + times.smallHalts) }
  },
  stopped: (outcome, units) => ({
    each: haltsOf(outcome, units, false) ?? [],
    result: formatIn(units).duration(timesOf(outcome).stopped),
  }),
  crossing: (outcome, units) => ({
    each: haltsOf(outcome, units, true) ?? [],
    result: formatIn(units).duration(timesOf(outcome).crossing),
  }),
  packs: ({ electric }, units) => {
    const { energy } = formatIn(units)
    return {
      values: {
        motorWork: energy(electric.motorWork),
        motorLoss: energy(electric.motorLoss),
        electronics: energy(electric.electronics),
        packLoss: energy(electric.packLoss),
      },
      result: energy(electric.drained),
    }
  },
  drain: (outcome, units) => {
    const { distance, energy } = formatIn(units)
    return {
      values: { taken: energy(outcome.electric.drained), length: distance(outcome.length) },
      result: drain(meanDrain(outcome), units),
    }
  },
  goal: (outcome, units) => {
    const { duration } = formatIn(units)
    const goal = passagesFor(outcome).find(({ kind }) => kind === 'goal')
    return {
      values: { goal: duration(outcome.plan.goal ?? 0), wholeDay: duration(timesOf(outcome).elapsed) },
      result: wordsIn(units).times.margin(goal?.margin) || '–',
    }
  },
  ridingGoal: (outcome, units) => ({
    values: { goal: formatIn(units).duration(outcome.plan.ridingGoal ?? 0), riding: timesIn(outcome, units).riding },
    result: wordsIn(units).times.margin(ridingMargin(outcome)) || '–',
  }),
  charge: (outcome, units) => {
    const { energy, percent } = formatIn(units)
    const { leftAtStart, electric, halts, usable } = outcome
    return {
      values: {
        leftAtStart: energy(leftAtStart),
        taken: energy(electric.drained),
        charged: energy(chargedIn(halts)),
        full: energy(usable),
      },
      result: percent(leftAtFinish(outcome) / usable),
    }
  },
  least: (outcome, units) => {
    const { energy, percent } = formatIn(units)
    const { reserve, plan, electric, halts } = outcome
    return {
      values: {
        reserve: `${percent(plan.battery.reserve)}, ${energy(reserve)}`,
        taken: energy(electric.drained),
        charged: energy(chargedIn(halts)),
      },
      result: percent(daySheet(outcome, factsOf(outcome))[0]!.least),
    }
  },
  margin: (outcome, units) => {
    const { times, place } = wordsIn(units)
    const margins = passagesFor(outcome).flatMap(({ margin, ...passage }) =>
      margin === undefined ? [] : [{ ...passage, margin }],
    )
    const sailings = outcome.halts.flatMap(({ sailing, distance }) =>
      sailing?.margin === undefined ? [] : [{ margin: sailing.margin, distance }],
    )
    const least = [...margins, ...sailings].reduce((least, { margin }) => Math.min(least, margin), Infinity)
    const at = formatIn(units).place
    return {
      each: [
        ...margins.map(
          ({ name, distance, margin }) => [`${place(name)}, ${at(distance)}`, times.margin(margin)] as const,
        ),
        ...sailings.map(
          ({ distance, margin }) =>
            [`${whyWordsIn(units).names.crossing}, ${at(distance)}`, times.margin(margin)] as const,
        ),
      ],
      result: least < Infinity ? times.margin(least) : '–',
    }
  },
  work: (outcome, units) => {
    const { measure } = formatIn(units)
    const work = outcome.columns.riderWork.at(-1)!
    const { riding } = timesOf(outcome)
    return {
      values: {
        power: measure(outcome.plan.rider.power, 'power'),
        meanPower: measure(work / riding, 'power', 1),
        riding: timesIn(outcome, units).riding,
      },
      result: measure(work, 'energy', 0),
    }
  },
  mass: ({ plan }, units) => {
    const { measure } = formatIn(units)
    const shown = (mass: number) => measure(mass, 'mass', 1)
    const parts = massParts(plan)
    const values = Object.entries(parts).map(([part, mass]) => [part, shown(mass)] as const)
    return { values: Object.fromEntries(values) as Record<keyof MassParts, string>, result: shown(totalMass(plan)) }
  },
}
