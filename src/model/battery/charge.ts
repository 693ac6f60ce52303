import { chargeAtOpenCircuit, openCircuitVoltage } from './chemistry'
import type { MainsCharger } from './charger'
import { energyBetween, type Pack } from './pack'
import { chargerRefusal } from './refusal'

/** What sets the current. */
export type ChargeLimit = 'chargerCurrent' | 'packCurrent' | 'cold' | 'constantVoltage'

/**
 * Why a charge ended: the pack is full; the current ran out at a charger's voltage that can't fill it; the charge asked for was
 * reached; the time was up.
 */
export type ChargeEnd = 'full' | 'chargerVoltage' | 'until' | 'time'

/** Where to stop short of the end: after a time, s, or at a charge, 0 to 1, whichever is first. */
export interface ChargeGoal {
  time?: number | undefined
  charge?: number | undefined
}

export interface ChargeRun {
  /** How long it took, s. */
  time: number
  /** Charge of the pack at the end, 0 to 1. */
  charge: number
  /** Open-circuit energy gained, J. */
  stored: number
  /** Lost in the pack's resistance, J. */
  resistiveLoss: number
  /** Charge that went in and does not come out, as energy, J. */
  coulombicLoss: number
  /** Energy in at the pack's terminals, J: stored + both losses. */
  delivered: number
  /** Energy taken from the mains, J. */
  fromMains: number
  /** What set the current, in order, each until a time from the start, s. Empty where nothing was charged. */
  phases: { limit: ChargeLimit; until: number }[]
  end: ChargeEnd
}

/** A charger whose voltage is too low to fill a pack, V, and how far it fills it, 0 to 1. */
export interface ChargerShortfall {
  voltage: number
  full: number
  charge: number
}

/** How far a charger falls short; undefined where it fills the pack to 95 % or more. It may be used: the charge only ends early. */
export function chargerShortfall(pack: Pack, { voltage }: MainsCharger): ChargerShortfall | undefined {
  const share = (voltage - endCurrent(pack) * pack.chargeResistance) / pack.series
  const charge = chargeAtOpenCircuit(pack.chemistry, share)
  const full = pack.series * pack.chemistry.chargeLimitVoltage
  return charge >= 0.95 || voltage >= full ? undefined : { voltage, full, charge }
}

/** Current at which charging counts as done, A. */
export function endCurrent(pack: Pack): number {
  return pack.chemistry.endRate * pack.spec.capacityAh
}

/**
 * Greatest current that a pack accepts at its temperature, A, and what sets it: its own limit, or the cold.
 *
 * @see Chemistry.coldRates
 */
export function acceptedCurrent(pack: Pack): { current: number; limit: 'packCurrent' | 'cold' } {
  const { chargeCurrent, capacityAh } = pack.spec
  for (const { below, rate } of pack.chemistry.coldRates) {
    if (pack.temperature < below && rate * capacityAh < chargeCurrent)
      return { current: rate * capacityAh, limit: 'cold' }
  }
  return { current: chargeCurrent, limit: 'packCurrent' }
}

/** A charge on its way. The two functions that advance it hold for any source, as long as its limit stands still over the step. */
interface Advance {
  /** Charge of the pack, 0 to 1. */
  charge: number
  /** s. */
  time: number
  /** ∫ I² R dt, J. */
  resistiveLoss: number
}

/**
 * Advances by constant current to a charge, or until the time is up: z = z₀ + ηIt/Q.
 *
 * @param to charge, not below the present one
 * @param end time at which to stop at the latest, s
 * @returns whether the charge was reached
 */
function constantCurrent(run: Advance, pack: Pack, current: number, to: number, end: number): boolean {
  const perSecond = (pack.chemistry.coulombicEfficiency * current) / pack.capacity
  const needed = (to - run.charge) / perSecond
  const reached = run.time + needed <= end
  const time = reached ? needed : end - run.time
  run.charge = reached ? to : Math.min(to, run.charge + perSecond * time)
  run.time = reached ? run.time + needed : end
  run.resistiveLoss += current * current * pack.chargeResistance * time
  return reached
}

/**
 * Advances at constant voltage to a charge, or until the time is up. Between two knots of the open-circuit table the voltage over the
 * resistance falls in proportion to the charge, so the current is exactly I = I₀ exp(−t/τ), τ = R Q / (η dV_oc/dz).
 *
 * @param to charge at which the current is still above 0, not below the present one
 * @param end time at which to stop at the latest, s
 * @returns whether the charge was reached
 */
function constantVoltage(run: Advance, pack: Pack, voltage: number, to: number, end: number): boolean {
  const { chemistry, series, capacity, chargeResistance: ohm } = pack
  const { charge: knots, slope } = chemistry.openCircuit
  for (let k = 0; k < slope.length && run.charge < to; k++) {
    if (knots[k + 1]! <= run.charge) continue
    const next = Math.min(to, knots[k + 1]!)
    const tau = (ohm * capacity) / (chemistry.coulombicEfficiency * series * slope[k]!)
    const before = (voltage - series * openCircuitVoltage(chemistry, run.charge)) / ohm
    const fall = (series * slope[k]! * (next - run.charge)) / ohm
    const needed = -tau * Math.log1p(-fall / before)
    const reached = run.time + needed <= end
    const time = reached ? needed : end - run.time
    const after = reached ? before - fall : before * Math.exp(-time / tau)
    run.charge = reached ? next : Math.min(next, run.charge + ((before - after) * ohm) / (series * slope[k]!))
    run.time = reached ? run.time + needed : end
    run.resistiveLoss += (ohm * tau * (before - after) * (before + after)) / 2
    if (!reached) return false
  }
  return true
}

