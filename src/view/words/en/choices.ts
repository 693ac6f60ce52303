import type { Way } from '../../../model/decide/assist'
import type { Landmark } from '../../../model/decide/landmarks'
import type { Dominated, LoadOut, Rewired } from '../../../model/decide/load-outs'
import type { StopAt, StopPlace } from '../../../model/decide/stop-search'
import { joulesPerWattHour } from '../../../model/units'
import type { Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'
import { stepsIn } from './steps'

/** Of what could be chosen otherwise: the best assist, and what it brings. */
export const choicesIn = (format: Format) => {
  const { duration, energy, measure, number, percent, place } = format
  const kilograms = (mass: number) => measure(mass, 'mass', 1)
  const minute = 60 // s
  /** `40 s`, `12 min`. @param time s, not below 0 */
  const short = (time: number) => (Math.round(time) < minute ? `${number(time)} s` : duration(time))

  const landmark = worded<Landmark>({
    named: ({ name, distance }) => `${cut(name)} (${place(distance)})`,
    crossing: ({ distance }) => `the crossing (${place(distance)})`,
    foot: ({ distance }) => `the foot of the climb at ${place(distance)}`,
    top: ({ distance }) => `the top of the climb at ${place(distance)}`,
    at: ({ distance }) => place(distance),
    finish: () => 'the finish',
  })

  /** What a way is called in a list. */
  /** @param setting what is set for a ratio */
  const wayName = (way: Way, setting: (ratio: number) => string): string => {
    switch (way.by) {
      case 'constant':
        return `One ratio: ${setting(way.ratio)}`
      case 'pair':
        return `Two ratios: ${setting(way.flat)} on the flat, ${setting(way.climb)} on climbs`
      case 'rule':
        return `${changes(way.places.length - 1)} on the way`
      case 'stretches':
        return `${changes(way.places.length - 1)}, more than one can keep in mind`
    }
  }
  const changes = (count: number) => (count === 1 ? 'One change' : `${number(count)} changes`)

  const wiring = ({ inSeries, inParallel }: Rewired) =>
    inSeries === 1
      ? `all ${number(inParallel)} blocks in parallel`
      : inParallel === 1
        ? `all ${number(inSeries)} blocks in series`
        : `${number(inParallel)} strings of ${number(inSeries)} in series`
  const outOf = (share: number) => `${number(100 * share)} of 100`
  const placeName = ({ name, distance }: StopPlace) =>
    name.trim() === '' ? place(distance) : `${cut(name.trim())} (${place(distance)})`
  const stopText = (stop: StopAt) => `${duration(stop.duration)} at ${placeName(stop.place)}`
  const listed = (texts: readonly string[]) =>
    texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`
  const counts = ['No stop for charge', 'One stop', 'Two stops', 'Three stops']
  const stopsText = (stops: readonly StopAt[]) =>
    stops.length === 0 ? counts[0]! : `${counts[stops.length]}: ${listed(stops.map(stopText))}`

  return {
    label: 'Choices',
    why: 'Why these figures',
    cancel: 'Cancel',
    looking: (share: number) => `One moment, ${percent(share)} done.`,
    failed: 'This could not be worked out, by a fault of this program.',
    stale: 'What stands here was worked out before your last change.',
    /** Of days as they may come. @param share 0 to 1 */
    chance: (share: number) => `So it stays above your reserve on ${outOf(share)} such days.`,

    /** How sure it is to be. */
    sure: {
      label: 'The charge is to stay above your reserve',
      of: (share: number | undefined) =>
        share === undefined ? 'on a day just as planned' : `on ${number(100 * share)} of 100 days as they may come`,
    },

    /** How the assist is to be set on the way. */
    rule: {
      /** `Until Mill (km 20.1): 120 %, until the top of the climb at km 62.0: 200 %, then 90 %.` */
      places: (places: readonly { until: Landmark; ratio: string }[]) =>
        places
          .map(({ until, ratio }, k) => {
            if (k + 1 === places.length) return `${k === 0 ? '' : 'then '}${ratio}.`
            return `${k === 0 ? 'Until' : 'until'} ${landmark(until)}: ${ratio}`
          })
          .join(', '),
      pair: (flat: string, climb: string) => `${flat} on the flat, ${climb} on climbs.`,
      constant: (ratio: string) => `${ratio.charAt(0).toUpperCase()}${ratio.slice(1)} all the way.`,
      ratio: (ratio: number) => percent(ratio),
      /** A step of the display. */
      step: stepsIn(format).named,
      off: 'motor off',
    },

    proposal: {
      label: 'With it, against your plan',
      against: 'Small figures: against your plan as it was when you asked.',
      facts: { finish: 'Finish', riding: 'Riding', left: 'Charge at the finish', work: 'Your work' },
      left: (share: number, joules: number) => `${percent(share)}, ${energy(joules)}`,
      work: (joules: number) => `${number(joules / 1000)} kJ`,
      workChange: (joules: number) => `${joules < 0 ? '−' : '+'}${number(Math.abs(joules) / 1000)} kJ`,
      tooMany: 'This takes more stretches than a plan can hold.',
      take: 'Take it into the plan',
      taken: 'It is in your plan.',
      undo: 'Undo',
    },
    later: (time: number) => (time < 1 ? 'the best' : `${short(time)} later than the best`),
    advised: 'advised',

    assist: {
      title: 'Best assist',
      about:
        'Where on the route should the motor help more, and where less, so that the finish comes soonest and the charge stays above your reserve? Stops and packs stay as you planned them.',
      find: 'Find the best assist',
      within: 'Ways to ride it, and what each costs',
      aim: 'It is for',
      aims: {
        soonest: 'the soonest finish',
        charge: 'most charge at the finish',
        ease: 'the least work of yours',
      },
      by: 'finishing by',
      /** @param late s */
      notWithin: (late: number) => `Not to be done: the soonest is ${short(late)} later than that.`,
      /** @param more than by the best single ratio, J */
      kept: (left: number, more: number) =>
        `${energy(left)} left at the finish, ${energy(Math.max(0, more))} more than with the best single ratio.`,
      left: (joules: number) => `${energy(joules)} left`,
      ease: (power: number, planned: number) =>
        power < planned
          ? `${measure(power, 'power')} of yours are enough, instead of ${measure(planned, 'power')}.`
          : `It takes all your ${measure(planned, 'power')}.`,
      easeRule: (power: number, rule: string) =>
        `Ride at ${measure(power, 'power')}. Assist: ${rule.charAt(0).toLowerCase()}${rule.slice(1)}`,
      /** No ratio keeps the reserve. */
      belowReserve: (ratio: number) =>
        `No assist keeps your charge above the reserve, not even ${percent(ratio)} all the way. More charge is needed, or a longer stop.`,

      /**
       * What the way that is advised gains, first of all.
       *
       * @param constant the best ratio for the whole way, as it is set @param overConstant what the advice gains over it, s
       * @param pair over the best pair, s; undefined where there is none @param behind how much later than the best that can be, s
       */
      headline: (advice: Way, constant: string, overConstant: number, overPair: number | undefined, behind: number) => {
        const best =
          behind < 1
            ? 'Nothing is sooner.'
            : behind < 2 * minute
              ? `The best that could be done is ${short(behind)} sooner: it hardly matters.`
              : `With a ratio for every stretch ${short(behind)} more could be gained.`
        if (advice.by === 'constant')
          return `${constant.charAt(0).toUpperCase()}${constant.slice(1)} all the way. ${best}`
        const pair =
          overPair === undefined || advice.by === 'pair' ? '' : `, ${short(overPair)} sooner than the best two`
        return `${short(overConstant)} sooner than the best single ratio, ${constant}${pair}. ${best}`
      },
      /** @param gap share of riding time @param stretches so many of like terrain */
      bound: (gap: number, stretches: number) =>
        `No plan is more than ${number(100 * gap, gap < 0.01 ? 1 : 0)} % faster: a bound for any choice of ratios over ${number(stretches)} stretches of like terrain.`,
      /** What one more watt-hour saves, place by place. @param prices s/J */
      price: (prices: readonly { end: number; price: number }[]) => {
        const text = (price: number) =>
          price * joulesPerWattHour < 0.05
            ? 'nothing'
            : `${number(price * joulesPerWattHour, price * joulesPerWattHour < 10 ? 1 : 0)} s`
        const told = prices.filter(
          ({ price }, k) => k + 1 === prices.length || text(price) !== text(prices[k + 1]!.price),
        )
        if (told.every(({ price }) => text(price) === 'nothing'))
          return 'There is charge enough: one more watt-hour would save nothing.'
        return `One more watt-hour would save ${told
          .map(({ end, price }, k) => (k + 1 < told.length ? `${text(price)} up to ${place(end, 0)}` : text(price)))
          .join(', then ')}${told.length > 1 ? ' to the finish' : ''}.`
      },
      ways: 'How many changes do you want?',
      name: wayName,
      /** Over the route. */
      priceAlong:
        'What one more watt-hour would save where you spend it; nothing where the motor can’t make you sooner: at a speed limit, coasting, or before a sailing you wait for',
      /** @param unit of distances */
      priceAxes: (unit: string) => ({ length: `Place, ${unit}`, finish: 'Saved, s/Wh', minutes: unit }),
      priceLine: 'One more Wh saves',
      /** @param price s/J */
      priceHere: (price: number) => `${number(price * joulesPerWattHour, 1)} s`,
      priceFrom: (start: number, end: number) => `${place(start)} to ${place(end)}`,
      /** On the ribbon: what its dashed line is, and at a place. @param price s/J, 0 where more is of no use */
      onRibbon: {
        line: (most: number) => `Dashed: assist proposed, up to ${percent(most)}`,
        here: (ratio: number, price: number) =>
          `Assist ${percent(ratio)}; +1 Wh saves ${price > 0 ? `${number(price * joulesPerWattHour, 1)} s` : 'nothing'}`,
      },
    },

    stop: {
      title: 'Best stop for charge',
      about:
        'Where would you best charge, how long, and is it worth it? Stops of your plan and places of the file are tried, with your charge sources, and a carried pack anywhere; what you eat or rest there goes on beside the charge.',
      find: 'Find the best stop',
      within: 'Stops to choose from',
      none: 'No stop that could be made keeps the charge above your reserve. More packs are needed, or another charge source.',
      place: placeName,
      placeBy: (place: StopPlace, source: string) => `${placeName(place)}, ${cut(source)}`,
      stops: stopsText,
      /** @param gain against the plan, s */
      headline: (stops: readonly StopAt[], gain: number) => {
        const what =
          stops.length === 0 ? 'You need no stop for charge' : `Charge ${listed(stops.map((stop) => stopText(stop)))}`
        if (Math.abs(gain) < minute) return `${what}: as soon as your plan.`
        return `${what}: ${short(Math.abs(gain))} ${gain > 0 ? 'sooner' : 'later'} than your plan.`
      },
      /** @param from 0 where it may as well be left out */
      valley: ({ from, to }: { from: number; to: number }) =>
        from === 0 && to === 0
          ? 'Each minute of standing for charge makes the day longer.'
          : from === 0
            ? `Up to ${duration(to)} of charging it hardly matters: the finish changes by a few minutes at most.`
            : from === to
              ? ''
              : `Between ${duration(from)} and ${duration(to)} it hardly matters: the finish changes by a few minutes at most.`,
      /** @param around places of the route, m */
      around: ({ from, to }: { from: number; to: number }) =>
        to - from < 1000
          ? 'The place matters: elsewhere the finish is more than about two minutes later.'
          : `Anywhere between ${place(from, 0)} and ${place(to, 0)} it hardly matters.`,
      along: 'Finish over where that stop is made, as long as it is, whether or not there is a socket',
      finish: 'Finish',
      /** @param unit of distances */
      alongAxes: (unit: string) => ({ length: `Place of the stop, ${unit}`, finish: 'Finish', minutes: unit }),
      curve: 'Finish over the length of that stop, with the best assist for each; 0 is without it',
      axes: { length: 'Length of the stop, min', finish: 'Finish', minutes: 'min' },
      point: (minutes: number, finish: string) => `${number(minutes)} min: ${finish}`,
      options: 'How many stops for charge do you want?',
      text: (stops: readonly StopAt[], rule: string) =>
        `${stops.length === 0 ? 'No stop for charge' : `Charge ${listed(stops.map((stop) => stopText(stop)))}`}. Assist: ${rule.charAt(0).toLowerCase()}${rule.slice(1)}`,
      /** Of places of the file. */
      socket: (places: readonly StopPlace[]) =>
        `Whether there is a socket is not known: ask at ${listed(places.map(placeName))}.`,
      rest: 'Other halts of your plan, for food and rest, stay as they are; with none of them the day goes on without a break.',
    },

    loadOuts: {
      title: 'What to take along',
      about:
        'One pack fewer, or one or two more, with your carried packs as they are wired, rewired and without: each with its own best stops for charge, where and how long, and its own best assist.',
      find: 'Work out what to take',
      each: 'Each row is the day as it is forecast when you take it.',
      none: 'None of these keeps the charge above your reserve.',
      /**
       * In one line of the story.
       *
       * @param gain over the plan as it is, s; undefined where its charge does not last
       * @param chance share of days on which it stays above the reserve
       */
      inStory: (name: string, isPlanned: boolean, gain: number | undefined, chance: number) => {
        const hardly = 5 * minute
        if (isPlanned && gain !== undefined && Math.abs(gain) < hardly)
          return `What to take along hardly matters: stay with ${name}.`
        const what = `With ${name}${isPlanned ? ' as planned' : ''}, the best stops and assist`
        if (gain === undefined) return `${what} the charge lasts.`
        if (Math.abs(gain) < minute) return `${what}: as soon as your plan.`
        if (gain > 0) return `${what}: ${short(gain)} sooner than your plan.`
        return `${what}: ${short(-gain)} later than your plan, and above your reserve on ${outOf(chance)} days.`
      },
      ask: 'What would be better?',
      right: (name: string) => `Stay with ${name}: more would bring less than five minutes.`,
      headline: (name: string, planned: string, gain: number, mass: number) => {
        const weight = Math.abs(mass) < 0.05 ? '' : `, ${kilograms(Math.abs(mass))} ${mass > 0 ? 'heavier' : 'lighter'}`
        if (gain === Infinity) return `${name}: with ${planned} the charge does not last${weight}.`
        if (Math.abs(gain) < minute) return `${name}: as soon as ${planned}${weight}.`
        return `${name}: ${short(Math.abs(gain))} ${gain > 0 ? 'sooner' : 'later'} than ${planned}${weight}.`
      },
      /**
       * @param source what the carried pack that is rewired is called; undefined where there is one only
       * @param left what the one thing of the kit is called that stays at home
       */
      name: (
        { packs, carried, kit }: Pick<LoadOut, 'packs' | 'carried' | 'kit'>,
        source: string | undefined,
        left: string | undefined,
      ) => {
        const what = packs === 1 ? '1 pack' : `${number(packs)} packs`
        const along =
          carried === undefined
            ? ''
            : carried === 'without'
              ? ', nothing carried'
              : carried === 'asWired'
                ? ' and the carried pack'
                : ` and ${source === undefined ? 'the carried pack' : cut(source)} rewired, ${wiring(carried)}`
        if (kit === 'asPlanned') return `${what}${along}`
        return `${what}${along}, without ${kit === 'withoutUnused' ? 'what came back unused' : `“${cut(left ?? '')}”`}`
      },
      rewire:
        'Rewiring joins the same blocks in another way. Only blocks that are alike and equally charged, each with a board that is made for the voltage in series; measure plus and minus anew before you connect anything. The build sheet under Charging has the steps.',
      chart: 'To the left is sooner, higher is surer. Grey is no choice: another is as good or better in all.',
      axes: { finish: 'Finish', chance: 'It lasts, days of 100' },
      point: (finish: string, chance: number) => `${finish}, ${outOf(chance)}`,
      planned: ', as planned',
      columns: { what: 'Take along', finish: 'Finish', least: 'Charge at least', chance: 'Sure', mass: 'Mass' },
      chance: outOf,
      mass: kilograms,
      belowReserve: 'No assist and no stop for charge keeps the charge above your reserve.',
      /** Why a row is no choice. */
      dominated: (other: string, { sooner, lighter, surer }: Dominated) => {
        const better = [
          ...(sooner < minute ? [] : [`${short(sooner)} sooner`]),
          ...(lighter < 0.05 ? [] : [`${kilograms(lighter)} lighter`]),
          ...(surer < 0.01 ? [] : ['surer']),
        ]
        return `No choice: ${other} ${better.length === 0 ? 'is as good' : `is ${listed(better)}`}, and in nothing worse.`
      },
      take: 'Take',
      takeThis: (name: string) => `Take ${name}`,
    },

    start: {
      title: 'Latest start',
      about:
        'How late may you start and still make each sailing and each control that closes by the clock? Assist and stops as planned.',
      find: 'Find the latest start',
      within: 'By when for each sailing and control',
      none: 'No sailing and no control depends on when you start.',
      sailing: (departs: string) => `The ${departs} sailing`,
      control: (name: string) => (name.trim() === '' ? 'A control' : cut(name.trim())),
      /** @param isEarlier than planned */
      headline: (what: string, start: string, isEarlier: boolean, missed: number | undefined) =>
        `${isEarlier ? 'Start sooner' : 'You can start later'}: by ${start} for ${what.replace(/^The /, 'the ')}.${missed === undefined ? '' : ` Missing it costs ${duration(missed)}.`}`,
      fiveLater: (time: number) =>
        time < 1
          ? 'On the day as planned a start five minutes later costs nothing at the finish: it is waited for anyway.'
          : `On the day as planned a start five minutes later costs ${short(time)} at the finish.`,
      planned: ', as planned',
      there: (latest: string) => `be there by ${latest}`,
      by: (start: string) => `Start by ${start}`,
      chance: (share: number) => `caught on ${outOf(share)} days`,
      missed: (time: string) => `; missing it costs ${time}`,
      takeThis: (start: string) => `Start at ${start}`,
    },
  }
}
