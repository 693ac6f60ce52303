import type { HaltGained } from '../../../model/learn/gained'
import type { Correlation, Span80, Verdict, Worth } from '../../../model/learn/beliefs'
import type { Tested } from '../../../model/learn/foretell'
import { training, type Spread, type Training } from '../../../model/chance/training'
import type { SameWay } from '../../../model/learn/same-way'
import type { StepRatio } from '../../../model/learn/steps'
import type { WeatherPlace } from '../../../model/plan/day-schema'
import { learntParameter } from '../../../model/plan/learnt'
import type { Learnt, LearntFigure, LearntPath, PlanStep } from '../../../model/plan/schema'
import type { RideFacts } from '../../../model/recording/facts'
import type { RecordedCrossing, RecordedHalt, RecordingFault } from '../../../model/recording/recording'
import type { RideReading } from '../../../work/learn.worker'
import { joulesPerWattHour } from '../../../model/units'
import { drainUnit, inDistance, type Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'
import { routeIn } from './route'
import { times } from './times'

/** `Sat 2026-06-20`, from `2026-06-20T…`. */
const dateText = (date: string) => times.date(date.slice(0, 10))

const figures: Record<LearntPath, string> = {
  'rider.power': 'Power',
  'rider.climbFactor': 'Power on climbs',
  'rider.fade': 'Tiring over the day',
  'rider.smallHalts': 'Small halts',
  'bike.dragArea': 'Air drag',
  'bike.rolling': 'Rolling',
  'assist.ratio': 'Assist',
  'assist.climbRatio': 'Assist on climbs',
  'assist.lossFactor': 'Losses of the motor',
}
/** Within a sentence. */
const figure = (path: LearntPath) => figures[path].toLowerCase()

/** The shape of a span: half of it over its middle. */
const halfOf = ({ middle, low80, high80 }: Span80) => (high80 - low80) / 2 / middle

const listed = (texts: readonly string[]) =>
  texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`

/** Of rides that were ridden, and of what they tell of rider and bike. */
export const lastIn = (format: Format) => {
  const { distance, duration, height, measure, number, percent, place, units } = format
  const count = (many: number, one: string, several = `${one}s`) => `${number(many)} ${many === 1 ? one : several}`
  const near = (share: number) => `±\u00a0${percent(share)}`
  const value = (path: LearntPath, amount: number) => {
    const digits: Partial<Record<LearntPath, number>> = { 'rider.fade': 1, 'bike.dragArea': 2 }
    return measure(amount, learntParameter(path).quantity, digits[path])
  }
  /** Least first: `2 min off`. */
  const off = (seconds: number) => `${duration(Math.abs(seconds))} too ${seconds < 0 ? 'short' : 'long'}`
  const routeFault = routeIn(format).fault
  const ridesIn = (from: Learnt['from']) =>
    listed(
      from.map(({ name, date }) =>
        name === '' ? 'what you remember' : `“${cut(name, 30)}”${date === null ? '' : `, ${dateText(date)}`}`,
      ),
    )
  const minutes = (seconds: number) => `${number(seconds / 60)}\u00a0min`
  const wattHours = (joules: number) => `${number(joules / joulesPerWattHour)}\u00a0Wh`
  /** `30 Wh too little`. */
  const offBy = (joules: number) => `${wattHours(Math.abs(joules))} too ${joules < 0 ? 'little' : 'much'}`
  /** A saving is less: `−4 min`. */
  const saved = (value: number, text: (value: number) => string) => `${value < 0 ? '+' : '−'}${text(Math.abs(value))}`
  const part = (from: number, to: number) => `${number(inDistance(from, units))}–${distance(to, 0)}`
  const slower = (seconds: number) =>
    Math.abs(seconds) < 3
      ? 'as foretold'
      : `${number(Math.abs(seconds) / 60, 1)} min ${seconds < 0 ? 'quicker' : 'slower'}`
  /** In whole minutes. */
  const roughly = (seconds: number) =>
    Math.abs(seconds) < 30 ? 'as quick' : `${minutes(Math.abs(seconds))} ${seconds < 0 ? 'quicker' : 'slower'}`
  const ofRide = (ride: string | undefined) => (ride === undefined ? '' : `, “${cut(ride, 40)}”`)

  return {
    about:
      'A ride that you have ridden tells how strong you ride, how much the motor helps and how hard the bike runs. What it tells makes this day’s forecast surer. Nothing leaves your browser.',
    choose: 'Choose a recording',
    chooseMore: 'Another recording',
    drop: 'A GPX or other route file with times, of this route or another; or drop it here.',
    file: 'Recording',
    sample: 'Take last year’s ride of this sample',
    remember: 'I have no recording',
    rememberMore: 'A ride without a recording',
    full: 'There is no room for more rides with this day: remove one.',
    removed: (name: string) => `“${cut(name)}” is removed.`,
    putBack: 'Put it back',
    remove: 'Remove',
    removeThis: (name: string) => `Remove “${cut(name)}”`,
    remembered: 'A ride on this route, as you remember it',
    reading: 'Reading the recording.',
    unread: (file: string, { fault }: Extract<RideReading, { ok: false }>) =>
      `“${cut(file)}” tells nothing: ${fault.code === 'noTimes' ? 'it has no times, so it is a route, not a ride that was ridden.' : routeFault(fault)}`,
    notRidden:
      'Its times are not of a ride: no one halts, and the speed follows from the slope alone, as a planner makes them. Nothing is learnt from it.',

    title: (name: string, start: string) => `${cut(name)}, ${dateText(start)}`,
    length: ({ length, ascent }: RideFacts) => `${distance(length)}, ${height(ascent)} up.`,
    times: ({ elapsed, riding, stopped, crossing }: RideFacts, halts: number) =>
      `${duration(elapsed)} from start to finish: ${duration(riding)} riding, ${duration(stopped)} standing in ${count(halts, 'halt')}${crossing > 0 ? `, ${duration(crossing)} on crossings` : ''}.`,
    longHalts: (halts: readonly RecordedHalt[]) =>
      `Longest halts: ${listed(halts.map(({ distance, time }) => `${duration(time)} at ${place(distance)}`))}.`,
    allHalts: (many: number) => `All ${count(many, 'halt')}`,
    halt: ({ distance, time }: RecordedHalt) =>
      `${place(distance)}: ${time < 300 ? `${number(time)} s` : duration(time)}`,
    crossing: ({ distance: at, length, time }: RecordedCrossing) =>
      `Travelled, not ridden, at ${place(at)}: ${distance(length)}${Number.isFinite(time) ? ` in ${duration(time)}` : ''}.`,
    measured: ({ power, heartRate, cadence }: RideFacts) => {
      const said = [
        ...(power === undefined ? [] : [measure(power, 'power')]),
        ...(heartRate === undefined ? [] : [`pulse ${number(heartRate)}`]),
        ...(cadence === undefined ? [] : [`cadence ${number(cadence)}`]),
      ]
      return said.length === 0 ? '' : `Measured in motion, mean: ${said.join(', ')}.`
    },
    notUsed: worded<RecordingFault>({
      dropOuts: ({ count: many, length, time }) =>
        `Not used: ${count(many, 'drop-out')} of the receiver, ${distance(length)} in ${duration(time)}.`,
      clockErrors: ({ count: many }) => `Not used: ${count(many, 'point')} at which the clock is wrong.`,
      pointsWithoutTime: ({ count: many, points }) => `${number(many)} of ${count(points, 'point')} have no time.`,
      madeUpTimes: () => 'Times that a planner made.',
    }),
    noElevation: 'The recording has no elevation: climbs are taken as flat, so do not trust what it tells.',
    fewStretches: (many: number) =>
      `Only ${count(many, 'piece')} of ${distance(500)} could be compared: it tells little.`,

    /** What the rider adds. */
    charge: {
      title: 'Charge that day',
      ask: 'A ride alone can’t tell you from your motor. Two readings of the charge can:',
      worth: (worth: readonly Worth[]) =>
        `With both, ${listed(worth.map(({ path, now, then }) => `${figure(path)} would be known to ${near(then)} instead of ${near(now)}`))}.`,
      worthLittle:
        'This ride tells assist and power apart quite well already; both readings would still help a little.',
      start: 'Left at the start',
      end: 'Left at the finish',
      of: 'Of all that is in all packs together; a full start is 100 %.',
      endAboveStart:
        'More was left at the finish than at the start: if you charged on the way, leave the finish empty.',
      packs: 'Packs along, like your first',
      swaps: 'Packs that were changed on the way',
      swapAt: (many: number) => `Pack ${many}, changed at`,
      swapLeft: 'What was left in it',
      addSwap: 'A pack was changed',
      removeSwap: 'Not changed',
      unknown: '?',
      noted: ({ start, end }: { start: number; end: number }) =>
        `Its rider noted ${percent(start)} at the start and ${percent(end)} at the finish.`,
    },
    day: {
      title: 'Bike, luggage and weather that day',
      about: 'Empty fields are as in this day’s plan.',
      riderMass: 'Rider, dressed',
      bikeMass: 'Bike',
      luggage: 'Luggage',
      ratio: 'Assist, as you think of it',
      climbRatio: 'Assist on climbs',
      share: (number: number, { name }: Pick<PlanStep, 'name'>) =>
        `Of the way at step ${number}${name === '' ? '' : `, “${cut(name, 24)}”`}`,
      sharesAbout: 'The stronger steps are taken as ridden uphill.',
      windSpeed: 'Wind',
      windFromDegrees: 'Wind from',
      temperatureCelsius: 'Temperature',
    },
    weather: {
      paste: 'Paste the weather by the hour',
      byHour: (table: readonly WeatherPlace[]) =>
        `Weather by the hour: ${count(
          table.reduce((sum, { hours }) => sum + hours.length, 0),
          'hour',
        )} at ${count(table.length, 'place')}.`,
      remove: 'Without it',
      lamps: 'Lamps',
      lampsOf: { plan: 'as in the plan', always: 'on all the way', dark: 'on in the dark', off: 'off' },
    },
    after: {
      title: 'After the ride',
      unused: 'Came back unused: it is marked so in your kit, for the next time.',
      text: 'Note',
    },
    memory: {
      about:
        'Three numbers are enough for a rough idea: how long you rode, how many packs you used, and what was left.',
      riding: 'Riding time, without halts',
      ridingForm: '8:15',
      ridingFault: 'Hours and minutes as 8:15.',
      used: 'Packs used',
      left: 'Left in the last of them',
    },

    known: {
      title: 'What is known now',
      legend: 'Thin: before the ride, by the handbook and your plan. Thick: after it. Each holds 8 of 10.',
      figures,
      value,
      span: (path: LearntPath, { low80, high80 }: Span80) => `${value(path, low80)} to ${value(path, high80)}`,
      verdicts: { learnt: 'learnt', hardly: 'roughly', not: 'not told' } satisfies Record<Verdict, string>,
      row: (path: LearntPath, now: Span80 & { prior: Span80; verdict: Verdict }) =>
        `${figures[path]}: ${value(path, now.middle)}, ${value(path, now.low80)} to ${value(path, now.high80)}; before ${value(path, now.prior.low80)} to ${value(path, now.prior.high80)}`,
      correlation: ({ a, b, value: r }: Correlation) =>
        r < 0
          ? `${figures[a]} and ${figure(b)} are told apart only in part: if one is more, the other is less.`
          : `${figures[a]} and ${figure(b)} go together: if one is more, so is the other.`,
      notTold: (paths: readonly LearntPath[]) =>
        `The ride does not tell ${listed(paths.map(figure))}: as uncertain as the handbook says.`,
      noCharge: 'Assist rests on the times alone. With the charge read it would be surer.',
      settling: 'The figures did not come to rest; take them with care.',
      reckoning: (share: number | undefined) =>
        share === undefined ? 'Looking at the ride.' : `Looking at the ride, ${percent(share)}.`,
      cancel: 'Cancel',
      cancelled: 'Stopped.',
      again: 'Look at it again',
      failed: 'What the ride tells could not be worked out, by a fault of this program.',
      take: 'Use these for rider and bike',
      taken: 'Rider and bike are as the ride tells. The answer above follows.',
      steps: (steps: readonly StepRatio[]) =>
        `Steps of the display: ${listed(steps.map(({ ratio, span }, k) => `${number(k + 1)} gives ${percent(ratio)} (${percent(ratio / span)} to ${percent(ratio * span)})`))}.`,
      undo: 'Undo',
    },
    test: {
      title: 'Its own test',
      why: 'Why these figures',
      said: ({ foretold, ridden }: Tested, until: number) =>
        `Learnt from the first ${distance(until, 0)} alone, the rest was foretold as ${duration(foretold.middle)} (${duration(foretold.low80)} to ${duration(foretold.high80)}) and ridden in ${duration(ridden)}: ${off(foretold.middle - ridden)}.`,
      plain: ({ plainGuess, ridden }: Tested) =>
        `At the mean speed of the first part it would have been ${duration(plainGuess)}: ${off(plainGuess - ridden)}.`,
      wins: 'So here it foretells better than a mean speed does.',
      loses: 'So here a mean speed does as well or better: take what was learnt with care.',
      outside: 'The ridden time lies outside the span.',
      energy: {
        said: ({ foretold, ridden }: Tested) =>
          `Of the charge it foretold ${wattHours(foretold.middle)} (${number(foretold.low80 / joulesPerWattHour)} to ${wattHours(foretold.high80)}) for the rest; by your readings it took ${wattHours(ridden)}: ${offBy(foretold.middle - ridden)}.`,
        plain: ({ plainGuess, ridden }: Tested) =>
          `At the ${drainUnit(units)} of the first part it would have been ${wattHours(plainGuess)}: ${offBy(plainGuess - ridden)}.`,
        wins: 'So here it foretells the charge better than so much a distance does.',
        loses: 'So here so much a distance does as well or better.',
        outside: 'The charge that was used lies outside the span.',
        none: 'The charge is not tested so: that takes a reading near the middle of the way, as at a change of packs, beside those at start and end.',
      },
    },
    parts: {
      title: (ride: string | undefined) => `Where it fits${ofRide(ride)}`,
      about:
        'Ridden against foretold, by tenths of the way, and how fast it was ridden. A run to one side may be a wrong wind.',
      part,
      said: (seconds: number, speed: number) => `${measure(speed, 'speed')}, ${slower(seconds)}`,
    },

    byPower: {
      title: (ride: string | undefined) => `Against the measured power${ofRide(ride)}`,
      about:
        'Ridden against what the bike as you state it would take with the power that was measured, by tenths of the way. Slower all along: more drag, rolling or mass than stated.',
      said: (ridden: number, foretold: number) =>
        `With the measured power the parts would take ${duration(foretold)}; ridden in ${duration(ridden)}: ${off(foretold - ridden)}.`,
    },
    sameWay: (one: string, other: string, { riding: [first, second], differs }: SameWay) =>
      differs
        ? `“${cut(other, 30)}” took ${duration(Math.abs(second - first))} ${second < first ? 'less' : 'more'} over the way of “${cut(one, 30)}”: more than two devices differ on one and the same ride (3 %), so something was different.`
        : `“${cut(one, 30)}” and “${cut(other, 30)}” went one way and differ by ${duration(Math.abs(second - first))}, no more than two devices do on one and the same ride (3 %).`,

    training: {
      title: 'What training is worth',
      about: 'On this day, each by itself, with all that is not known of you, your bike and the weather.',
      ask: 'Work it out',
      asking: 'Riding 64 possible days, four times each.',
      again: 'The plan has changed since.',
      failed: 'It could not be worked out, by a fault of this program.',
      of: {
        power: `${number(training.power)} W more`,
        mass: `${measure(training.mass, 'mass')} less on you`,
        fade: `${percent(training.fade)} less tiring`,
      } satisfies Record<Training, string>,
      columns: { what: 'Better by', time: 'Riding time', energy: 'From the packs' },
      time: ({ low, middle, high }: Spread) =>
        `${saved(middle, minutes)} (${saved(low, minutes)} to ${saved(high, minutes)})`,
      energy: (spread: Spread | undefined) =>
        spread === undefined
          ? 'spent either way'
          : `${saved(spread.middle, wattHours)} (${saved(spread.low, wattHours)} to ${saved(spread.high, wattHours)})`,
      note: 'Minutes and Wh saved; in brackets 8 of 10 days. A plus is more taken. No advice on health or on how to train.',
    },

    against: {
      title: (name: string) => `This plan against “${cut(name)}”`,
      then: 'Then',
      now: 'This plan',
      change: 'Difference',
      riding: 'Riding',
      standing: 'Stops and halts',
      crossing: 'Crossing',
      all: 'From start to finish',
      where:
        'Riding time by place, leg by leg: where this plan is slower than the ride was, or quicker. The leg under the pointer is marked on map and profile.',
      part,
      slower,
      /** @param sums s, slower than the ride where above 0 */
      places: ({ climbs, wind, other }: { climbs: number; wind: number; other: number }) =>
        `In motion this plan is ${roughly(climbs)} uphill, ${roughly(wind)} against the wind and ${roughly(other)} elsewhere.`,
      /** The greatest differences, in order of place. */
      halts: (halts: readonly HaltGained[]) => {
        const by = ({ then, now }: HaltGained) => Math.abs(now - then)
        const most = halts.toSorted((a, b) => by(b) - by(a)).slice(0, 6)
        const said = (halt: HaltGained) =>
          `${duration(by(halt))} ${halt.now < halt.then ? 'less' : 'more'} at ${place(halt.distance)}`
        return `It stands ${listed(halts.filter((halt) => most.includes(halt)).map(said))}.`
      },
      shadeBy: 'Shade map and profile by where this plan is quicker or slower than the ride, halts too',
      /** @param bounds the least of each class but the first, s/km */
      shade: ([, ...bounds]: readonly number[]) => {
        const edges = bounds.map((edge) => number((edge * inDistance(1000, 'metric')) / inDistance(1000, units)))
        const spans = edges
          .slice(1)
          .map((edge, i) => (bounds[i]! < 0 && bounds[i + 1]! > 0 ? 'same' : `${edges[i]} to ${edge}`))
        return {
          label: 'Against the ride',
          unit: `s/${units === 'metric' ? 'km' : 'mi'}, slower above 0`,
          spans: [`under ${edges[0]}`, ...spans, `${edges.at(-1)}+`],
        }
      },
      keep: 'Keep that day as a plan, to see what makes the difference',
      isKept: 'That day stands beside this plan, with what makes the difference.',
      noRoom: 'There is no room for more plans beside this day: remove one.',
    },

    /** What was taken over on another day, or before these rides told otherwise. */
    held: (from: Learnt['from']) => `Rider and bike are as told by ${ridesIn(from)}.`,
    giveBack: 'Back to what I stated',

    /** At a field. @param from rides */
    mark: ({ low, high, middle, verdict }: LearntFigure, from: Learnt['from']) => {
      const share = near(halfOf({ middle, low80: low, high80: high }))
      return verdict === 'not'
        ? `Taken along with what was learnt from ${ridesIn(from)}; hardly surer than before, ${share}`
        : `Learnt from ${ridesIn(from)}, ${share}`
    },
  }
}
