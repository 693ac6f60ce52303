export interface Box {
  left: number
  top: number
  right: number
  bottom: number
}

export type Side = 'right' | 'left' | 'above' | 'below'

export type On = 'nothing' | 'route' | 'others'

/** A mark on the map whose label wants a place beside it, in pixels. */
export interface Labelled {
  /** What the mark itself covers. */
  body: Box
  /** Width of the label. */
  width: number
  /** Sides that will do, the best first. */
  sides: readonly Side[]
  /** What it may lie on, where there is no better place: nothing at all, the route, or others too. */
  on: On
  /** The side it is on, so that it does not swap sides for little. */
  now: Side | undefined
}

const height = 22
const gap = 2

/** Points of the route in pixels, to be left in sight. */
export interface Points {
  x: ArrayLike<number>
  y: ArrayLike<number>
}

/** Enough to know whether a label lies on the line. */
const everyPoint = 4
/** Points of the line that a label may cover before a less liked side is taken, and before it is left out if it is to lie on nothing. */
const perSide = 1
const stay = 3
const mostCovered = 3
/** What a label costs for each mark or label that it lies on, in points of the line. */
const perHidden = 20

/**
 * Puts labels beside their marks so that none covers another or a mark, none leaves the frame, and as little of the route as may be is covered.
 *
 * @param items the most important first
 * @param over what no label is to lie under
 * @returns the side of each; undefined for a label that finds no room and may be left out
 */
export function placeLabels(
  items: readonly Labelled[],
  frame: Box,
  route: Points,
  over: readonly Box[] = [],
): (Side | undefined)[] {
  const taken = [...items.map(({ body }) => body), ...over]
  return items.map((item, own) => {
    const places = item.sides.map((side, i) => {
      const box = beside(item, side)
      const covered = pointsIn(box, route)
      const hidden = taken.filter((other, i) => i !== own && overlap(other, box)).length
      return {
        side,
        box,
        covered,
        hidden,
        cost: covered + perHidden * hidden + perSide * i - (side === item.now ? stay : 0),
      }
    })
    const inside = places.filter(({ box }) => holds(frame, box))
    const best = cheapest(inside.filter(({ hidden }) => hidden === 0))
    const chosen = item.on === 'others' ? (best ?? cheapest(inside) ?? places[0]) : best
    if (chosen === undefined || (item.on === 'nothing' && chosen.covered > mostCovered)) return undefined
    taken.push(chosen.box)
    return chosen.side
  })
}

const cheapest = <T extends { cost: number }>(places: readonly T[]): T | undefined =>
  places.reduce<T | undefined>(
    (best, place) => (best === undefined || place.cost < best.cost ? place : best),
    undefined,
  )

function pointsIn({ left, right, top, bottom }: Box, { x, y }: Points): number {
  let count = 0
  for (let i = 0; i < x.length; i += everyPoint)
    if (x[i]! > left && x[i]! < right && y[i]! > top && y[i]! < bottom) count++
  return count
}

function beside({ body, width }: Labelled, side: Side): Box {
  const middleX = (body.left + body.right) / 2
  const middleY = (body.top + body.bottom) / 2
  const left = side === 'right' ? body.right + gap : side === 'left' ? body.left - gap - width : middleX - width / 2
  const top = side === 'above' ? body.top - gap - height : side === 'below' ? body.bottom + gap : middleY - height / 2
  return { left, top, right: left + width, bottom: top + height }
}

export const overlap = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
const holds = (outer: Box, inner: Box) =>
  inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top && inner.bottom <= outer.bottom
