import { chargeAtOpenCircuit, chemistries, openCircuitVoltage } from './chemistry'
import { energyBetween, type Pack, type PackSpec } from './pack'

/** A charger on the mains: constant current up to its voltage, then that voltage held. */
export interface MainsCharger {
  /** The voltage it holds, V. */
  voltage: number
  /** Greatest current out of it, A. */
  current: number
  /** Energy into the pack over energy from the mains, above 0, at most 1. */
  efficiency: number
}

/** What sets the current. */
export type ChargeLimit = 'charger current' | 'pack current' | 'cold' | 'constant voltage'

/**
 * Why a charge ended: the pack is full; the current ran out at a charger's voltage that can't fill it; the charge asked for was
 * reached; the time was up.
 */
export type ChargeEnd = 'full' | 'charger voltage' | 'until' | 'time'

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

/** A charger's voltage may pass the pack's full voltage by this share: its own setting error. Charging is then reckoned at the full voltage. */
export const voltageTolerance = 0.005

/**
 * Why a charger must not be used on a pack, as one sentence; undefined where it may be.
 *
 * @param spec the pack
 * @param charger the charger; its voltage may be up to 0.5 % above the pack's full voltage
 * @param temperature of the cells, °C; below 0 and above 45 is refused (`Chemistry.leastChargeTemperature`)
 * @param chemistry the cells; by default those of the spec's chemistry
 */
export function checkCharger(
  spec: PackSpec,
  charger: MainsCharger,
  temperature: number,
  chemistry = chemistries[spec.chemistry],
): string | undefined {
  const full = spec.series * chemistry.chargeLimitVoltage
  const { leastChargeTemperature: least, mostChargeTemperature: most } = chemistry
  if (!(charger.voltage > 0 && charger.current > 0 && charger.efficiency > 0 && charger.efficiency <= 1)) {
    return 'The charger needs a voltage and a current above 0 and an efficiency above 0 and at most 100 %.'
  }
  if (charger.voltage > full * (1 + voltageTolerance)) {
    return `The charger's ${volts(charger.voltage)} would overcharge this pack, which is full at ${volts(full)}.`
  }
  if (!(temperature >= least)) return `Lithium cells must not be charged below ${least} °C.`
  if (temperature > most) return `This pack must not be charged above ${most} °C.`
  if (spec.chargeCurrent <= 0) return 'This pack takes no charging current.'
  return undefined
}

/**
 * What to say, as one sentence, of a charger whose voltage is too low to fill a pack; undefined where it fills it to 95 % or more. It may
 * be used: the charge only ends early.
 */
export function chargerShortfall(pack: Pack, charger: MainsCharger): string | undefined {
  const share = (charger.voltage - endCurrent(pack) * pack.chargeResistance) / pack.series
  const reached = chargeAtOpenCircuit(pack.chemistry, share)
  const full = pack.series * pack.chemistry.chargeLimitVoltage
  if (reached >= 0.95 || charger.voltage >= full) return undefined
  return `The charger's ${volts(charger.voltage)} is below the ${volts(full)} of a full pack and fills it to about ${Math.round(reached * 100)} % only.`
}

function volts(voltage: number): string {
  return `${voltage.toFixed(1)} V`
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
export function acceptedCurrent(pack: Pack): { current: number; limit: 'pack current' | 'cold' } {
  const { chargeCurrent, capacityAh } = pack.spec
  for (const { below, rate } of pack.chemistry.coldRates) {
    if (pack.temperature < below && rate * capacityAh < chargeCurrent)
      return { current: rate * capacityAh, limit: 'cold' }
  }
  return { current: chargeCurrent, limit: 'pack current' }
}

/** A charge on its way. The two functions that advance it hold for any source, as long as its limit stands still over the step. */
interface Advance {
  charge: number
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
 * Charges a pack by constant current, then constant voltage, in time. The current at each moment is the least of the charger's, the
 * pack's and the cold's limit and of what the held voltage still drives through the pack's resistance; it ends when that last has
 * fallen to the end current (C/20) or the pack is at 1. The pack's temperature stands still.
 *
 * The resistance is the chemistry's charge resistance over the whole charge, without the discharge's rise near empty. Each piece is solved in
 * closed form, so the result has no step error.
 *
 * @param pack at the temperature of the charge
 * @param charge at the start, 0 to 1
 * @param charger one that `checkCharger` does not refuse
 * @param goal where to stop short of full; `{}` charges to the end
 * @throws RangeError where `checkCharger` refuses, with its sentence, or where charge or goal are out of range
 */
export function chargePack(pack: Pack, charge: number, charger: MainsCharger, goal: ChargeGoal): ChargeRun {
  const { chemistry, series } = pack
  const refusal = checkCharger(pack.spec, charger, pack.temperature, chemistry)
  if (refusal !== undefined) throw new RangeError(refusal)
  const { time: end = Infinity, charge: until = 1 } = goal
  if (!(charge >= 0 && charge <= 1)) throw new RangeError('The charge to start from must be 0 to 1.')
  if (!(until >= 0 && until <= 1)) throw new RangeError('The charge to stop at must be 0 to 1.')
  if (!(end >= 0)) throw new RangeError('The time to charge for must not be negative.')

  const full = series * chemistry.chargeLimitVoltage
  const voltage = Math.min(charger.voltage, full)
  const accepted = acceptedCurrent(pack)
  const current = Math.min(charger.current, accepted.current)
  const limit = charger.current <= accepted.current ? 'charger current' : accepted.limit
  /** Charge at which the held voltage drives just this current. */
  const chargeAt = (amperes: number) =>
    chargeAtOpenCircuit(chemistry, (voltage - amperes * pack.chargeResistance) / series)
  const taperFrom = chargeAt(current)
  // A charger weaker than the end current is done as soon as it would hold its voltage.
  const most = Math.max(charge, taperFrom, chargeAt(endCurrent(pack)))
  const target = Math.min(most, Math.max(charge, until))
  const fills = voltage >= full || most >= 1

  const run: Advance = { charge, time: 0, resistiveLoss: 0 }
  const phases: ChargeRun['phases'] = []
  let reached = true
  if (charge < Math.min(taperFrom, target)) {
    reached = constantCurrent(run, pack, current, Math.min(taperFrom, target), end)
    if (run.time > 0) phases.push({ limit, until: run.time })
  }
  if (reached && run.charge < target) {
    const before = run.time
    reached = constantVoltage(run, pack, voltage, target, end)
    if (run.time > before) phases.push({ limit: 'constant voltage', until: run.time })
  }

  const stored = energyBetween(pack, charge, run.charge)
  const coulombicLoss = stored / chemistry.coulombicEfficiency - stored
  const delivered = stored + coulombicLoss + run.resistiveLoss
  return {
    time: run.time,
    charge: run.charge,
    stored,
    resistiveLoss: run.resistiveLoss,
    coulombicLoss,
    delivered,
    fromMains: delivered / charger.efficiency,
    phases,
    end: !reached ? 'time' : until < 1 && until <= run.charge ? 'until' : fills ? 'full' : 'charger voltage',
  }
}
