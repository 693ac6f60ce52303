import { bestStops } from '../model/decide/best-stop'
import { latestStarts } from '../model/decide/latest-start'
import { loadOutsOf, rideLoadOut, type LoadOut } from '../model/decide/load-outs'
import type { StopAt } from '../model/decide/stop-search'
import type { Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'
import { metresPerKilometre } from '../model/units'
import { plainWords } from '../view/words/words'
import { time } from './text'

interface StopReport {
  name: string
  at_km: number
  source: string
  duration_s: number
}

/** Best stops, load-outs and latest starts as a script reads them. */
export interface OtherChoices {
  /** Fewest stops first; `elapsed_s` is foretold. */
  stops: { stops: StopReport[]; elapsed_s: number; advised: boolean }[]
  /** All but the first four are null where no assist keeps the reserve. */
  load_outs: {
    packs: number
    carried: LoadOut['carried'] | null
    kit: LoadOut['kit']
    mass_kg: number
    stops: StopReport[] | null
    elapsed_s: number | null
    least_pct: number | null
    chance_pct: number | null
  }[]
  latest_starts: {
    what: 'sailing' | 'control'
    at_km: number
    start: string
    chance_pct: number
    missed_s: number | null
  }[]
  five_minutes_later_s: number
}

const km = (metres: number) => metres / metresPerKilometre

const stopsOf = (stops: readonly StopAt[]): StopReport[] =>
  stops.map(({ place, duration }) => ({
    ...{ name: place.name, at_km: km(place.distance), source: place.source, duration_s: duration },
  }))

/** @param sure share of days on which it is to hold; undefined where the day as planned counts */
export function otherChoices(route: Route, plan: Plan, sure: number | undefined): OtherChoices {
  const { options, advice } = bestStops(route, { plan, sure })
  const { starts, fiveLater } = latestStarts(route, { plan, sure })
  return {
    stops: options.map(({ stops, finish }, k) => ({
      ...{ stops: stopsOf(stops), elapsed_s: finish, advised: k === advice },
    })),
    load_outs: loadOutsOf(plan, plainWords().names.pack).map(({ packs, carried, kit, plan: loaded }) => {
      const ride = rideLoadOut(route, { plan: loaded, sure })
      const lasts = ride.code === 'lasts' ? ride : undefined
      return {
        ...{ packs, carried: carried ?? null, kit, mass_kg: ride.mass },
        stops: lasts === undefined ? null : stopsOf(lasts.stops),
        elapsed_s: lasts?.time ?? null,
        least_pct: lasts === undefined ? null : 100 * lasts.least,
        chance_pct: lasts === undefined ? null : 100 * lasts.chance.value,
      }
    }),
    latest_starts: starts.map(({ kind, distance, start, chance, missed }) => ({
      ...{ what: kind, at_km: km(distance), start, chance_pct: 100 * chance.value, missed_s: missed ?? null },
    })),
    five_minutes_later_s: fiveLater,
  }
}

/** As lines for a person. */
export function otherRows({ stops, load_outs, latest_starts, five_minutes_later_s }: OtherChoices): [string, string][] {
  const stopsText = (list: readonly StopReport[]) =>
    list.length === 0
      ? 'no stop for charge'
      : list.map(({ at_km, duration_s }) => `${time(duration_s)} at km ${at_km.toFixed(1)}`).join(', ')
  const carriedText = (carried: LoadOut['carried'] | null) =>
    carried === null
      ? ''
      : typeof carried === 'object'
        ? `, carried pack ${carried.inSeries} in series × ${carried.inParallel}`
        : `, carried pack ${carried === 'without' ? 'left at home' : 'as wired'}`
  const kitText = (kit: LoadOut['kit']) =>
    kit === 'asPlanned' ? '' : `, without ${kit === 'withoutUnused' ? 'what came back unused' : kit.without}`
  return [
    ...stops.map((one): [string, string] => [
      one.advised ? 'Stop' : 'Else',
      `${stopsText(one.stops)}: about ${time(one.elapsed_s)}`,
    ]),
    ...load_outs.map((one): [string, string] => [
      'Load-out',
      `${one.packs} ${one.packs === 1 ? 'pack' : 'packs'}${carriedText(one.carried)}${kitText(one.kit)}, ${one.mass_kg.toFixed(1)} kg: ${
        one.elapsed_s === null || one.chance_pct === null
          ? 'not to be done above the reserve'
          : `${time(one.elapsed_s)}, ${stopsText(one.stops ?? [])}, lasts on ${one.chance_pct.toFixed(0)} of 100 days`
      }`,
    ]),
    ...latest_starts.map((one): [string, string] => [
      'Start',
      `by ${one.start.slice(11)} for the ${one.what} at km ${one.at_km.toFixed(1)}, reached on ${one.chance_pct.toFixed(0)} of 100 days`,
    ]),
    ['', `five minutes later at the start: ${five_minutes_later_s.toFixed(0)} s later at the finish`],
  ]
}
