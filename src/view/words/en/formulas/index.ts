import { chargingFormulas } from './charging'
import { choosingFormulas } from './choosing'
import { dayFormulas } from './day'
import { rideFormulas } from './ride'
import { storyFormulas } from './story'

/** Every formula and source of a figure of the page, by the part of the page where it stands first. From here the panel and the documentation take them. */
export const formulas = {
  story: storyFormulas,
  ride: rideFormulas,
  day: dayFormulas,
  charging: chargingFormulas,
  choosing: choosingFormulas,
} as const

type Parts = typeof formulas
export type FigureName = { [Part in keyof Parts]: keyof Parts[Part] }[keyof Parts]
