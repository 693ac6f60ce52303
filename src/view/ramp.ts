import type { Outcome } from '../model/forecast/outcome'
import { drainAlong } from '../model/readings/drain'
import { coasting } from '../model/ride/motion'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { inDrain, type Units } from './format'
import type { Theme } from './theme.svelte'

/** Lower bounds of the classes, round in the rider's units: Wh/km or Wh/mi, and percent of all usable charge. */
const drainBounds: Record<Units, readonly number[]> = {
  metric: [0, 2, 4, 6, 9, 13, 20],
  imperial: [0, 3, 6, 10, 15, 20, 30],
}
const chargeBounds = [0, 10, 25, 40, 55, 70, 85]

/**
 * Even steps in OKLCH lightness, the hue turning evenly, as far as sRGB reaches: readable by lightness alone. What is worst stands out most from page and
 * map, most drain and least charge: on paper the darkest, on a dark page the lightest. Drain is straw to plum, charge ice to deep blue: the two share no hue.
 */
const colours: Record<Shade, Record<Theme, readonly string[]>> = {
  drain: {
    light: ['#f4d576', '#e9ae57', '#da8844', '#c5633e', '#ab413f', '#8c1f42', '#680042'],
    dark: ['#841c58', '#a63656', '#c55451', '#e0744b', '#f4984b', '#ffbf5f', '#ffe79c'],
  },
  charge: {
    light: ['#213480', '#265496', '#3473a9', '#4a92bb', '#68b0cd', '#8acdde', '#b0eaf1'],
    dark: ['#bcf8fe', '#96dced', '#74bfdd', '#56a2ce', '#3f83be', '#3264ac', '#2d4498'],
  },
}

export type Shade = 'drain' | 'charge'

export interface ShadeClass {
  /** In the unit of the legend: Wh/km, Wh/mi or percent. */
  from: number
  to: number | undefined
  colour: string
}

export interface Shading {
  classes: readonly ShadeClass[]
  /** Class index of each step from a station to the next; `restClass` where the motor rests. */
  byStation: Uint8Array
}

/** Steps on which neither rider nor motor works, or the motor is off: drawn hollow, apart from the ramp. */
export const restClass = 255

const classes: Partial<Record<string, readonly ShadeClass[]>> = {}

/** The classes of a shade, the same each time it is asked. */
export function classesOf(by: Shade, units: Units, theme: Theme): readonly ShadeClass[] {
  const bounds = by === 'drain' ? drainBounds[units] : chargeBounds
  return (classes[by + units + theme] ??= bounds.map((from, i) => ({
    from,
    to: bounds[i + 1],
    colour: colours[by][theme][i]!,
  })))
}

const evenedOver = 150 // m

/** Below it, in J/m, a motor that gives nothing is at rest: 1 Wh/km. */
const atRest = joulesPerWattHour / metresPerKilometre

/** Index of the class that a value falls in. */
export function classOf(classes: readonly ShadeClass[], value: number): number {
  let i = classes.length - 1
  while (i > 0 && value < classes[i]!.from) i--
  return i
}

const made = new WeakMap<Outcome, Map<readonly ShadeClass[], Shading>>()

/** The shading of map, profile and table alike; worked out once for each outcome. */
export function shadingOf(outcome: Outcome, by: Shade, units: Units, theme: Theme): Shading {
  const classes = classesOf(by, units, theme)
  const known = made.get(outcome) ?? new Map<readonly ShadeClass[], Shading>()
  made.set(outcome, known)
  const shading = known.get(classes) ?? shade(outcome, by, units, classes)
  known.set(classes, shading)
  return shading
}

function shade(outcome: Outcome, by: Shade, units: Units, classes: readonly ShadeClass[]): Shading {
  const { left, state, motorWork } = outcome.columns
  const byStation = new Uint8Array(left.length)
  if (by === 'charge') {
    const percent = 100 / outcome.usable
    for (let i = 0; i < left.length; i++) byStation[i] = classOf(classes, left[i]! * percent)
    return { classes, byStation }
  }
  const drain = drainAlong(outcome, evenedOver)
  for (let i = 0; i < left.length; i++)
    byStation[i] =
      (state[i]! & coasting) !== 0 || (motorWork[i + 1] === motorWork[i] && drain[i]! < atRest)
        ? restClass
        : classOf(classes, inDrain(drain[i]!, units))
  return { classes, byStation }
}
