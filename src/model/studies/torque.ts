import { leftAtFinish, type Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'
import { setFields } from '../plan/edit'
import { assistParameters } from '../plan/parameters'
import { gearingOf, hardestTorque } from '../readings/pedalling'

/** Which assist on climbs keeps the torque below a figure. */
export type TorqueAssist =
  /** It stays below as planned. */
  | { code: 'asPlanned' }
  /**
   * This ratio keeps it so; the day then ends later by `time`, s, and with so much more in the packs, J, either of which may be negative.
   */
  | { code: 'ratio'; ratio: number; time: number; left: number }
  /** No assist does: at the cadence stated the power itself asks for more. Less power would do, W. */
  | { code: 'power'; power: number }
  /** No assist that can be set does: the least torque that is reached, N·m. */
  | { code: 'motor'; torque: number }

/** Ratios are tried in coarse steps until one does, then in fine ones below it. */
const coarse = 0.25
const fine = 0.05

/**
 * Least assist on climbs, at or above what is planned, that keeps the torque of every climb's hardest 100 m below a figure: more assist is more speed, so
 * that the lowest gear is turned faster. Whole forecasts are tried, so that the motor's limits, the legal speed and packs that run empty are in it.
 *
 * @param most torque at the cranks, N·m, above 0
 */
export function assistForTorque(outcome: Outcome, most: number): TorqueAssist {
  const planned = hardestTorque(outcome)
  if (planned <= most) return { code: 'asPlanned' }
  const { route, plan } = outcome
  const { max } = assistParameters.climbRatio
  const from = plan.assist.climbRatio
  const at = (climbRatio: number) => simulate(route, setFields(plan, 'assist', { climbRatio }))
  let least = planned
  const keeps = (ratio: number) => {
    const torque = hardestTorque(at(ratio))
    least = Math.min(least, torque)
    return torque <= most
  }
  const rising = (first: number, last: number, step: number) =>
    Array.from({ length: Math.max(0, Math.ceil((last - first) / step - 1e-9)) }, (_, k) =>
      Math.min(last, (Math.floor(first / step + 1e-9) + k + 1) * step),
    )
  const roughly = rising(from, max, coarse).find(keeps)
  if (roughly === undefined) {
    const power = (2 * Math.PI * gearingOf(outcome).cadence * most) / plan.rider.climbFactor
    return power < plan.rider.power ? { code: 'power', power } : { code: 'motor', torque: least }
  }
  const ratio = rising(Math.max(from, roughly - coarse), roughly, fine).find(keeps) ?? roughly
  const then = at(ratio)
  const time = then.columns.time.at(-1)! - outcome.columns.time.at(-1)!
  return { code: 'ratio', ratio, time, left: leftAtFinish(then) - leftAtFinish(outcome) }
}
