import type { Heading } from '../docs/places'

/** Figures of a forecast that say why by their name alone. */
export type Figure =
  | 'finish'
  | 'elapsed'
  | 'day'
  | 'riding'
  | 'smallHalts'
  | 'standing'
  | 'stopped'
  | 'crossing'
  | 'packs'
  | 'goal'
  | 'ridingGoal'
  | 'charge'
  | 'least'
  | 'margin'
  | 'work'
  | 'mass'

/** Why a figure is what it is. */
export interface Reason {
  title: string
  formula: string
  /** What is put in, by name. */
  values: [name: string, value: string][]
  result: string
  source: string
  heading: Heading
}

/** The figure that was pressed; undefined while none is asked of. */
class Why {
  asked = $state.raw<{ at: HTMLElement; of: Figure | Reason } | undefined>()
}
export const why = new Why()
