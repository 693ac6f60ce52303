import type { Leg } from '../../model/readings/legs'
import { isBefore, isInto, type Sector } from '../../model/readings/wind'
import { measure, type Units } from '../format'

/** A sector of the rose as drawn: an SVG path, and whether the wind there is against, behind or aside. */
export interface Petal {
  path: string
  wind: 'against' | 'behind' | 'aside'
}

/** Petals as long as the way in their direction, the longest of radius 1; y down, north up. */
export function petals(rose: readonly Sector[]): Petal[] {
  const longest = Math.max(...rose.map(({ length }) => length))
  if (longest <= 0) return []
  const half = Math.PI / rose.length
  const point = (angle: number, radius: number) =>
    `${(radius * Math.sin(angle)).toFixed(4)} ${(-radius * Math.cos(angle)).toFixed(4)}`
  return rose
    .filter(({ length }) => length > 0)
    .map(({ degrees, length, wind }) => {
      const angle = (degrees * Math.PI) / 180
      const radius = Math.sqrt(length / longest)
      const arc = `A ${radius.toFixed(4)} ${radius.toFixed(4)} 0 0 1`
      return {
        path: `M 0 0 L ${point(angle - half, radius)} ${arc} ${point(angle + half, radius)} Z`,
        wind: isInto(wind) ? 'against' : isBefore(wind) ? 'behind' : 'aside',
      }
    })
}

type LegWind = Pick<Leg, 'number' | 'wind'>

/** Which legs are into the wind, and which have it behind, as sentences. */
export function windSentences(legs: readonly LegWind[], units: Units): string[] {
  const into = legs.filter(({ wind }) => isInto(wind))
  const behind = legs.filter(({ wind }) => isBefore(wind))
  const speed = (value: number) => measure(value, 'windSpeed', units)
  const said: string[] = []
  if (into.length > 0) {
    const worst = into.reduce((a, b) => (b.wind.against > a.wind.against ? b : a))
    said.push(
      into.length === 1
        ? `Leg ${worst.number} is into the wind, ${speed(worst.wind.against)} against you at 10 m height.`
        : `Into the wind: legs ${numbers(into)}; the hardest is leg ${worst.number}, ${speed(worst.wind.against)} against you at 10 m height.`,
    )
  } else said.push('No leg is into the wind for more than half of its length.')
  if (behind.length > 0) said.push(`Wind behind: ${behind.length === 1 ? 'leg' : 'legs'} ${numbers(behind)}.`)
  return said
}

/** `2, 5 to 8 and 11`: runs of three and more are joined. */
function numbers(legs: readonly LegWind[]): string {
  const runs: { from: number; to: number }[] = []
  for (const { number } of legs) {
    const run = runs.at(-1)
    if (run !== undefined && number === run.to + 1) run.to = number
    else runs.push({ from: number, to: number })
  }
  const parts = runs.flatMap(({ from, to }) =>
    to - from >= 2 ? [`${from} to ${to}`] : to > from ? [`${from}`, `${to}`] : [`${from}`],
  )
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)!}`
}
