import * as L from 'leaflet'
import { overlap, placeLabels, type Box, type On, type Points, type Side } from './labels'

/** A mark on the map with its label. */
export interface Sign {
  marker: L.Marker
  label: HTMLElement
  /** What the mark covers, pixels from its place. */
  body: Box
  /** What of it takes a press, pixels from its place. */
  target: Box
  sides: readonly Side[]
  on: On
  /** Left out where another such mark is too near. */
  thinned: boolean
  /** And where another that takes a press is. */
  yields: boolean
  /** Of two labels in each other's way the lower rank stays. */
  rank: number
  /** Zoom from which the label is shown by itself. */
  fromZoom: number
  side: Side | undefined
}

export interface SignStyle {
  kind: string
  size: [number, number]
  anchor: [number, number]
  body: Box
  sides?: readonly Side[]
  on?: On
  thinned?: boolean
  yields?: boolean
  rank: number
  fromZoom?: number
}

export const around = (radius: number): Box => ({ left: -radius, top: -radius, right: radius, bottom: radius })
const everySide: readonly Side[] = ['right', 'left', 'above', 'below']

/** Makes a mark; its label is text and never markup. */
export function makeSign(style: SignStyle, place: L.LatLngExpression, options: L.MarkerOptions = {}): Sign {
  const html = L.DomUtil.create('div', 'mark')
  L.DomUtil.create('span', 'shape', html)
  const label = L.DomUtil.create('span', 'label', html)
  const icon = L.divIcon({ className: `sign ${style.kind}`, html, iconSize: style.size, iconAnchor: style.anchor })
  const marker = L.marker(place, { icon, keyboard: false, autoPanOnFocus: false, interactive: false, ...options })
  const { body, sides = everySide, on = 'route', thinned = false, yields = false, rank, fromZoom = 0 } = style
  const [width, height] = style.size
  const [x, y] = style.anchor
  const target: Box = { left: -x, top: -y, right: width - x, bottom: height - y }
  return { marker, label, body, target, sides, on, thinned, yields, rank, fromZoom, side: undefined }
}

/** Writes a label. */
export function setText(sign: Sign, text: string): void {
  if (sign.label.textContent !== text) sign.label.textContent = text
}

/** Moves a sign, if it is not there. */
export function moveTo({ marker }: Sign, [latitude, longitude]: L.LatLngTuple): void {
  const { lat, lng } = marker.getLatLng()
  if (lat !== latitude || lng !== longitude) marker.setLatLng([latitude, longitude])
}

/** Writes attributes, only those that differ: while a stop is dragged this runs each frame. */
export function setAttributes(element: HTMLElement, values: Readonly<Record<string, string>>): void {
  for (const [name, value] of Object.entries(values))
    if (element.getAttribute(name) !== value) element.setAttribute(name, value)
}

const letterWidth = 7.2 // px, the mean of the label's type
const ends = 14
const widest = 256 // px, as the map's style has it
/**
 * Thinned marks nearer to each other than this, px, would hide the route: only the first is shown. And what can be pressed has as much to itself
 * (WCAG 2.2, 2.5.8).
 */
const apart = 24

/**
 * Puts all labels where they don't cover each other.
 *
 * @param over what stands over the map
 */
export function arrangeSigns(map: L.Map, signs: Iterable<Sign>, route: Points, over: readonly Box[]): void {
  const zoom = map.getZoom()
  const corner = map.containerPointToLayerPoint([0, 0])
  const size = map.getSize()
  const frame: Box = { left: corner.x, top: corner.y, right: corner.x + size.x, bottom: corner.y + size.y }
  const thinned: L.Point[] = []
  const targets: Box[] = []
  const inView = [...signs]
    .map((sign) => ({ sign, at: map.latLngToLayerPoint(sign.marker.getLatLng()) }))
    .sort((a, b) => a.sign.rank - b.sign.rank)
    .filter(({ sign, at }) => {
      if (sign.thinned) {
        const own = boxAt(at, around(apart / 2))
        const crowded =
          thinned.some((other) => other.distanceTo(at) < apart) ||
          (sign.yields && targets.some((other) => overlap(other, own)))
        sign.marker.getElement()?.classList.toggle('crowded', crowded)
        if (crowded) return false
        thinned.push(at)
      } else if (sign.marker.options.interactive) targets.push(boxAt(at, sign.target))
      const seen = at.x >= frame.left && at.x <= frame.right && at.y >= frame.top && at.y <= frame.bottom
      if (!seen || zoom < sign.fromZoom) show(sign, undefined)
      return seen && zoom >= sign.fromZoom
    })
  const items = inView.map(({ sign: { body, sides, on, label, side }, at }) => ({
    body: boxAt(at, body),
    width: Math.min((label.textContent?.length ?? 0) * letterWidth + ends, widest),
    sides,
    on,
    now: side,
  }))
  placeLabels(items, frame, route, over).forEach((side, i) => show(inView[i]!.sign, side))
}

const boxAt = ({ x, y }: L.Point, { left, top, right, bottom }: Box): Box => ({
  left: x + left,
  top: y + top,
  right: x + right,
  bottom: y + bottom,
})

function show(sign: Sign, side: Side | undefined): void {
  sign.side = side
  const shown = `label ${side ?? 'right'}${side === undefined ? ' quiet' : ''}`
  if (sign.label.className !== shown) sign.label.className = shown
}
