import { bound } from './bound'
import { batteryIn } from './en/battery'

export type BatteryWords = ReturnType<typeof batteryIn>

/** Words of packs and chargers, which come with what is typed of them. */
export const batteryWordsIn = bound(batteryIn)
