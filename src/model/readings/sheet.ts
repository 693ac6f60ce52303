import type { Halt, Outcome } from '../forecast/outcome'
import { sourceOf } from '../forecast/sources'
import { ascentBetween } from '../route/ascent'
import { stationNear } from '../route/nearest'
import { chargesUpTo } from './charged'
import type { Passage } from '../world/controls'
import { crossingName } from '../route/crossing-name'
import { given, type PlaceName } from '../place-name'
import type { Sailing } from '../world/sailings'

/** What lies between a row and the next. */
export interface Onward {
  /** m. */
  length: number
  ascent: number
  /** In motion, s. */
  ridingTime: number
  /** Motor work over rider work, as the forecast rides it; 0 where the rider does none. */
  assist: number
}

/** What a charge source puts into a pack at a row: both by name, which is empty where nobody named them. */
export interface Filled {
  source: string
  pack: string
  /** J. */
  energy: number
}

/** A row of the day sheet. */
export interface SheetRow {
  kind: 'start' | 'stop' | 'swap' | 'crossing' | 'control' | 'finish' | 'mark'
  name: PlaceName
  /** Of the plan's stop or control; of a crossing its number among the route's; empty for what there is one of or that nobody named. */
  id: string
  /** Station, and ridden distance, m. */
  station: number
  distance: number
  /** Unix times, s; equal where nobody halts. */
  arrive: number
  depart: number
  /** Charge to expect on arrival and on departure, share of the usable energy of all packs. */
  charge: number
  chargeOnDeparture: number
  /**
   * Least charge on arrival with which the finish is reached at the reserve, with the plan's charging still to come, as a share: below it, ease off.
   * More than 1 where no charge would do.
   */
  least: number
  sailing: Sailing | undefined
  passage: Passage | undefined
  /** Name of the pack that is put in here. */
  packIn: string | undefined
  /** What is put into packs here, in order. */
  filled: Filled[]
  /** Undefined on the last row. */
  onward: Onward | undefined
}

/** What is known of the day beside the forecast. */
export interface DayFacts {
  /** Unix time of the start, s. */
  started: number
  /** By the route's gaps; undefined where the crossing has no timetable. */
  sailings: readonly (Sailing | undefined)[]
  passages: readonly Passage[]
}

/** Rows that mark the way between others are about this far apart, m. A choice. */
const markEvery = 22_500

/**
 * The rows of the day sheet in order of the route: start, stops, swaps, crossings, controls, finish, and marks every 20 to 25 km in between.
 * A control at a stop stands in the stop's row, one that is waited for in a row of its own.
 *
 * @param facts of the same forecast
 */
