import type { PlanFault } from '../model/plan/check'
import type { PlanStretch } from '../model/plan/schema'
import type { FileFault } from '../work/jobs'

/** What the desk has to say: a code with its values, for the view to word. */
export type Said =
  | { code: 'planRefused'; fault: PlanFault }
  | { code: 'planUnread'; fault: PlanFault; file: string }
  | { code: 'keptPlanRefused'; fault: PlanFault }
  | { code: 'keptRouteRefused'; fault: FileFault; file: string }
  | { code: 'keptDamaged' }
  | { code: 'routeUnread'; fault: FileFault; file: string }
  | { code: 'stopsBeyond'; stops: number }
  | { code: 'stretchRemoved'; stretch: PlanStretch }
  | { code: 'notKept' }
