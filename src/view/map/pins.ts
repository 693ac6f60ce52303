import * as L from 'leaflet'
import { positionAt } from '../../model/route/place'
import type { Outcome } from '../../model/forecast/outcome'
import { removeStop } from '../../model/plan/edit'
import type { PlanStop } from '../../model/plan/schema'
import { figuresOf } from '../../model/plan/stop-goal'
import type { Workbench } from '../../state/workbench.svelte'
import { duration, inDistance, percent, place, type Units } from '../format'
import { draggedTo } from './drag'
import { makeSign, setAttributes, setText, type Sign, type SignStyle } from './signs'

const style: SignStyle = {
  kind: 'pin',
  size: [44, 46],
  anchor: [22, 44],
  body: { left: -13, top: -42, right: 13, bottom: 0 },
  rank: 0,
}
const fine = 100 // m
const coarse = 1000 // m
const searchRadius = 40 // px
/** A release after a drag may count as a click on the map below; for this long, ms, it does not. */
const clickAfterDrag = 60

/** The stops as pins on the route: dragged, moved by keys, removed. */
export class Pins {
  readonly #pins = new Map<string, Sign>()
  #outcome: Outcome | undefined
  #dragging: string | undefined

  constructor(
    private readonly map: L.Map,
    private readonly bench: Workbench,
  ) {}

  get signs(): Iterable<Sign> {
    return this.#pins.values()
  }

  /** Whether a pin is being dragged, or was just let go. */
  get dragging(): boolean {
    return this.#dragging !== undefined
  }

  /** Shows the stops of the forecast's plan. */
  show(outcome: Outcome, units: Units, selected: string | undefined): void {
    this.#outcome = outcome
    const { plan } = outcome
    const { stops } = plan
    for (const [id, { marker }] of this.#pins)
      if (!stops.some((stop) => stop.id === id)) {
        marker.remove()
        this.#pins.delete(id)
      }
    for (const stop of stops) {
      const pin = this.#pins.get(stop.id) ?? this.#make(stop.id)
      pin.marker.setLatLng(this.#placeOf(stop))
      const ends = figuresOf(plan, stop).map((figure) =>
        figure === 'chargeTo' ? `to ${percent(stop.chargeTo)}` : duration(stop.duration),
      )
      setText(pin, [stop.name, ...ends].join(', '))
      describe(pin.marker.getElement()!, stop, outcome, units)
      pin.marker.getElement()!.classList.toggle('selected', stop.id === selected)
    }
  }

  /** Gives a pin the keyboard's focus. */
  focus(id: string): void {
    this.#pins.get(id)?.marker.getElement()?.focus({ preventScroll: true })
  }

  #placeOf(stop: PlanStop): [number, number] {
    const { latitude, longitude } = positionAt(this.#outcome!.route, stop.distance)
    return [latitude, longitude]
  }

  #stop(id: string): PlanStop | undefined {
    return this.bench.plan?.stops.find((stop) => stop.id === id)
  }

  #make(id: string): Sign {
    const pin = makeSign(style, [0, 0], { interactive: true, draggable: true, autoPan: true, zIndexOffset: 1000 })
    const { marker } = pin
    marker.addTo(this.map)
    const element = marker.getElement()!
    element.tabIndex = 0
    element.setAttribute('role', 'slider')
    element.title = 'Drag it along the route, or move it with the arrow keys. Delete removes it.'
    element.addEventListener('keydown', (event) => this.#key(id, event))
    element.addEventListener('focus', () => {
      this.bench.selectedStop = id
      if (element.matches(':focus-visible')) this.map.panInside(marker.getLatLng(), { padding: [60, 60] })
    })
    marker.on('click', () => this.focus(id))
    this.#letDrag(id, marker)
    this.#pins.set(id, pin)
    return pin
  }

  #letDrag(id: string, marker: L.Marker): void {
    const cancel = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return
      event.preventDefault()
      // Leaflet has no cancel: a marker that can't be dragged is let go.
      marker.dragging!.disable()
      marker.dragging!.enable()
      end()
      this.bench.cancel()
    }
    const end = () => {
      document.removeEventListener('keydown', cancel, true)
      const release = () => setTimeout(() => (this.#dragging = undefined), clickAfterDrag)
      if (pressed) addEventListener('pointerup', release, { once: true })
      else release()
    }
    let pressed = false
    let last = L.latLng(0, 0)
    marker.on('dragstart', () => {
      this.#dragging = id
      this.bench.selectedStop = id
      pressed = true
      addEventListener('pointerup', () => (pressed = false), { once: true, capture: true })
      last = marker.getLatLng()
      document.addEventListener('keydown', cancel, true)
    })
    marker.on('drag', () => {
      const pointer = marker.getLatLng()
      this.#follow(id, pointer, last)
      last = pointer
      const stop = this.#stop(id)
      if (stop !== undefined) marker.setLatLng(this.#placeOf(stop))
    })
    marker.on('dragend', () => {
      end()
      this.bench.commit()
    })
  }

  #follow(id: string, pointer: L.LatLng, last: L.LatLng): void {
    const stop = this.#stop(id)
    const route = this.#outcome?.route
    if (stop === undefined || route === undefined) return
    const at = this.map.latLngToLayerPoint(pointer)
    const metresPerPixel = this.map.distance(pointer, this.map.layerPointToLatLng(at.add([100, 0]))) / 100
    const reach = searchRadius * metresPerPixel + this.map.distance(pointer, last)
    this.bench.dragStop(id, draggedTo(route, stop.distance, pointer.lat, pointer.lng, reach, metresPerPixel))
  }

  #key(id: string, event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey || this.dragging) return
    const step = event.shiftKey ? coarse : fine
    const by: Record<string, number> = {
      ArrowRight: step,
      ArrowUp: step,
      ArrowLeft: -step,
      ArrowDown: -step,
      PageUp: coarse,
      PageDown: -coarse,
    }
    const move = by[event.key]
    const remove = event.key === 'Delete' || event.key === 'Backspace'
    if (move === undefined && !remove) return
    event.preventDefault()
    event.stopPropagation()
    if (move !== undefined) {
      this.bench.nudgeStop(id, move)
      const stop = this.#stop(id)
      if (stop !== undefined) this.map.panInside(this.#placeOf(stop), { padding: [60, 60] })
    } else {
      this.bench.edit((plan) => removeStop(plan, id))
      this.map.getContainer().focus({ preventScroll: true })
    }
  }
}

function describe(element: HTMLElement, stop: PlanStop, outcome: Outcome, units: Units): void {
  const halt = outcome.halts.find((halt) => halt.stop === stop.id)
  const arrival = halt === undefined ? '' : `, arrives with ${percent(halt.leftBefore / outcome.usable)}`
  const plain = (metres: number) => inDistance(metres, units).toFixed(1)
  setAttributes(element, {
    'aria-label': stop.name,
    'aria-valuemin': '0',
    'aria-valuemax': plain(outcome.length),
    'aria-valuenow': plain(stop.distance),
    'aria-valuetext': `${place(stop.distance, units)}${arrival}`,
  })
  element.classList.toggle('rest', stop.source === null)
}
