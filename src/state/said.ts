import type { PlanFault } from '../model/plan/check'
import type { PlanStretch } from '../model/plan/schema'
import type { FileFault } from '../work/jobs'
import type { DayFault } from './day'

/** What the desk has to say: a code with its values, for the view to word. */
export type Said =
  | { code: 'planRefused'; fault: PlanFault }
  | { code: 'planUnread'; fault: PlanFault; file: string }
  /** Of a day of the list, which stays as it is. */
  | { code: 'dayUnread'; name: string; fault: DayFault }
  | { code: 'dayRouteUnread'; name: string; fault: FileFault }
  /** The window that has the day does not answer. */
  | { code: 'notHandedOver' }
  | { code: 'routeUnread'; fault: FileFault; file: string }
  /** Settings of the view, which are as at first. */
  | { code: 'viewSpoilt' }
  | { code: 'stopsBeyond'; stops: number }
  | { code: 'stretchRemoved'; stretch: PlanStretch }
