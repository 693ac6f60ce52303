import type { Way } from '../../../model/decide/assist'
import type { Landmark } from '../../../model/decide/landmarks'
import { joulesPerWattHour } from '../../../model/units'
import type { Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'

/** Of what could be chosen otherwise: the best assist, and what it brings. */
export const choicesIn = (format: Format) => {
  const { duration, energy, number, percent, place } = format
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
  const wayName = (way: Way): string => {
    switch (way.by) {
      case 'constant':
        return `One ratio: ${percent(way.ratio)}`
      case 'pair':
        return `Two ratios: ${percent(way.flat)} on the flat, ${percent(way.climb)} on climbs`
      case 'rule':
        return `${changes(way.places.length - 1)} on the way`
      case 'stretches':
        return `${changes(way.places.length - 1)}, more than one can keep in mind`
    }
  }
  const changes = (count: number) => (count === 1 ? 'One change' : `${number(count)} changes`)

  return {
    label: 'Choices',
    cancel: 'Cancel',
    looking: (share: number) => `Looking, ${percent(share)}.`,
    failed: 'This could not be worked out, by a fault of this program.',
    stale: 'Your plan has changed since; what stands here was for the plan before.',
    take: 'Take it into the plan',
    taken: 'It is in your plan.',
    undo: 'Undo',

    assist: {
      title: 'Best assist',
      about:
        'Where on the route should the motor help more, and where less, so that the finish comes soonest and the charge stays above your reserve? Stops and packs stay as you planned them.',
      find: 'Find the best assist',
      /** No ratio keeps the reserve. */
      belowReserve: (ratio: number) =>
        `No assist keeps your charge above the reserve, not even ${percent(ratio)} all the way. More charge is needed, or a longer stop.`,

      /**
       * What the way that is advised gains, first of all.
       *
       * @param constant the best ratio for the whole way @param overConstant what the advice gains over it, s
       * @param pair over the best pair, s; undefined where there is none @param behind how much later than the best that can be, s
       */
      headline: (advice: Way, constant: number, overConstant: number, overPair: number | undefined, behind: number) => {
        const best =
          behind < 1
            ? 'Nothing is sooner.'
            : behind < 2 * minute
              ? `The best that could be done is ${short(behind)} sooner: it hardly matters.`
              : `With a ratio for every stretch ${short(behind)} more could be gained.`
        if (advice.by === 'constant') return `${percent(advice.ratio)} all the way. ${best}`
        const pair =
          overPair === undefined || advice.by === 'pair' ? '' : `, ${short(overPair)} sooner than the best two`
        return `${short(overConstant)} sooner than the best single ratio, ${percent(constant)}${pair}. ${best}`
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
      later: (time: number) => `${short(time)} later than the best`,
      best: 'the best',
      advised: 'advised',
      /** `Until Mill 120 %, until the top of the climb at km 62.0 200 %, then 90 %.` */
      rule: (places: readonly { until: Landmark; ratio: number }[]) =>
        places
          .map(({ until, ratio }, k) => {
            if (k + 1 === places.length) return `${k === 0 ? '' : 'then '}${percent(ratio)}.`
            return `${k === 0 ? 'Until' : 'until'} ${landmark(until)}: ${percent(ratio)}`
          })
          .join(', '),
      pair: (flat: number, climb: number) => `${percent(flat)} on the flat, ${percent(climb)} on climbs.`,
      constant: (ratio: number) => `${percent(ratio)} all the way.`,
      tooMany: 'This takes more stretches than a plan can hold.',
      against: 'Against your plan',
      againstYours: 'Small figures: against your plan as it was when you asked.',
      facts: { finish: 'Finish', riding: 'Riding', left: 'Charge at the finish', work: 'Your work' },
      left: (share: number, joules: number) => `${percent(share)}, ${energy(joules)}`,
      work: (joules: number) => `${number(joules / 1000)} kJ`,
      workChange: (joules: number) => `${joules < 0 ? '−' : '+'}${number(Math.abs(joules) / 1000)} kJ`,
    },
  }
}
