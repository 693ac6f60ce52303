import { transferIn, type Arrangement } from './arrangement'
import { carriedFacts, carriedFault, carriedPack, type CarriedSpec } from './carried'
import { acceptedCurrent } from './charge'
import type { MainsCharger } from './charger'
import type { Filling } from './filling'
import { SocketCharge } from './mains'
import { packAt } from './pack'
import type { FillFirst } from './fill-order'
import { chargerRefusal, transferRefusal, type Refusal } from './refusal'
import type { TransferRun } from './transfer-run'
import { joulesPerWattHour } from '../units'

/** A stop at which an arrangement is used. */
export interface BenchStop {
  /** How long it lasts, s. */
  duration: number
  /** Charge wanted in the bike's pack, 0 to 1. */
  chargeTo: number
  /** Charge of the bike's pack and of the carried one on arrival, 0 to 1. */
  charge: number
  sourceCharge: number
}

/** A mains charger that could be carried instead. */
export interface SocketOffer {
  charger: MainsCharger
  /** Of the charger, kg. */
  mass: number
  /** Of the carried source's converter and cables, which would stay at home with it, kg. */
  saved: number
  /** Share of the stop in which a socket is free, 0 to 1. */
  free: number
}

/** What is changed, currents in A. */
export type Change =
  | { code: 'asItIs' }
  | { code: 'blocksInSeries'; blocks: number }
  | { code: 'blocksInParallel'; blocks: number }
  | { code: 'oneMoreInSeries' }
  | { code: 'oneMoreInParallel' }
  /** @param blocks of a string */
  | { code: 'oneMoreString'; blocks: number }
  /** @param current undefined where none higher is allowed */
  | { code: 'higherCurrent'; current: number | undefined }
  | { code: 'converterInput'; current: number }
  | { code: 'mainsCharger'; current: number }
  /** @param order in which the halt fills the packs */
  | { code: 'fillOrder'; order: FillFirst }

/** Why a change cannot be had. */
export type ChangeRefusal =
  | Refusal
  /** @param current set, A */
  | { code: 'mostAlready'; current: number }

/** What changing one thing would give. */
export interface Alternative {
  change: Change
  /** More mass than as it is, kg. */
  mass: number
  /** The arrangement so changed; none for a mains charger. */
  to?: Arrangement
  /** Why it cannot be had; then there are no figures. */
  refusal?: ChangeRefusal
  /** In the duration of the stop. */
  run?: TransferRun
  /** Until the charge wanted is reached, s; undefined where it never is. */
  timeToCharge?: number | undefined
  /** Less time than as it is, s; undefined where either never reaches the charge wanted. */
  timeSaved?: number | undefined
  /** More energy stored in the stop than as it is, J. */
  gain?: number
}

/** Gains below these count as none: J, s. */
const least = { energy: 0.5 * joulesPerWattHour, time: 30 }

/** Whether a change brings more in the stop, or the same sooner. */
export const isGain = ({ gain = 0, timeSaved = 0 }: Alternative): boolean =>
  gain >= least.energy || timeSaved >= least.time

/**
 * Changes that gain something, the best first: by what they bring in the stop, then by the time saved.
 *
 * @returns those, and the rest, which gain nothing or cannot be had; what stands there is in neither
 */
export function bestFirst(alternatives: readonly Alternative[]): { gaining: Alternative[]; rest: Alternative[] } {
  const changes = alternatives.filter(({ change }) => change.code !== 'asItIs')
  const wattHours = ({ gain = 0 }: Alternative) => Math.round(gain / joulesPerWattHour)
  const by = (one: Alternative, other: Alternative) =>
    wattHours(other) - wattHours(one) || (other.timeSaved ?? 0) - (one.timeSaved ?? 0)
  return { gaining: changes.filter(isGain).sort(by), rest: changes.filter((change) => !isGain(change)) }
}

/** A charge wanted that is not reached in this time counts as never reached, s. */
const longest = 24 * 3600

type Try = {
  change: Change
  mass: number
  to?: Arrangement
  refused?: ChangeRefusal
  filling?: Filling
}

/**
 * An arrangement as it is, first, then with one thing changed at a time. Changes that make no difference in kind, such as putting a single
 * block in series, are left out.
 *
 * @param socket the charger to compare with; left out where it is not given
 */
