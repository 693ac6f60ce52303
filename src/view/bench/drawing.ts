/** Where the parts of the bench stand, px, in one of two ways: side by side, or one under the other where there is no room. */
export interface Layout {
  across: boolean
  width: number
  height: number
  carried: Box
  converter: Box
  pack: Box
  /** The two leads, from end to end along their middle. */
  leads: [Lead, Lead]
}

export interface Box {
  x: number
  y: number
  width: number
  height: number
}

export interface Lead {
  x1: number
  y1: number
  x2: number
  y2: number
}

const roomAcross = 760
/** What one under the other takes with its words. */
export const leastRoom = 260
const above = 24 // for titles
const below = 76 // for three lines of values
const boxHeight = 96

/** @param width of the drawing, px */
export function layoutFor(width: number): Layout {
  const across = width >= roomAcross
  if (across) {
    const box = (x: number, width: number): Box => ({ x, y: above, width, height: boxHeight })
    const carried = box(1, 190)
    const converter = box(width / 2 - 75, 150)
    const pack = box(width - 121, 120)
    const y = above + boxHeight / 2
    const lead = (from: Box, to: Box): Lead => ({ x1: from.x + from.width, y1: y, x2: to.x, y2: y })
    const leads: [Lead, Lead] = [lead(carried, converter), lead(converter, pack)]
    return { across, width, height: above + boxHeight + below, carried, converter, pack, leads }
  }
  const column = Math.min(130, 0.36 * width)
  const leadLength = 72
  const box = (y: number, height: number): Box => ({ x: 1, y, width: column, height })
  const carried = box(1, boxHeight)
  const converter = box(1 + boxHeight + leadLength, 76)
  const pack = box(converter.y + converter.height + leadLength, boxHeight)
  const x = 1 + column / 2
  const lead = (from: Box, to: Box): Lead => ({ x1: x, y1: from.y + from.height, x2: x, y2: to.y })
  const leads: [Lead, Lead] = [lead(carried, converter), lead(converter, pack)]
  return { across, width, height: pack.y + pack.height + 2, carried, converter, pack, leads }
}

/** More blocks than this are counted in words only. */
const mostDrawn = { series: 6, parallel: 4 }

/** Blocks of a carried pack within its box: strings one under the other, in each its blocks side by side. */
export function blocksWithin(box: Box, series: number, parallel: number): Box[] {
  const columns = Math.min(series, mostDrawn.series)
  const rows = Math.min(parallel, mostDrawn.parallel)
  const gap = 8
  const width = Math.min(46, (box.width - 20 - gap * (columns - 1)) / columns)
  const height = Math.min(56, (box.height - 16 - gap * (rows - 1)) / rows)
  const left = box.x + (box.width - columns * width - (columns - 1) * gap) / 2
  const top = box.y + (box.height - rows * height - (rows - 1) * gap) / 2
  return Array.from({ length: rows * columns }, (_, k) => ({
    x: left + (k % columns) * (width + gap),
    y: top + Math.floor(k / columns) * (height + gap),
    width,
    height,
  }))
}
