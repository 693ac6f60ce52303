import * as L from 'leaflet'
import type { Workbench } from '../../state/workbench.svelte'
import { place, type Units } from '../format'
import { around, makeSign, setText, type Sign, type SignStyle } from './signs'
import type { Spot } from './spots'

const event: Omit<SignStyle, 'kind'> = { size: [24, 24], anchor: [12, 12], body: around(11), rank: 1 }
const quiet: Omit<SignStyle, 'kind'> = {
  size: [28, 28],
  anchor: [14, 14],
  body: around(4),
  rank: 3,
  must: false,
  fromZoom: 9.5,
}

/** Beyond this number waypoints are left out of the keyboard's round. */
const mostInRound = 30

/** Start, finish, events and waypoints on the map. */
export class Marks {
  readonly #marks = new Map<string, Sign>()

  constructor(
    private readonly map: L.Map,
    private readonly bench: Workbench,
  ) {}

  get signs(): Iterable<Sign> {
    return this.#marks.values()
  }

  /** Shows these places and no others. */
  show(spots: readonly Spot[], units: Units): void {
    const keys = new Set(spots.map(({ key }) => key))
    for (const [key, { marker }] of this.#marks)
      if (!keys.has(key)) {
        marker.remove()
        this.#marks.delete(key)
      }
    const inRound = spots.length <= mostInRound
    for (const spot of spots) {
      const mark = this.#marks.get(spot.key) ?? this.#make(spot)
      mark.marker.setLatLng([spot.latitude, spot.longitude])
      setText(mark, spot.label)
      this.#describe(mark.marker.getElement()!, spot, units, spot.kind !== 'waypoint' || inRound)
    }
  }

  #make(spot: Spot): Sign {
    const isWaypoint = spot.kind === 'waypoint'
    const place: L.LatLngTuple = [spot.latitude, spot.longitude]
    const mark = makeSign({ kind: spot.kind, ...(isWaypoint ? quiet : event) }, place, {
      interactive: isWaypoint,
      zIndexOffset: isWaypoint ? -500 : 500,
    })
    mark.marker.addTo(this.map)
    this.#marks.set(spot.key, mark)
    return mark
  }

  /** A mark moves the readout to its place; a waypoint on the route takes a stop. */
  #describe(element: HTMLElement, { kind, distance, label }: Spot, units: Units, inRound: boolean): void {
    const pinned = kind === 'waypoint' && distance !== undefined
    const where = distance === undefined || label.includes(place(distance, units)) ? '' : `, ${place(distance, units)}`
    element.tabIndex = inRound ? 0 : -1
    element.setAttribute('role', pinned ? 'button' : 'img')
    element.setAttribute('aria-label', `${label}${where}${pinned ? '. Pin a stop here' : ''}`)
    element.onfocus = element.onmouseenter = () => {
      if (distance !== undefined) this.bench.cursor = distance
    }
    element.onblur = element.onmouseleave = () => (this.bench.cursor = undefined)
    if (!pinned) return
    element.onclick = (event) => {
      // The map below would pin another.
      event.stopPropagation()
      this.bench.pinStop(distance)
    }
    element.onkeydown = (event) => {
      if (event.key !== 'Enter' && event.key !== ' ') return
      event.preventDefault()
      this.bench.pinStop(distance)
    }
  }
}
