import { simulate } from '../forecast/simulate'
import type { Outcome } from '../forecast/outcome'
import { marginOf } from '../readings/reach'

/** What makes a stronger rider later: s standing to charge, m on foot, m without the motor; packs swapped more often; other weather. */
export type LaterCause =
  | { code: 'charging'; time: number }
  | { code: 'onFoot'; length: number }
  | { code: 'motorOff'; length: number }
  | { code: 'swaps'; count: number }
  | { code: 'weather' }

/** A stronger rider who is later. */
export interface StrongerLater {
  /** Share of power that is more. */
  more: number
  /** How much later the finish is, s. */
  time: number
  /** What is known of why; the first is what costs most, as a rule. */
  causes: LaterCause[]
}

/** What is told of power, a share: what training or a better day brings. A choice. */
const more = 0.05
/** Later by less than this is not said, s. */
const leastTime = 60
const leastLength = 50 // m

/**
 * Whether more power of the rider's own would make this day longer: the motor gives more with it, so that packs are spent sooner and stops to charge
 * last longer. With the motor off and one weather all day it never does. One more forecast, so this is not for each frame of a gesture.
 *
 * @returns undefined where it does not
 */
export function strongerLater(outcome: Outcome): StrongerLater | undefined {
  const { plan, route } = outcome
  const stronger = simulate(route, { ...plan, rider: { ...plan.rider, power: plan.rider.power * (1 + more) } })
  const change = (of: (outcome: Outcome) => number) => of(stronger) - of(outcome)
  const time = change(({ columns }) => columns.time.at(-1)!)
  if (time < leastTime) return undefined
  const causes: LaterCause[] = []
  const off = change((outcome) => marginOf(outcome).withoutMotor)
  if (off > leastLength) causes.push({ code: 'motorOff', length: off })
  const walked = change((outcome) => outcome.walked)
  if (walked > leastLength) causes.push({ code: 'onFoot', length: walked })
  const charging = change(chargingTime)
  if (charging > leastTime / 2) causes.push({ code: 'charging', time: charging })
  const count = change(({ halts }) => halts.filter(({ kind }) => kind === 'swap').length)
  if (count > 0) causes.push({ code: 'swaps', count })
  if (causes.length === 0 && plan.weather.table.length > 0) causes.push({ code: 'weather' })
  return { more, time, causes }
}

const chargingTime = ({ halts }: Outcome): number =>
  halts.reduce(
    (sum, { kind, charges, arrive, depart }) => (kind === 'stop' && charges.length > 0 ? sum + depart - arrive : sum),
    0,
  )
