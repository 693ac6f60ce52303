import * as L from 'leaflet'
import { positionAt } from '../../model/route/place'
import type { Route } from '../../model/route/route'
import { draggedTo } from './drag'

const searchRadius = 40 // px
/** A release after a drag may count as a click on the map below; for this long, ms, it does not. */
const clickAfterDrag = 60

/** Of markers that are led. The map comes along only at its very edge, so that on a low map nothing moves under the hand. */
export const ledOptions: L.MarkerOptions = { interactive: true, draggable: true, autoPan: true, autoPanPadding: [8, 8] }

/** Brings a place into the map's view; the map stays where the place is as far from its edge as a fitted route leaves it. */
export function panTo(map: L.Map, place: L.LatLngExpression): void {
  const { x, y } = map.getSize()
  map.panInside(place, { padding: [Math.min(60, 0.05 * x), Math.min(60, 0.09 * y)] })
}

/** What a marker that is led along the route moves. */
export interface Led {
  route(): Route | undefined
  /** Ridden distance where it lies, m; undefined once it is gone. */
  at(): number | undefined
  begin(): void
  lead(distance: number): void
  keep(): void
  cancel(): void
}

/** Drags of markers that stay on the route: one at a time, ended by Escape as it never was. */
export class Leading {
  #underway = false

  constructor(private readonly map: L.Map) {}

  /** Whether a marker is being dragged, or was just let go. */
  get underway(): boolean {
    return this.#underway
  }

  /** Lets a draggable marker be led. */
  add(marker: L.Marker, led: Led): void {
    const cancel = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return
      event.preventDefault()
      // Leaflet has no cancel: a marker that can't be dragged is let go.
      marker.dragging!.disable()
      marker.dragging!.enable()
      end()
      led.cancel()
    }
    const end = () => {
      document.removeEventListener('keydown', cancel, true)
      const release = () => setTimeout(() => (this.#underway = false), clickAfterDrag)
      if (pressed) addEventListener('pointerup', release, { once: true })
      else release()
    }
    let pressed = false
    let last = L.latLng(0, 0)
    marker.on('dragstart', () => {
      this.#underway = true
      led.begin()
      pressed = true
      addEventListener('pointerup', () => (pressed = false), { once: true, capture: true })
      last = marker.getLatLng()
      document.addEventListener('keydown', cancel, true)
    })
    marker.on('drag', () => {
      const pointer = marker.getLatLng()
      this.#follow(led, pointer, last)
      last = pointer
      const [route, at] = [led.route(), led.at()]
      if (route === undefined || at === undefined) return
      const { latitude, longitude } = positionAt(route, at)
      marker.setLatLng([latitude, longitude])
    })
    marker.on('dragend', () => {
      end()
      led.keep()
    })
  }

  #follow(led: Led, pointer: L.LatLng, last: L.LatLng): void {
    const [route, from] = [led.route(), led.at()]
    if (route === undefined || from === undefined) return
    const at = this.map.latLngToLayerPoint(pointer)
    const metresPerPixel = this.map.distance(pointer, this.map.layerPointToLatLng(at.add([100, 0]))) / 100
    const reach = searchRadius * metresPerPixel + this.map.distance(pointer, last)
    led.lead(draggedTo(route, from, pointer.lat, pointer.lng, reach, metresPerPixel))
  }
}
