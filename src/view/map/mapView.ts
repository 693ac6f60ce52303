import * as L from 'leaflet'
import type { Leg } from '../../model/readings/legs'
import type { Outcome } from '../../model/forecast/outcome'
import { positionAt } from '../../model/route/place'
import type { Route } from '../../model/route/route'
import type { Area } from '../../state/areas.svelte'
import { fetched } from '../../state/parts.svelte'
import type { Workbench } from '../../state/workbench.svelte'
import type { Units } from '../format'
import type { Shading } from '../ramp'
import { plainWords } from '../words/words'
import { Base } from './base'
import { Leading } from './led'
import type { Box } from './labels'
import { Marks } from './marks'
import { minded, type Passed } from './meant'
import { Pins } from './pins'
import { Pointed } from './pointed'
import { RouteLayer } from './routeLayer'
import { arrangeSigns } from './signs'
import type { Stretches } from './stretches'
import { controlSpots, spotsOf, type Spot } from './spots'
import type { TileSource } from './tiles'
import { Waypoints } from './waypoints'

// Leaflet's name for "by flat transforms": the pane with all that is on it is moved as one layer, and each of some forty signs need not be one of its own,
// which costs a millisecond in every frame of a drag.
Object.assign(L.Browser, { ie3d: true })

/** How near the route a click or the pointer must be, pixels. */
const mouseReach = 14
const fingerReach = 24
/** Share of the map's size that waypoints are shown beyond each edge, as far as the route is drawn. */
const padding = 0.25

