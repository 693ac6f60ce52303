import type { PlanSource } from './schema'

/** From the number of a thing among its like, from 1, to its name. */
export type Numbered = (number: number) => string

/** What things of a plan are called until the rider names them: words of the view, in the plan from then on. */
export interface Names {
  pack: Numbered
  source: Record<PlanSource['kind'], Numbered>
  /** The charger of the plan to begin with. @param current A */
  firstCharger: (current: number) => string
  stop: Numbered
  control: Numbered
  /** Of a table of weather by the hour: that at the start, a further one, one known by its ridden distance in m. */
  weatherStart: string
  weatherPlace: Numbered
  weatherAt: (distance: number) => string
  thing: string
}
