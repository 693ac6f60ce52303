import { transferIn, type Arrangement } from './arrangement'
import { carriedFacts, checkCarried, carriedPack, type CarriedSpec } from './carried'
import { acceptedCurrent } from './charge'
import type { MainsCharger } from './charger'
import type { Filling } from './filling'
import { SocketCharge } from './mains'
import { packAt } from './pack'
import { chargerRefusal, refusal } from './refusal'
import type { TransferRun } from './transfer-run'

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

export type Change =
  | 'as it is'
  | 'blocks in series'
  | 'blocks in parallel'
  | 'higher set current'
  | 'converter input'
  | 'bigger pack'
  | 'mains charger'

/** What changing one thing would give. */
export interface Alternative {
  change: Change
  /** The change in words. */
  label: string
  /** More mass than as it is, kg. */
  mass: number
  /** The arrangement so changed; none for a mains charger. */
  to?: Arrangement
  /** Why it cannot be had, as one sentence; then there are no figures. */
  refusal?: string
  /** In the duration of the stop. */
  run?: TransferRun
  /** Until the charge wanted is reached, s; undefined where it never is. */
  timeToCharge?: number | undefined
  /** Less time than as it is, s; undefined where either never reaches the charge wanted. */
  timeSaved?: number | undefined
}

/** A charge wanted that is not reached in this time counts as never reached, s. */
const longest = 24 * 3600

type Try = {
  change: Change
  label: string
  mass: number
  to?: Arrangement
  refused?: string
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
    ({ change, label, mass, to, refused }): Try => {
      const sentence = refused ?? refusedArrangement(to)
      if (sentence !== undefined) return { change, label, mass, to, refused: sentence }
      return { change, label, mass, to, filling: transferIn(to) }
    },
  )
  if (socket !== undefined) tries.push(atSocket(arrangement, socket))

  let base: number | undefined
  return tries.map(({ refused, filling, ...row }) => {
    if (filling === undefined) return { ...row, ...(refused !== undefined && { refusal: refused }) }
    filling.fill(stop.sourceCharge, stop.charge, longest, stop.chargeTo)
    const timeToCharge = filling.charge >= stop.chargeTo - 1e-9 ? filling.time : undefined
    if (row.change === 'as it is') base = timeToCharge
    const timeSaved = base === undefined || timeToCharge === undefined ? undefined : base - timeToCharge
    const run = filling.run(stop.sourceCharge, stop.charge, { time: stop.duration })
    return { ...row, run, timeToCharge, timeSaved }
  })
}

type Changed = { change: Change; label: string; mass: number; to: Arrangement; refused?: string }

function asItIs(arrangement: Arrangement): Changed {
  return { change: 'as it is', label: 'As it is', mass: 0, to: arrangement }
}

function changedBlocks(arrangement: Arrangement): Changed[] {
  const { carried } = arrangement
  const { blocksInSeries: series, blocksInParallel: parallel } = carried
  const blocks = series * parallel
  const withBlocks = (change: Change, label: string, changed: Partial<CarriedSpec>): Changed => {
    const to = { ...carried, ...changed }
    return {
      change,
      label,
      mass: carriedFacts(to).mass - carriedFacts(carried).mass,
      to: { ...arrangement, carried: to },
    }
  }
  const made: Changed[] = []
  if (parallel > 1) {
    const all = { blocksInSeries: blocks, blocksInParallel: 1 }
    made.push(withBlocks('blocks in series', `All ${blocks} blocks in series`, all))
  }
  if (series > 1) {
    const all = { blocksInSeries: 1, blocksInParallel: blocks }
    made.push(withBlocks('blocks in parallel', `All ${blocks} blocks in parallel`, all))
  }
  if (series > 1 && parallel === 1) {
    made.push(withBlocks('bigger pack', 'One more block in series', { blocksInSeries: series + 1 }))
  } else {
    const label = series > 1 ? `One more string of ${series} blocks` : 'One more block in parallel'
    made.push(withBlocks('bigger pack', label, { blocksInParallel: parallel + 1 }))
  }
  return made
}

function changedConverter(arrangement: Arrangement): Changed[] {
  const { converter, pack, temperature } = arrangement
  const most = Math.min(converter.outputCurrent, acceptedCurrent(packAt(pack, temperature)).current)
  const inputCurrent = 2 * converter.inputCurrent
  const higher: Changed = {
    change: 'higher set current',
    label: `Set to ${most.toFixed(1)} A`,
    mass: 0,
    to: { ...arrangement, converter: { ...converter, current: most } },
  }
  if (most <= converter.current) {
    higher.label = 'A higher set current'
    higher.refused = `${converter.current.toFixed(1)} A is already all that converter and pack allow.`
  }
  return [
    higher,
    {
      change: 'converter input',
      label: `A converter that may draw ${inputCurrent.toFixed(1)} A`,
      mass: 0,
      to: { ...arrangement, converter: { ...converter, inputCurrent } },
    },
  ]
}

function refusedArrangement({ carried, converter, pack, temperature }: Arrangement): string | undefined {
  return checkCarried(carried) ?? refusal(carriedPack(carried, temperature), converter, packAt(pack, temperature))
}

function atSocket({ carried, pack: spec, temperature }: Arrangement, socket: SocketOffer): Try {
  const { charger, free } = socket
  const row = {
    change: 'mains charger' as const,
    label: `A ${charger.current.toFixed(1)} A charger at a socket`,
    mass: socket.mass - socket.saved - carriedFacts(carried).mass,
  }
  const pack = packAt(spec, temperature)
  const refused = chargerRefusal(pack, charger)
  return refused === undefined ? { ...row, filling: new SocketCharge(pack, charger, free) } : { ...row, refused }
}