export function daySheet(outcome: Outcome, { started, sailings, passages }: DayFacts): SheetRow[] {
  const { route, columns, halts, usable } = outcome
  const { distance } = route.stations
  const last = distance.length - 1
  const least = leastOnArrival(outcome)
  const share = (energy: number) => (usable > 0 ? energy / usable : 0)
  const row = (kind: SheetRow['kind'], name: PlaceName, station: number, halt?: Halt): SheetRow => ({
    kind,
    name,
    id: halt === undefined ? '' : (halt.stop ?? halt.control ?? String(halt.gap ?? '')),
    station,
    distance: distance[station]!,
    arrive: started + (halt?.arrive ?? columns.time[station]!),
    depart: started + (halt?.depart ?? columns.time[station]!),
    charge: share(halt?.leftBefore ?? columns.left[station]!),
    chargeOnDeparture: share(halt?.leftAfter ?? columns.left[station]!),
    least: share(least[station]!),
    sailing: halt?.gap === undefined ? undefined : sailings[halt.gap],
    passage: undefined,
    packIn: halt && packIn(outcome, halt),
    filled: halt === undefined ? [] : filledAt(outcome, halt),
    onward: undefined,
  })

  const rows = halts.map((halt) => row(halt.kind, nameOf(outcome, halt), halt.station, halt))
  const passed = new Set<SheetRow>()
  for (const passage of passages) {
    if (passage.kind === 'goal') continue
    const station = stationNear(route, passage.distance)
    const waiting = rows[halts.findIndex(({ control }) => control === passage.id)]
    const there =
      waiting ?? rows.find((row) => row.station === station && row.kind === 'stop' && row.passage === undefined)
    if (there !== undefined) there.passage = passage
    else {
      const control = { ...row('control', passage.name, station), id: passage.id, passage }
      passed.add(control)
      rows.push(control)
    }
  }
  const goal = passages.find(({ kind }) => kind === 'goal')
  // The order of what happens at one station is kept: sort is stable, and a control without a wait is passed on arrival.
  const rank = (row: SheetRow) => (passed.has(row) ? 0 : 1)
  rows.sort((a, b) => a.station - b.station || rank(a) - rank(b))
  const all = [
    row('start', { code: 'start' }, 0),
    ...rows,
    { ...row('finish', { code: 'finish' }, last), passage: goal },
  ]
  all.at(-1)!.arrive = Math.max(...all.map(({ depart }) => depart))
  all.at(-1)!.depart = all.at(-1)!.arrive
  const markAt = (station: number) => row('mark', { code: 'at', distance: distance[station]! }, station)
  const marked = all.flatMap((from, k) => {
    const to = all[k + 1]
    return to === undefined ? [from] : [from, ...marksBetween(outcome, from.distance, to.distance).map(markAt)]
  })
  marked.forEach((from, k) => {
    const to = marked[k + 1]
    if (to !== undefined) from.onward = onwardOf(outcome, from.station, to.station)
  })
  return marked

  function onwardOf({ route }: Outcome, first: number, until: number): Onward {
    const rider = columns.riderWork[until]! - columns.riderWork[first]!
    const motor = columns.motorWork[until]! - columns.motorWork[first]!
    return {
      length: distance[until]! - distance[first]!,
      ascent: ascentBetween(route.stations, first, until).ascent,
      ridingTime: columns.ridingTime[until]! - columns.ridingTime[first]!,
      assist: rider > 0 ? motor / rider : 0,
    }
  }
}

function nameOf({ plan, route }: Outcome, { kind, stop, gap, control }: Halt): PlaceName {
  if (kind === 'crossing') return crossingName(route, gap!)
  if (kind === 'control') return given(plan.controls.find(({ id }) => id === control)!.name)
  return kind === 'swap' ? { code: 'packSpent' } : given(plan.stops.find(({ id }) => id === stop)!.name)
}

function packIn({ plan }: Outcome, { swap }: Halt): string | undefined {
  return swap === undefined || swap.on === swap.off ? undefined : plan.battery.packs[swap.on]?.name
}

function filledAt({ plan }: Outcome, halt: Halt): Filled[] {
  const source = sourceOf(plan, halt)?.name ?? ''
  return halt.charges.map(({ pack, run }) => ({ source, pack: plan.battery.packs[pack]!.name, energy: run.stored }))
}

/** Stations of marks that cut a long way into pieces of 20 to 25 km where its length allows it. */
function marksBetween({ route }: Outcome, from: number, to: number): number[] {
  const pieces = Math.round((to - from) / markEvery)
  return Array.from({ length: Math.max(0, pieces - 1) }, (_, k) =>
    stationNear(route, from + ((to - from) * (k + 1)) / pieces),
  )
}

/** Least usable energy on arrival at each station, J, with which every later place is reached above the reserve by the plan's charging. */
function leastOnArrival(outcome: Outcome): Float64Array {
  const { columns, halts, reserve } = outcome
  const count = columns.left.length
  const least = new Float64Array(count)
  const leftLeaving = new Map(halts.map(({ station, leftAfter }) => [station, leftAfter]))
  let halt = halts.length - 1
  for (let i = count - 1; i >= 0; i--) {
    let need =
      i === count - 1
        ? reserve
        : Math.max(reserve, least[i + 1]! + (leftLeaving.get(i) ?? columns.left[i]!) - columns.left[i + 1]!)
    for (; halt >= 0 && halts[halt]!.station === i; halt--) {
      const { leftBefore, leftAfter } = halts[halt]!
      // A stop that charges up to a share makes good whatever was used before it, if that share is enough.
      const upTo = chargesUpTo(outcome, halts[halt]!)
      need = upTo !== undefined && upTo >= need ? reserve : Math.max(reserve, need - (leftAfter - leftBefore))
    }
    least[i] = need
  }
  return least
}
