export interface Box {
  left: number
  top: number
  right: number
  bottom: number
}

export type Side = 'right' | 'left' | 'above' | 'below'

/** A mark on the map whose label wants a place beside it, in pixels. */
export interface Labelled {
  /** What the mark itself covers. */
  body: Box
  /** Width of the label. */
  width: number
  /** Sides that will do, the best first. */
  sides: readonly Side[]
  /** Shown even where it overlaps others. */
  must: boolean
}

const height = 22
const gap = 2

/**
 * Puts labels beside their marks so that none covers another or a mark, and none leaves the frame.
 *
 * @param items the most important first
 * @returns the side of each; undefined for a label that finds no room and may be left out
 */
export function placeLabels(items: readonly Labelled[], frame: Box): (Side | undefined)[] {
  const taken = items.map(({ body }) => body)
  return items.map((item, own) => {
    const boxes = item.sides.map((side) => ({ side, box: beside(item, side) }))
    const inside = boxes.filter(({ box }) => holds(frame, box))
    const free = inside.find(({ box }) => taken.every((other, i) => i === own || !overlap(other, box)))
    const chosen = free ?? (item.must ? (inside[0] ?? boxes[0]) : undefined)
    if (chosen !== undefined) taken.push(chosen.box)
    return chosen?.side
  })
}

function beside({ body, width }: Labelled, side: Side): Box {
  const middleX = (body.left + body.right) / 2
  const middleY = (body.top + body.bottom) / 2
  const left = side === 'right' ? body.right + gap : side === 'left' ? body.left - gap - width : middleX - width / 2
  const top = side === 'above' ? body.top - gap - height : side === 'below' ? body.bottom + gap : middleY - height / 2
  return { left, top, right: left + width, bottom: top + height }
}

const overlap = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
const holds = (outer: Box, inner: Box) =>
  inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top && inner.bottom <= outer.bottom
