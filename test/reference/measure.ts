import { cellChecks } from './battery-cell'
import { chargeChecks } from './battery-charge'
import { packChecks } from './battery-pack'
import { cableChecks } from './charging-cable'
import { sourceChecks } from './charging-source'
import { transferChecks } from './charging-time'
import { measure, type Measured, type ReferenceCheck } from './check'
import { dayClockChecks } from './day-clock'
import { dayRiderChecks } from './day-rider'
import { daySunChecks } from './day-sun'
import { geodesicChecks } from './geodesic'
import { physicsTopics } from './physics'
import { smoothingChecks } from './smoothing'

/** Every check, by topic. */
export const topics: Record<string, ReferenceCheck[]> = {
  Distances: geodesicChecks,
  Smoothing: smoothingChecks,
  ...physicsTopics,
  Cells: cellChecks,
  Packs: packChecks,
  Charging: chargeChecks,
  'Charging from a carried pack': sourceChecks,
  'Charging cables': cableChecks,
  'Charging from a carried pack, in time': transferChecks,
  'Clock and zones': dayClockChecks,
  Sun: daySunChecks,
  'Work above critical power, food': dayRiderChecks,
}

export const measureAll = (): Measured[] =>
  Object.entries(topics).flatMap(([topic, checks]) => checks.map((check) => measure(topic, check)))
