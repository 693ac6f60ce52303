import { transferIn, type Arrangement } from '../battery/arrangement'
import { carriedFacts, carriedFault, carriedPack, chargeAfterStorage } from '../battery/carried'
import { steadyCurrents, typicalEfficiency, type Converter } from '../battery/converter'
import type { Filling } from '../battery/filling'
import { SocketCharge } from '../battery/mains'
import type { Pack, PackSpec } from '../battery/pack'
import { chargerRefusal, transferRefusal, type Refusal } from '../battery/refusal'
import type { TransferRun } from '../battery/transfer-run'
import type { CarriedSource, Plan, PlanSource } from '../plan/schema'
import type { Halt } from './outcome'
import type { PackState } from './pack-state'

type ChargingSource = Exclude<PlanSource, { kind: 'swap' }>

/** A converter as it is stated, with the currents and the efficiency that are reckoned with. */
export const plannedConverter = (stated: CarriedSource['converter']): Converter => ({
  ...stated,
  ...steadyCurrents(stated),
  efficiencyByLoad: typicalEfficiency(stated.efficiency),
})

/**
 * What stands on the bench, from a carried pack to one of the bike's.
 *
 * @param temperature of all cells, °C
 */
export function arrangementOf(source: CarriedSource, pack: PackSpec, temperature: number): Arrangement {
  const { carried, converter, sourceCable, outputCable } = source
  return {
    carried,
    sourceCable,
    converter: plannedConverter(converter),
    outputCable,
    pack,
    temperature,
  }
}

/** Why a source must not charge a pack; undefined where it may. */
export function sourceRefusal(source: PlanSource, pack: Pack): Refusal | undefined {
  const { spec, temperature } = pack
  if (source.kind === 'swap') return undefined
  if (source.kind === 'mains') return chargerRefusal(pack, source)
  const { carried, converter } = arrangementOf(source, spec, temperature)
  return carriedFault(carried) ?? transferRefusal(carriedPack(carried, temperature), converter, pack)
}

/** Mass of a charge source with all that belongs to it, kg. */
export function sourceMass(source: PlanSource): number {
  switch (source.kind) {
    case 'mains':
      return source.mass
    case 'carried':
      return (
        carriedFacts(source.carried).mass + source.converter.mass + source.sourceCable.mass + source.outputCable.mass
      )
    case 'swap':
      return 0
  }
}

/** Charge sources that a stop or a crossing uses. */
export const usedSources = ({ sources, stops, crossings }: Plan): PlanSource[] =>
  sources.filter(({ id }) => [...stops, ...crossings].some(({ source }) => source === id))

/** Charge sources that are on the bike: those that are used, and those that come along all the same. */
export const sourcesAlong = (plan: Plan): PlanSource[] => {
  const used = usedSources(plan)
  return plan.sources.filter((source) => used.includes(source) || (source.kind !== 'swap' && source.along === true))
}

/** The charge source of a halt; undefined where it has none. */
export function sourceOf({ stops, crossings, sources }: Plan, { stop, gap }: Halt): PlanSource | undefined {
  const id = gap === undefined ? stops.find(({ id }) => id === stop)?.source : crossings[gap]?.source
  return sources.find((source) => source.id === id)
}

/** Whether a halt uses a charge source, by its id: for many halts at once. */
export function usesOf({ stops, crossings }: Plan, source: string): (halt: Halt) => boolean {
  const at = new Set(stops.filter((stop) => stop.source === source).map(({ id }) => id))
  return ({ stop, gap }) => (gap === undefined ? stop !== undefined && at.has(stop) : crossings[gap]?.source === source)
}

/** Charge sources as the day goes on: what one stop takes from a carried pack is gone for the next. */
export class Sources {
  private readonly charge = new Map<string, number>()

  constructor(plan: Plan) {
    for (const source of plan.sources)
      if (source.kind === 'carried') this.charge.set(source.id, chargeAfterStorage(source.carried))
  }

  /** Charge of a carried pack now, 0 to 1; undefined for other sources. */
  left(id: string): number | undefined {
    return this.charge.get(id)
  }

  /** Sets it; nothing where it is undefined. */
  hold(id: string, charge: number | undefined): void {
    if (charge !== undefined) this.charge.set(id, charge)
  }

  /** Charges of all carried packs, by source. */
  charges(): Record<string, number> {
    return Object.fromEntries(this.charge)
  }

  /** Sets those named. */
  restore(charges: Readonly<Record<string, number>>): void {
    for (const [id, charge] of Object.entries(charges)) this.charge.set(id, charge)
  }

  /** As `sourceRefusal`, worked out once. */
  refusal(source: ChargingSource, pack: Pack): Refusal | undefined {
    return jointOf(source, pack).fault
  }

  /**
   * Charges a pack, which keeps what it got. The source must not be refused.
   *
   * @param longest time after which to stop, s
   * @param until charge at which to stop, 0 to 1
   * @param note takes the course of it, which is worked out only for this
   * @returns how long it took, s
   */
  fill(
    source: ChargingSource,
    state: PackState,
    longest: number,
    until: number,
    note: ((run: TransferRun) => void) | undefined,
  ): number {
    const { filling } = jointOf(source, state.pack)
    if (filling === undefined) throw new RangeError('A refused source does not charge.')
    const sourceCharge = this.charge.get(source.id) ?? 1
    if (note === undefined) filling.fill(sourceCharge, state.charge, longest, until)
    else note(filling.run(sourceCharge, state.charge, { time: longest, charge: until }))
    state.hold(filling.charge)
    if (source.kind === 'carried') this.charge.set(source.id, filling.sourceCharge)
    return filling.time
  }
}

/** A source at a pack, or why it must not be there. */
interface Joint {
  filling?: Filling
  fault?: Refusal
}

const joints = new WeakMap<Pack, WeakMap<ChargingSource, Joint>>()

/** A source joined to a pack, worked out once for all rides with both. */
function jointOf(source: ChargingSource, pack: Pack): Joint {
  const ofPack = joints.get(pack) ?? new WeakMap<ChargingSource, Joint>()
  joints.set(pack, ofPack)
  const joint = ofPack.get(source) ?? join(source, pack)
  ofPack.set(source, joint)
  return joint
}

function join(source: ChargingSource, pack: Pack): Joint {
  const fault = sourceRefusal(source, pack)
  if (fault !== undefined) return { fault }
  return {
    filling:
      source.kind === 'mains'
        ? new SocketCharge(pack, source, source.free)
        : transferIn(arrangementOf(source, pack.spec, pack.temperature)),
  }
}
