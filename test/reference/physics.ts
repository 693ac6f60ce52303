import { atmosphereChecks, gravityChecks } from './atmosphere'
import type { ReferenceCheck } from './check'
import { closedFormChecks } from './closed-forms'
import { motorChecks } from './motor'
import { limitChecks } from './limits'
import { odeChecks } from './ode'
import { practiceChecks } from './practice'
import { roadChecks } from './road'
import { windChecks } from './wind'

export const physicsTopics: Record<string, ReferenceCheck[]> = {
  'Air density': atmosphereChecks,
  Gravity: gravityChecks,
  Wind: windChecks,
  'Road model': roadChecks,
  'Motor losses': motorChecks,
  'Setting off, bends, braking': limitChecks,
  'Closed forms': closedFormChecks,
  'General-purpose ODE solver': odeChecks,
  'Practice and energy use': practiceChecks,
}