/**
 * A charger joined to a pack: it charges by constant current, then constant voltage, in time. The current at each moment is the least of the charger's,
 * the pack's and the cold's limit and of what the held voltage still drives through the pack's resistance; it ends when that last has
 * fallen to the end current (C/20) or the pack is at 1. The pack's temperature stands still.
 *
 * The resistance is the chemistry's charge resistance over the whole charge, without the discharge's rise near empty. Each piece is solved in
 * closed form, so the result has no step error.
 */
export class MainsCharge {
  /** After `fill`: charge of the pack, 0 to 1, the time it took, s, and heat in the pack's resistance, J. */
  charge = 0
  time = 0
  resistiveLoss = 0
  /** The same: until when the current was constant, s, and whether it went as far as it can or was to go before its time was up. */
  steadyUntil = 0
  done = true
  /** What sets the constant current, A, and that current; the voltage that is held at the most, V. */
  readonly limit: ChargeLimit
  readonly current: number
  readonly voltage: number
  /** Whether that voltage fills the pack, and the charge at which it drives the constant current. */
  private readonly full: boolean
  private readonly taperFrom: number
  /** The charge at which it drives the end current. A charger weaker than that is done as soon as it would hold its voltage. */
  private readonly taperTo: number

  /**
   * @param pack at the temperature of the charge
   * @param charger one that `chargerRefusal` does not refuse
   * @throws RangeError where it does, with its code
   */
  constructor(
    readonly pack: Pack,
    readonly charger: MainsCharger,
  ) {
    const { chemistry, series } = pack
    const refusal = chargerRefusal(pack, charger)
    if (refusal !== undefined) throw new RangeError(`Such a charger is refused: ${refusal.code}.`)
    const full = series * chemistry.chargeLimitVoltage
    const accepted = acceptedCurrent(pack)
    this.voltage = Math.min(charger.voltage, full)
    this.full = this.voltage >= full
    this.current = Math.min(charger.current, accepted.current)
    this.limit = charger.current <= accepted.current ? 'chargerCurrent' : accepted.limit
    const chargeAt = (amperes: number) =>
      chargeAtOpenCircuit(chemistry, (this.voltage - amperes * pack.chargeResistance) / series)
    this.taperFrom = chargeAt(this.current)
    this.taperTo = Math.max(this.taperFrom, chargeAt(endCurrent(pack)))
  }

  /**
   * Charges and keeps only where it ends, allocating nothing.
   *
   * @param charge at the start, 0 to 1
   * @param longest time after which to stop, s; may be Infinity
   * @param until charge at which to stop, 0 to 1
   * @throws RangeError where one is out of range
   */
  fill(charge: number, longest: number, until: number): void {
    if (!(charge >= 0 && charge <= 1)) throw new RangeError('The charge to start from must be 0 to 1.')
    if (!(until >= 0 && until <= 1)) throw new RangeError('The charge to stop at must be 0 to 1.')
    if (!(longest >= 0)) throw new RangeError('The time to charge for must not be negative.')
    const { pack, current, voltage } = this
    const target = Math.min(Math.max(charge, this.taperTo), Math.max(charge, until))
    const steady = Math.min(this.taperFrom, target)
    this.charge = charge
    this.time = 0
    this.resistiveLoss = 0
    this.done = charge >= steady || constantCurrent(this, pack, current, steady, longest)
    this.steadyUntil = this.time
    if (this.done && this.charge < target) this.done = constantVoltage(this, pack, voltage, target, longest)
  }

  /**
   * The same with its course.
   *
   * @param goal where to stop short of full; `{}` charges to the end
   */
  run(charge: number, goal: ChargeGoal): ChargeRun {
    const { pack } = this
    const { time: longest = Infinity, charge: until = 1 } = goal
    this.fill(charge, longest, until)
    const { time, steadyUntil, resistiveLoss } = this
    const phases: ChargeRun['phases'] = []
    if (steadyUntil > 0) phases.push({ limit: this.limit, until: steadyUntil })
    if (time > steadyUntil) phases.push({ limit: 'constantVoltage', until: time })
    const stored = energyBetween(pack, charge, this.charge)
    const coulombicLoss = stored / pack.chemistry.coulombicEfficiency - stored
    const delivered = stored + coulombicLoss + resistiveLoss
    const fills = this.full || Math.max(charge, this.taperTo) >= 1
    return {
      time,
      charge: this.charge,
      stored,
      resistiveLoss,
      coulombicLoss,
      delivered,
      fromMains: delivered / this.charger.efficiency,
      phases,
      end: !this.done ? 'time' : until < 1 && until <= this.charge ? 'until' : fills ? 'full' : 'chargerVoltage',
    }
  }
}
