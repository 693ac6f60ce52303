import { cellChecks } from './battery-cell'
import { chargeChecks } from './battery-charge'
import { packChecks } from './battery-pack'
import type { ReferenceCheck } from './check'

export const batteryChecks: ReferenceCheck[] = [...cellChecks, ...packChecks, ...chargeChecks]
