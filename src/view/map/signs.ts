import * as L from 'leaflet'
import { placeLabels, type Box, type Points, type Side } from './labels'

/** A mark on the map with its label. */
export interface Sign {
  marker: L.Marker
  label: HTMLElement
  /** What the mark covers, pixels from its place. */
  body: Box
  sides: readonly Side[]
  /** Its label is shown even where it overlaps others. */
  must: boolean
  /** Left out where another such mark is too near. */
  thinned: boolean
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
  must?: boolean
  thinned?: boolean
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
  const { body, sides = everySide, must = true, thinned = false, rank, fromZoom = 0 } = style
  return { marker, label, body, sides, must, thinned, rank, fromZoom, side: undefined }
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
/** Thinned marks nearer to each other than this, px, would hide the route: only the first is shown. */
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
  const inView = [...signs]
    .map((sign) => ({ sign, at: map.latLngToLayerPoint(sign.marker.getLatLng()) }))
    .sort((a, b) => a.sign.rank - b.sign.rank)
    .filter(({ sign, at }) => {
      if (sign.thinned) {
        const crowded = thinned.some((other) => other.distanceTo(at) < apart)
        sign.marker.getElement()?.classList.toggle('crowded', crowded)
        if (crowded) return false
        thinned.push(at)
      }
      const seen = at.x >= frame.left && at.x <= frame.right && at.y >= frame.top && at.y <= frame.bottom
      if (!seen || zoom < sign.fromZoom) show(sign, undefined)
      return seen && zoom >= sign.fromZoom
    })
  const items = inView.map(({ sign: { body, sides, must, label, side }, at }) => ({
    body: { left: at.x + body.left, right: at.x + body.right, top: at.y + body.top, bottom: at.y + body.bottom },
    width: (label.textContent?.length ?? 0) * letterWidth + ends,
    sides,
    must,
    now: side,
  }))
  placeLabels(items, frame, route, over).forEach((side, i) => show(inView[i]!.sign, side))
}

function show(sign: Sign, side: Side | undefined): void {
  sign.side = side
  const shown = `label ${side ?? 'right'}${side === undefined ? ' quiet' : ''}`
  if (sign.label.className !== shown) sign.label.className = shown
}
