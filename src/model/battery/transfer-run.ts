import type { ChargeEnd, ChargeLimit } from './charge'
import type { Moment, TransferLimit } from './circuit'
import { openCircuit, type Pack } from './pack'

/** Why a transfer ended: as a charge does; the carried pack gives nothing more; its converter cannot do it any more; no socket was free. */
export type TransferEnd = ChargeEnd | 'sourceEmpty' | 'outOfRange' | 'noSocket'

/** Energy that did not arrive, J. */
export interface TransferLosses {
  /** In the resistance of the carried pack. */
  source: number
  sourceCable: number
  /** In the converter, or in a mains charger, while it carries power. */
  converter: number
  standby: number
  outputCable: number
  /** In the resistance of the bike's pack. */
  pack: number
  /** Charge that went in and does not come out. */
  coulombic: number
}

/** A charge from a carried pack over time, one row a moment, all columns of one length. */
export interface TransferColumns {
  /** From the start, s. */
  time: Float64Array
  /** At the input and the output of the converter, V. */
  inputVoltage: Float64Array
  outputVoltage: Float64Array
  /** Out of the carried pack, A. */
  sourceCurrent: Float64Array
  /** Into the bike's pack, A. */
  current: Float64Array
  /** Drawn and given by the converter, W. */
  drawn: Float64Array
  given: Float64Array
  /** Rate at which the bike's pack gains open-circuit energy, W. */
  storing: Float64Array
  /** 0 to 1. */
  charge: Float64Array
  sourceCharge: Float64Array
  limit: TransferLimit[]
}

/** What a source did to a pack: a carried pack through a converter, or a mains charger. */
export interface TransferRun {
  /** How long it took, s. */
  time: number
  /** Charge of the bike's pack and of the carried one at the end, 0 to 1; the source of a mains charger stays at 1. */
  charge: number
  sourceCharge: number
  /** Open-circuit energy gained by the bike's pack, J. */
  stored: number
  /** Energy in at its terminals, J: stored, coulombic and resistive loss of the pack. */
  delivered: number
  /** Open-circuit energy out of the carried pack, or energy from the mains, J: stored and all losses. */
  drawn: number
  losses: TransferLosses
  /** What set the current, in order, each until a time from the start, s. Empty where nothing flowed. */
  phases: { limit: TransferLimit | ChargeLimit; until: number }[]
  end: TransferEnd
}

const names = [
  'time',
  'inputVoltage',
  'outputVoltage',
  'sourceCurrent',
  'current',
  'drawn',
  'given',
  'storing',
  'charge',
  'sourceCharge',
] as const

/** Rows of a transfer, gathered on the way. */
export class Rows {
  private readonly rows: Record<(typeof names)[number], number>[] = []
  private readonly limits: TransferColumns['limit'] = []

  constructor(private readonly pack: Pack) {}

  add(time: number, moment: Moment, charge: number, sourceCharge: number): void {
    const { inputVoltage, outputVoltage, sourceCurrent, current, drawn, given, limit } = moment
    const storing = openCircuit(this.pack, charge) * current * this.pack.chemistry.coulombicEfficiency
    const row = {
      time,
      inputVoltage,
      outputVoltage,
      sourceCurrent,
      current,
      drawn,
      given,
      storing,
      charge,
      sourceCharge,
    }
    this.rows.push(row)
    this.limits.push(limit)
  }

  columns(): TransferColumns {
    const columns = names.map((name) => [name, Float64Array.from(this.rows, (row) => row[name])])
    return { ...(Object.fromEntries(columns) as Omit<TransferColumns, 'limit'>), limit: this.limits }
  }
}
