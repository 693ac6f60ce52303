import type { Outcome } from '../model/forecast/outcome'
import { drainAlong } from '../model/readings/drain'
import { coasting } from '../model/ride/motion'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { inDrain, type Units } from './format'

/** Lower bounds of the classes, round in the rider's units: Wh/km or Wh/mi, and percent of all usable charge. */
const drainBounds: Record<Units, readonly number[]> = {
  metric: [0, 2, 4, 6, 9, 13, 20],
  imperial: [0, 3, 6, 10, 15, 20, 30],
}
const chargeBounds = [0, 10, 25, 40, 55, 70, 85]

/**
 * Even steps in OKLCH lightness from light to dark, the hue turning evenly, as far as sRGB reaches: readable by lightness alone. Drain turns
 * from straw to plum, charge from deep blue to ice as it goes: the two share no hue.
 */
const drainColours = ['#f4d576', '#e9ae57', '#da8844', '#c5633e', '#ab413f', '#8c1f42', '#680042']
const chargeColours = ['#b0eaf1', '#8acdde', '#68b0cd', '#4a92bb', '#3473a9', '#265496', '#213480']

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

const classesOf = (bounds: readonly number[], colours: string[]): ShadeClass[] =>
  bounds.map((from, i) => ({ from, to: bounds[i + 1], colour: colours[i]! }))

export const drainClasses: Record<Units, readonly ShadeClass[]> = {
  metric: classesOf(drainBounds.metric, drainColours),
  imperial: classesOf(drainBounds.imperial, drainColours),
}
export const chargeClasses: readonly ShadeClass[] = classesOf(chargeBounds, chargeColours)

const evenedOver = 150 // m

/** Below it, in J/m, a motor that gives nothing is at rest: 1 Wh/km. */
const atRest = joulesPerWattHour / metresPerKilometre

/** Index of the class that a value falls in. */
export function classOf(classes: readonly ShadeClass[], value: number): number {
  let i = classes.length - 1
  while (i > 0 && value < classes[i]!.from) i--
  return i
}

type Shade = 'drain' | 'charge'

const made = new WeakMap<Outcome, Partial<Record<`${Shade} ${Units}`, Shading>>>()

/** The shading of map, profile and table alike; worked out once for each outcome. */
export function shadingOf(outcome: Outcome, by: Shade, units: Units): Shading {
  const known = made.get(outcome) ?? {}
  made.set(outcome, known)
  return (known[`${by} ${units}`] ??= shade(outcome, by, units))
}

function shade(outcome: Outcome, by: Shade, units: Units): Shading {
  const { left, state, motorWork } = outcome.columns
  const byStation = new Uint8Array(left.length)
  if (by === 'charge') {
    const percent = 100 / outcome.usable
    for (let i = 0; i < left.length; i++) byStation[i] = classOf(chargeClasses, left[i]! * percent)
    return { classes: chargeClasses, byStation }
  }
  const classes = drainClasses[units]
  const drain = drainAlong(outcome, evenedOver)
  for (let i = 0; i < left.length; i++)
    byStation[i] =
      (state[i]! & coasting) !== 0 || (motorWork[i + 1] === motorWork[i] && drain[i]! < atRest)
        ? restClass
        : classOf(classes, inDrain(drain[i]!, units))
  return { classes, byStation }
}
