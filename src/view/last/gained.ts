import type { Outcome } from '../../model/forecast/outcome'
import { gainedBy, type HaltGained } from '../../model/learn/gained'
import type { ClockByPlace } from '../../model/learn/that-day'
import { classOf, type ShadeClass, type Shading } from '../ramp'
import type { Theme } from '../theme.svelte'

/** Lower bounds of the classes, s/km: quicker than the ride was where negative. */
export const bounds = [-Infinity, -30, -12, -4, 4, 12, 30]
/** From blue for quicker to rust for slower, what is about the same between them: apart in lightness too. */
const colours: Record<Theme, readonly string[]> = {
  light: ['#123f78', '#3f7fb5', '#9dc3dd', '#dcd8ca', '#eeb27c', '#cf6a34', '#86260c'],
  dark: ['#a8d4ff', '#62a5dd', '#37698f', '#5c5b56', '#96592f', '#dd864a', '#ffc69a'],
}
/** Rates are over so much of the way to either side, m: the clock of a recorded ride stands at each kilometre. */
const about = 750
/** A halt is shaded over so much of the way to either side, m, that it is seen on a long day. */
const aboutHalts = 400

const classesOf = (theme: Theme): ShadeClass[] =>
  bounds.map((from, i) => ({ from, to: bounds[i + 1], colour: colours[theme][i]! }))

/** Shades each place by how much slower the plan is there than the ride was; about halts that differ with the class at the end. */
export function shadingBy(outcome: Outcome, clock: ClockByPlace, halts: readonly HaltGained[], theme: Theme): Shading {
  const classes = classesOf(theme)
  const gained = gainedBy(outcome, clock)
  const { distance } = outcome.route.stations
  const byStation = Uint8Array.from(distance, (at) => {
    const halt = halts.find((one) => Math.abs(one.distance - at) <= aboutHalts)
    if (halt !== undefined) return halt.now < halt.then ? 0 : classes.length - 1
    const from = Math.max(0, at - about)
    const to = Math.min(outcome.length, at + about)
    return classOf(classes, ((gained(to) - gained(from)) / (to - from)) * 1000)
  })
  return { classes, byStation }
}
