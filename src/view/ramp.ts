import { clampChroma, formatHex, modeOklch, modeRgb, useMode } from 'culori/fn'
import type { Outcome } from '../model/forecast/outcome'
import { drainAlong } from '../model/readings/drain'
import { coasting } from '../model/ride/motion'
import { joulesPerWattHour } from '../model/units'

useMode(modeRgb)
useMode(modeOklch)

/** Colours of even steps in OKLCH lightness from light to dark, the hue turning evenly: readable by lightness alone. */
function ramp(
  steps: number,
  from: { l: number; c: number; h: number },
  to: { l: number; c: number; h: number },
): string[] {
  return Array.from({ length: steps }, (_, i) => {
    const t = i / (steps - 1)
    const mix = (a: number, b: number) => a + (b - a) * t
    return formatHex(
      clampChroma({ mode: 'oklch', l: mix(from.l, to.l), c: mix(from.c, to.c), h: mix(from.h, to.h) }, 'oklch'),
    )
  })
}

/** Lower bounds of the classes: Wh/km, and percent of all usable charge. */
const drainBounds = [0, 2, 4, 6, 9, 13, 20]
const chargeBounds = [0, 10, 25, 40, 55, 70, 85]

/** Drain turns from straw to plum, charge from deep blue to ice as it goes: the two share no hue. */
const drainColours = ramp(drainBounds.length, { l: 0.88, c: 0.12, h: 92 }, { l: 0.34, c: 0.15, h: -10 })
const chargeColours = ramp(chargeBounds.length, { l: 0.9, c: 0.06, h: 205 }, { l: 0.36, c: 0.13, h: 268 })

export interface ShadeClass {
  /** In the unit of the legend: Wh/km or percent. */
  from: number
  to: number | undefined
  colour: string
}

export interface Shading {
  unit: 'Wh/km' | '%'
  classes: ShadeClass[]
  /** Class index of each step from a station to the next; `restClass` where the motor rests. */
  byStation: Uint8Array
}

/** Steps on which neither rider nor motor works, or the motor is off: drawn hollow, apart from the ramp. */
export const restClass = 255

const classesOf = (bounds: number[], colours: string[]): ShadeClass[] =>
  bounds.map((from, i) => ({ from, to: bounds[i + 1], colour: colours[i]! }))

export const drainClasses = classesOf(drainBounds, drainColours)
export const chargeClasses = classesOf(chargeBounds, chargeColours)

const evenedOver = 150 // m

const perKilometre = 1000 / joulesPerWattHour

/** Index of the class that a value falls in. */
export function classOf(classes: readonly ShadeClass[], value: number): number {
  let i = classes.length - 1
  while (i > 0 && value < classes[i]!.from) i--
  return i
}

const made = new WeakMap<Outcome, Partial<Record<'drain' | 'charge', Shading>>>()

/** The shading of map, profile and table alike; worked out once for each outcome. */
export function shadingOf(outcome: Outcome, by: 'drain' | 'charge'): Shading {
  const known = made.get(outcome) ?? {}
  made.set(outcome, known)
  return (known[by] ??= shade(outcome, by))
}

function shade(outcome: Outcome, by: 'drain' | 'charge'): Shading {
  const { left, state, motorWork } = outcome.columns
  const byStation = new Uint8Array(left.length)
  if (by === 'charge') {
    const percent = 100 / outcome.usable
    for (let i = 0; i < left.length; i++) byStation[i] = classOf(chargeClasses, left[i]! * percent)
    return { unit: '%', classes: chargeClasses, byStation }
  }
  const drain = drainAlong(outcome, evenedOver)
  for (let i = 0; i < left.length; i++)
    byStation[i] =
      (state[i]! & coasting) !== 0 || (motorWork[i + 1] === motorWork[i] && drain[i]! * perKilometre < 1)
        ? restClass
        : classOf(drainClasses, drain[i]! * perKilometre)
  return { unit: 'Wh/km', classes: drainClasses, byStation }
}