export function alternatives(arrangement: Arrangement, stop: BenchStop, socket?: SocketOffer): Alternative[] {
  const tries = [asItIs(arrangement), ...changedBlocks(arrangement), ...changedConverter(arrangement)].map(
    ({ change, mass, to, refused = refusedArrangement(to) }): Try =>
      refused === undefined ? { change, mass, to, filling: transferIn(to) } : { change, mass, to, refused },
  )
  if (socket !== undefined) tries.push(atSocket(arrangement, socket))

  let base: number | undefined
  let stored = 0
  return tries.map(({ refused, filling, ...row }) => {
    if (filling === undefined) return { ...row, ...(refused !== undefined && { refusal: refused }) }
    filling.fill(stop.sourceCharge, stop.charge, longest, stop.chargeTo)
    const timeToCharge = filling.charge >= stop.chargeTo - 1e-9 ? filling.time : undefined
    if (row.change.code === 'asItIs') base = timeToCharge
    const timeSaved = base === undefined || timeToCharge === undefined ? undefined : base - timeToCharge
    const run = filling.run(stop.sourceCharge, stop.charge, { time: stop.duration })
    if (row.change.code === 'asItIs') stored = run.stored
    return { ...row, run, timeToCharge, timeSaved, gain: run.stored - stored }
  })
}

type Changed = { change: Change; mass: number; to: Arrangement; refused?: ChangeRefusal }

function asItIs(arrangement: Arrangement): Changed {
  return { change: { code: 'asItIs' }, mass: 0, to: arrangement }
}

function changedBlocks(arrangement: Arrangement): Changed[] {
  const { carried } = arrangement
  const { blocksInSeries: series, blocksInParallel: parallel } = carried
  const blocks = series * parallel
  const withBlocks = (change: Change, changed: Partial<CarriedSpec>): Changed => {
    const to = { ...carried, ...changed }
    return {
      change,
      mass: carriedFacts(to).mass - carriedFacts(carried).mass,
      to: { ...arrangement, carried: to },
    }
  }
  const made: Changed[] = []
  if (parallel > 1) {
    const all = { blocksInSeries: blocks, blocksInParallel: 1 }
    made.push(withBlocks({ code: 'blocksInSeries', blocks }, all))
  }
  if (series > 1) {
    const all = { blocksInSeries: 1, blocksInParallel: blocks }
    made.push(withBlocks({ code: 'blocksInParallel', blocks }, all))
  }
  if (series > 1 && parallel === 1) {
    made.push(withBlocks({ code: 'oneMoreInSeries' }, { blocksInSeries: series + 1 }))
  } else {
    const change: Change = series > 1 ? { code: 'oneMoreString', blocks: series } : { code: 'oneMoreInParallel' }
    made.push(withBlocks(change, { blocksInParallel: parallel + 1 }))
  }
  return made
}

function changedConverter(arrangement: Arrangement): Changed[] {
  const { converter, pack, temperature } = arrangement
  const most = Math.min(converter.outputCurrent, acceptedCurrent(packAt(pack, temperature)).current)
  const inputCurrent = 2 * converter.inputCurrent
  const higher = { mass: 0, to: { ...arrangement, converter: { ...converter, current: most } } }
  return [
    most > converter.current
      ? { change: { code: 'higherCurrent', current: most }, ...higher }
      : {
          change: { code: 'higherCurrent', current: undefined },
          ...higher,
          refused: { code: 'mostAlready', current: converter.current },
        },
    {
      change: { code: 'converterInput', current: inputCurrent },
      mass: 0,
      to: { ...arrangement, converter: { ...converter, inputCurrent } },
    },
  ]
}

function refusedArrangement({ carried, converter, pack, temperature }: Arrangement): Refusal | undefined {
  const fault = carriedFault(carried)
  return fault ?? transferRefusal(carriedPack(carried, temperature), converter, packAt(pack, temperature))
}

function atSocket({ carried, pack: spec, temperature }: Arrangement, socket: SocketOffer): Try {
  const { charger, free } = socket
  const row = {
    change: { code: 'mainsCharger', current: charger.current } as const,
    mass: socket.mass - socket.saved - carriedFacts(carried).mass,
  }
  const pack = packAt(spec, temperature)
  const refused = chargerRefusal(pack, charger)
  return refused === undefined ? { ...row, filling: new SocketCharge(pack, charger, free) } : { ...row, refused }
}