/** The map: puts its parts together and turns what the rider does on it into operations of the workbench. */
export class MapView {
  readonly #map: L.Map
  readonly #base: Base
  readonly #layer = new RouteLayer()
  readonly #leading: Leading
  readonly #pins: Pins
  /** There once a plan has any. */
  #stretches: Stretches | undefined
  #showStretches: (() => void) | undefined
  #fetchingStretches: Promise<void> | undefined
  readonly #marks: Marks
  readonly #pointed: Pointed
  readonly #dot = L.marker([0, 0], {
    icon: L.divIcon({ className: 'dot', iconSize: [16, 16] }),
    interactive: false,
    keyboard: false,
    zIndexOffset: 2000,
  })
  readonly #resized: ResizeObserver
  #scale: L.Control.Scale | undefined
  #route: Route | undefined
  #bounds: L.LatLngBounds | undefined
  readonly #waypoints = new Waypoints()
  /** Start, finish, events and controls of the forecast. */
  #events: Spot[] = []
  #units: Units = 'metric'
  /** Whether the whole route is in view because it was fitted, so that it is fitted again when the map's size changes. */
  #fitted = false
  #fitting = false
  readonly #end: () => void
  #arranging = 0

  #boxesOver: Box[] | undefined

  constructor(
    container: HTMLElement,
    private readonly bench: Workbench,
    onTiles: (arrive: boolean) => void,
    onPassed: (by: Passed) => void,
  ) {
    const still = matchMedia('(prefers-reduced-motion: reduce)').matches
    this.#map = L.map(container, {
      zoomControl: false,
      attributionControl: false,
      zoomAnimation: !still,
      fadeAnimation: !still,
      inertia: !still,
      maxZoom: 19,
      zoomSnap: 0.1,
      center: [0, 0],
      zoom: 2,
    })
    const { zoomIn: zoomInTitle, zoomOut: zoomOutTitle } = plainWords().map
    L.control.zoom({ zoomInTitle, zoomOutTitle, zoomInText: '+', zoomOutText: '−' }).addTo(this.#map)
    L.control.attribution({ prefix: false }).addTo(this.#map)
    this.#base = new Base(this.#map, onTiles, () => this.#arrange())
    this.#layer.addTo(this.#map)
    this.#pointed = new Pointed(bench)
    this.#marks = new Marks(this.#map, bench, this.#pointed)
    this.#leading = new Leading(this.#map)
    this.#pins = new Pins(this.#map, bench, this.#leading)
    this.#map.on('click', (event) => this.#click(event))
    this.#map.on('mousemove', (event) => this.#hover(event))
    this.#map.on('mouseout', () => this.#leave())
    this.#map.on('moveend zoomend', () => this.#arrange())
    this.#map.on('dragstart zoomstart', () => (this.#fitted = this.#fitting))
    this.#map.on('moveend', () => (this.#fitting = false))
    this.#end = minded(this.#map, container.parentElement!, onPassed)
    this.#resized = new ResizeObserver(() => {
      this.#map.invalidateSize({ animate: false, pan: false })
      if (this.#fitted) this.fit(false)
    })
    this.#resized.observe(container)
  }

  remove(): void {
    this.#showStretches = undefined
    this.#end()
    this.#resized.disconnect()
    cancelAnimationFrame(this.#arranging)
    this.#map.remove()
  }

  /** Opens another route. */
  showRoute(route: Route): void {
    const { latitude, longitude } = route.points
    this.#route = route
    this.#waypoints.setRoute(route)
    this.#bounds = L.latLngBounds(Array.from(latitude, (north, i) => L.latLng(north, longitude[i]!)))
    this.#base.lookAt(this.#bounds, new Set(route.waypoints.map(({ name }) => name)))
    this.#layer.setRoute(route)
    this.#leave()
    this.fit(false)
  }

  get onIslands(): boolean {
    return this.#base.onIslands
  }

  showOutcome(
    outcome: Outcome,
    units: Units,
    selectedStop: string | undefined,
    selectedStretch: string | undefined,
  ): void {
    this.#events = [...spotsOf(outcome, units), ...controlSpots(outcome, units)]
    this.#units = units
    this.#pins.show(outcome, units, selectedStop)
    this.#showStretches = () => this.#stretches?.show(outcome, units, selectedStretch)
    if (outcome.plan.stretches.length > 0) this.#fetchStretches()
    this.#showStretches()
    this.#layer.setStretches(outcome.plan.stretches)
    this.#arrange()
  }

  /** What handles stretches comes with the first of them. */
  #fetchStretches(): void {
    this.#fetchingStretches ??= fetched(() => import('./stretches')).then((part) => {
      if (part === undefined || this.#showStretches === undefined) return
      this.#stretches = new part.Stretches(this.#map, this.bench, this.#leading)
      this.#showStretches()
      this.#arrange()
    })
  }

  /** Moves what follows the finger, and leaves what is read of it. */
  movePins(outcome: Outcome): void {
    this.#pins.move(outcome)
    this.#stretches?.move(outcome)
  }

  showShading(shading: Shading): void {
    this.#layer.setShading(shading)
  }

  showLeg(leg: Leg | undefined): void {
    this.#layer.setLeg(leg)
  }

  /** @param distance ridden distance of the dot, m; none where undefined */
  showCursor(distance: number | undefined): void {
    if (distance === undefined || this.#route === undefined) {
      this.#dot.remove()
      return
    }
    const { latitude, longitude } = positionAt(this.#route, distance)
    this.#dot.setLatLng([latitude, longitude]).addTo(this.#map)
  }

  /** Other tiles and areas that the rider brought, or none. */
  setGround(source: TileSource | undefined, areas: readonly Area[]): void {
    this.#base.setTiles(source)
    this.#base.setAreas(areas)
    if (this.#fitted) this.fit(false)
  }

  setUnits(units: Units): void {
    this.#scale?.remove()
    this.#scale = L.control.scale({ metric: units === 'metric', imperial: units === 'imperial', maxWidth: 120 })
    this.#scale.addTo(this.#map)
  }

  /** Takes the theme's colours anew. */
  restyle(): void {
    this.#base.restyle()
    this.#layer.restyle()
  }

  /** Shows a part of the map whole: west, south, east and north, degrees. */
  frame([west, south, east, north]: readonly [number, number, number, number]): void {
    this.#map.fitBounds(
      [
        [south, west],
        [north, east],
      ],
      { padding: [32, 48] },
    )
    this.#fitted = false
  }

  /** Brings the whole route into view, as large as it finds room beside what stands over the map. */
  fit(animate = true): void {
    if (this.#bounds === undefined) return
    const { x, y } = this.#map.getSize()
    const side = Math.min(56, 0.08 * x)
    const above = Math.min(56, Math.max(30, 0.16 * y))
    const below = Math.min(32, 0.1 * y)
    this.#fitting = true
    this.#map.fitBounds(this.#bounds, { paddingTopLeft: [side, above], paddingBottomRight: [side, below], animate })
    // Leaflet's canvas may come to lie between pixels after a jump, and settles with the end of a move.
    if (!animate) this.#map.fire('moveend')
    this.#fitted = true
  }

  /** Other things stand over the map: labels make room for them. */
  makeRoom(): void {
    this.#boxesOver = undefined
    this.#arrange()
  }

  /** What stands over the map, in the pixels of its layers; in a gesture as before it, for to measure has the page laid out once more. */
  #over(): Box[] {
    if (!this.bench.isUnderway || this.#boxesOver === undefined) this.#boxesOver = this.#measureOver()
    return this.#boxesOver
  }

  #measureOver(): Box[] {
    const container = this.#map.getContainer()
    const { left, top } = container.getBoundingClientRect()
    const corner = this.#map.containerPointToLayerPoint([0, 0])
    return [...container.parentElement!.querySelectorAll('.leaflet-control, .over')].map((element) => {
      const box = element.getBoundingClientRect()
      const x = corner.x - left
      const y = corner.y - top
      return { left: box.left + x, right: box.right + x, top: box.top + y, bottom: box.bottom + y }
    })
  }

  #arrange(): void {
    cancelAnimationFrame(this.#arranging)
    this.#arranging = requestAnimationFrame(() => {
      this.#marks.show([...this.#events, ...this.#waypointsInView()], this.#units)
      arrangeSigns(
        this.#map,
        [...this.#pins.signs, ...(this.#stretches?.signs ?? []), ...this.#marks.signs, ...this.#base.signs],
        this.#layer.points,
        this.#over(),
      )
    })
  }

  #waypointsInView(): Spot[] {
    const { min, max } = this.#map.getPixelBounds()
    const size = this.#map.getSize().multiplyBy(padding)
    const [from, to] = [min!.subtract(size), max!.add(size)]
    const part = { left: from.x, top: from.y, right: to.x, bottom: to.y }
    const scale = this.#map.options.crs!.scale(this.#map.getZoom())
    return this.#waypoints.inView(scale, part)
  }

  #click({ layerPoint, originalEvent }: L.LeafletMouseEvent): void {
    if (this.#leading.underway || originalEvent.detail > 1) return
    const byFinger = originalEvent instanceof PointerEvent && originalEvent.pointerType === 'touch'
    const distance = this.#layer.nearest(layerPoint, byFinger ? fingerReach : mouseReach)
    if (distance === undefined) return
    const id = this.bench.places.pinStop(distance)
    // The pin is there once the page has followed the plan.
    if (id !== undefined) requestAnimationFrame(() => this.#pins.focus(id))
  }

  #hover({ layerPoint }: L.LeafletMouseEvent): void {
    if (this.#leading.underway) return
    const distance = this.#layer.nearest(layerPoint, mouseReach)
    if (distance === undefined) this.#leave()
    else {
      this.#pointed.set(distance)
      this.#map.getContainer().classList.add('on-route')
    }
  }

  #leave(): void {
    this.#pointed.clear()
    this.#map.getContainer().classList.remove('on-route')
  }
}
