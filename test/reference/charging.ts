import { cableChecks } from './charging-cable'
import { sourceChecks } from './charging-source'
import { transferChecks } from './charging-time'
import type { ReferenceCheck } from './check'

/** Charging on the way: carried pack, converter, leads, and both packs in time. */
export const chargingChecks: ReferenceCheck[] = [...sourceChecks, ...cableChecks, ...transferChecks]
