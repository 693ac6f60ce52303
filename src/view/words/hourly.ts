import { bound } from './bound'
import { hourlyIn } from './en/hourly'

export type HourlyWords = ReturnType<typeof hourlyIn>

/** Words of the weather by the hour, which come with it. */
export const hourlyWordsIn = bound(hourlyIn)
