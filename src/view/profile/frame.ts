import type { Route } from '../../model/route/route'

/** Room for the axes and the labels above the ribbon, px. */
const inset = { left: 54, right: 50, top: 22, bottom: 26 }

/** Of the height of the ribbon: the strip below its lowest place, so that this too has a colour, and what is kept free above its highest. */
const below = 0.13
const above = 0.22
const leastSpan = 120 // m

/** Where the profile lies on its canvas, px, and what its axes span. */
export interface Frame {
  width: number
  height: number
  left: number
  right: number
  top: number
  bottom: number
  /** Ridden length, m. */
  length: number
  /** Elevation at the bottom and at the top, m. */
  low: number
  high: number
  /** Lowest elevation of the route, m. */
  lowest: number
}

/**
 * @param width px of the canvas
 * @param height px of the canvas
 */
export function frameOf(route: Route, width: number, height: number): Frame {
  const { lowest, highest } = extremes(route.stations.elevation)
  const span = Math.max(highest - lowest, leastSpan)
  return {
    width,
    height,
    left: inset.left,
    right: Math.max(width - inset.right, inset.left + 1),
    top: inset.top,
    bottom: Math.max(height - inset.bottom, inset.top + 1),
    length: route.length,
    low: lowest - below * span,
    high: lowest + (1 + above) * span,
    lowest,
  }
}

function extremes(column: Float64Array): { lowest: number; highest: number } {
  let lowest = Infinity
  let highest = -Infinity
  for (const value of column) {
    if (value < lowest) lowest = value
    if (value > highest) highest = value
  }
  return { lowest, highest }
}

const held = (value: number, from: number, to: number) => Math.min(Math.max(value, from), to)

/** @param distance ridden, m; held to the ends of the route */
export const xOf = ({ left, right, length }: Frame, distance: number): number =>
  length > 0 ? left + ((right - left) * held(distance, 0, length)) / length : left

/** Ridden distance at a pixel, m; held to the ends of the route. */
export const distanceAt = ({ left, right, length }: Frame, x: number): number =>
  held(((x - left) / (right - left)) * length, 0, length)

export const metresPerPixel = ({ left, right, length }: Frame): number => length / (right - left)

/** @param elevation m */
export const elevationY = ({ top, bottom, low, high }: Frame, elevation: number): number =>
  bottom - ((bottom - top) * (elevation - low)) / (high - low)

/** @param share charge, 0 to 1 */
export const chargeY = ({ top, bottom }: Frame, share: number): number => bottom - (bottom - top) * share
