import type { Outcome } from '../model/forecast/outcome'
import type { Shading } from './ramp'
import type { Theme } from './theme.svelte'

/** What shades the route in place of drain or charge, for as long as what it belongs to is on screen. */
export interface Overlay {
  label: string
  unit: string
  shading: (outcome: Outcome, theme: Theme) => Shading
  /** Of the classes, least first. */
  spans: readonly string[]
}

class Over {
  current = $state.raw<Overlay | undefined>()
}
export const over = new Over()
