import type { ReferenceCheck } from './check'
import { dayClockChecks } from './day-clock'
import { dayRiderChecks } from './day-rider'
import { daySunChecks } from './day-sun'

/** The day: clock, sun, rider, kit. */
export const dayChecks: ReferenceCheck[] = [...dayClockChecks, ...daySunChecks, ...dayRiderChecks]
