import type { Leg } from '../../model/readings/legs'
import { isBefore, isInto, type Sector } from '../../model/readings/wind'
import type { DayWords } from '../words/day'

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
export function windSentences(legs: readonly LegWind[], words: DayWords['wind']): string[] {
  const into = legs.filter(({ wind }) => isInto(wind))
  const behind = legs.filter(({ wind }) => isBefore(wind))
  const numbers = (some: readonly LegWind[]) => some.map(({ number }) => number)
  const hardest = into.reduce<LegWind | undefined>(
    (a, b) => (a !== undefined && a.wind.against >= b.wind.against ? a : b),
    undefined,
  )
  return [
    hardest === undefined ? words.noneInto : words.into(numbers(into), hardest.number, hardest.wind.against),
    ...(behind.length > 0 ? [words.behind(numbers(behind))] : []),
  ]
}
