import { placesBeyond } from '../model/plan/beyond'
import { readPlan } from '../model/plan/check'
import type { Plan } from '../model/plan/schema'
import { writePlan } from '../model/plan/write'
import type { Desk } from './desk'

/** A plan file with places beyond the route on screen, and where the farthest lies, m. */
export interface AskedPlan {
  fileName: string
  plan: Plan
  count: number
  farthest: number
}

/** The plan as a file, out and in. */
export class PlanFile {
  /** A plan of another route, of which places lie beyond this one, until the rider has said whether to open it. */
  asked = $state.raw<AskedPlan | undefined>()

  constructor(private readonly desk: Desk) {}

  /** Its text. */
  text(): string {
    const { plan } = this.desk
    return plan === undefined ? '' : writePlan(plan)
  }

  /** Takes over a plan file, or asks first where it was made for another route; the old plan stays where it is refused, which gives false. */
  open(text: string, fileName: string): boolean {
    const { desk } = this
    desk.messages.end('file')
    const reading = readPlan(text)
    if (!reading.ok) {
      const said = { code: 'planUnread', fault: reading.fault, file: fileName } as const
      desk.messages.say({ subject: 'file', kind: 'fault', said })
      return false
    }
    const { plan } = reading
    const beyond = placesBeyond(plan, desk.route?.length ?? 0)
    this.asked = beyond && { fileName, plan, ...beyond }
    if (beyond === undefined) desk.edit(() => plan)
    return true
  }

  /** Opens the plan that was asked about, or leaves it. */
  answer(isWanted: boolean): void {
    const { desk } = this
    const { plan } = this.asked ?? {}
    this.asked = undefined
    if (!isWanted || plan === undefined) return
    desk.edit(() => plan)
    const length = desk.route?.length ?? 0
    const stops = plan.stops.filter(({ distance }) => distance > length).length
    if (stops > 0) desk.messages.say({ subject: 'step', kind: 'news', said: { code: 'stopsBeyond', stops } })
  }
}
