import * as L from 'leaflet'
import type { Leg } from '../../model/readings/legs'
import type { PlanStretch } from '../../model/plan/schema'
import { stationNear } from '../../model/route/nearest'
import type { Route } from '../../model/route/route'
import type { Shading } from '../ramp'
import { token } from '../theme.svelte'
import type { Box, Points } from './labels'
import { changedExtent, lineIn, nearestOn, type Frame, type Line } from './line'
import { worldOf, type World } from '../../model/geo/mercator'
import { extentOf, paint, routeExtent, shadesOf, type Inks, type Stations } from './paint'

/** Share of the map's size that the route is drawn beyond each edge, so that a short pan shows no end. */
const padding = 0.25
/** What the line covers beside its points, px. */
const margin = 10
const everywhere: Box = { left: -Infinity, top: -Infinity, right: Infinity, bottom: Infinity }

/** The shaded route on a canvas of its own. A new view projects the route; a new forecast only strokes it again, once a frame. */
export class RouteLayer extends L.Layer {
  #canvas = L.DomUtil.create('canvas', 'route leaflet-zoom-animated')
  #frame: Frame | undefined
  #centre = L.latLng(0, 0)
  /** Of the canvas's corner from the centre, px. */
  #corner = L.point(0, 0)
  #zoom = 0
  #route: Route | undefined
  #world: World | undefined
  /** Ways of the crossings, where they are known. */
  #ways: (World | undefined)[] = []
  #line: Line | undefined
  #shading: Shading | undefined
  /** As last drawn. */
  #classes: Uint8Array | undefined
  /** What is to be drawn again; all of it where nothing is said. */
  #stale: Box | undefined
  #leg: Leg | undefined
  #stretches: readonly PlanStretch[] = []
  #inks: Inks | undefined
  #request = 0

  override onAdd(map: L.Map): this {
    map.getPane('overlayPane')!.append(this.#canvas)
    this.#update()
    return this
  }

  override onRemove(): this {
    cancelAnimationFrame(this.#request)
    this.#canvas.remove()
    return this
  }

  override getEvents(): Record<string, L.LeafletEventHandlerFn> {
    const underway = ({ center, zoom }: L.ZoomAnimEvent) => this.#follow(center, zoom)
    return {
      viewreset: () => this.#update(),
      moveend: () => this.#update(),
      zoom: () => this.#follow(this._map.getCenter(), this._map.getZoom()),
      zoomanim: underway as L.LeafletEventHandlerFn,
    }
  }

  /** Another route; it is drawn when its shading is known. */
  setRoute(route: Route): void {
    this.#route = route
    this.#world = worldOf(route.stations.latitude, route.stations.longitude)
    this.#ways = route.crossings.map(({ way }) => way && worldOf(way.latitude, way.longitude))
    this.#shading = undefined
    this.#leg = undefined
    if (this.#frame !== undefined) this.#update()
  }

  /** Draws again only where a colour differs: a stop that is dragged changes few. */
  setShading(shading: Shading): void {
    const before = this.#shading
    this.#shading = shading
    const classes = this.#shades()
    const drawn = this.#classes
    if (before?.classes !== shading.classes || !this.#line || !classes || drawn?.length !== classes.length) {
      this.#redraw()
      return
    }
    const stale = changedExtent(this.#line, drawn, classes)
    if (stale !== undefined) this.#redraw(stale)
  }

  #shades(): Uint8Array | undefined {
    if (!this.#frame || !this.#line || !this.#route || !this.#shading) return undefined
    return shadesOf({ frame: this.#frame, line: this.#line, route: this.#route, shading: this.#shading })
  }

  /** The leg that stands out. */
  setLeg(leg: Leg | undefined): void {
    if (leg === this.#leg) return
    this.#leg = leg
    this.#redraw()
  }

  /** The plan's stretches; only those that lie elsewhere than before are drawn again. */
  setStretches(stretches: readonly PlanStretch[]): void {
    const before = this.#stretches
    this.#stretches = stretches
    if (before === stretches || this.#route === undefined || this.#line === undefined) return
    const where = ({ start, end }: PlanStretch) => `${start} ${end}`
    const names = [before, stretches].map((list) => new Set(list.map(where)))
    const changed = [before, stretches].flatMap((list, i) => list.filter((one) => !names[1 - i]!.has(where(one))))
    for (const stretch of changed) {
      const stale = extentOf(this.#line, stationsOf(this.#route, stretch))
      if (stale !== undefined) this.#redraw(stale)
    }
  }

  /** Takes the theme's colours anew. */
  restyle(): void {
    this.#inks = {
      casing: token('casing'),
      inner: token('casing-inner'),
      hollow: token('paper'),
      rest: token('rest'),
      ticks: token('ink'),
    }
    this.#redraw()
  }

  #redraw(stale = everywhere): void {
    this.#stale = this.#stale === undefined ? stale : union(this.#stale, stale)
    if (this.#request === 0) this.#request = requestAnimationFrame(() => this.#draw())
  }

  /**
   * The place on the route nearest to a point of the map.
   *
   * @param point layer point
   * @param within pixels
   */
  nearest(point: L.Point, within: number): number | undefined {
    if (this.#line === undefined || this.#route === undefined) return undefined
    return nearestOn(this.#line, this.#route.stations.distance, point.x, point.y, within)?.distance
  }

  /** The route as drawn, in layer points. */
  get points(): Points {
    return this.#line ?? { x: [], y: [] }
  }

  #update(): void {
    const map = this._map
    const size = map.getSize()
    if (size.x === 0 || size.y === 0) return
    this.#centre = map.getCenter()
    this.#zoom = map.getZoom()
    const least = map.containerPointToLayerPoint(size.multiplyBy(-padding)).round()
    const most = least.add(size.multiplyBy(1 + 2 * padding).round())
    const origin = map.getPixelOrigin()
    const frame: Frame = {
      scale: 256 * 2 ** this.#zoom,
      originX: origin.x,
      originY: origin.y,
      left: least.x,
      top: least.y,
      right: most.x,
      bottom: most.y,
    }
    this.#line = this.#world && this.#route && lineIn(frame, this.#world, this.#route.sections)
    this.#frame = this.#cropped(frame)
    const { left, top, right, bottom } = this.#frame
    const corner = L.point(left, top)
    this.#corner = corner.subtract(map.latLngToLayerPoint(this.#centre))
    L.DomUtil.setTransform(this.#canvas, corner, 1)
    this.#canvas.width = Math.round((right - left) * devicePixelRatio)
    this.#canvas.height = Math.round((bottom - top) * devicePixelRatio)
    this.#canvas.style.width = `${right - left}px`
    this.#canvas.style.height = `${bottom - top}px`
    this.#stale = undefined
    this.#draw()
  }

  /** No more of the frame than the route covers: a canvas is handed to the screen whole, however little of it is drawn. */
  #cropped(frame: Frame): Frame {
    const box =
      this.#line && this.#world && this.#route && routeExtent(frame, this.#line, this.#world, this.#ways, this.#route)
    if (box === undefined) return { ...frame, right: frame.left, bottom: frame.top }
    const left = Math.max(frame.left, Math.floor(box.left - margin))
    const top = Math.max(frame.top, Math.floor(box.top - margin))
    return {
      ...frame,
      left,
      top,
      right: Math.max(left, Math.min(frame.right, Math.ceil(box.right + margin))),
      bottom: Math.max(top, Math.min(frame.bottom, Math.ceil(box.bottom + margin))),
    }
  }

  /** Stretches the canvas to where it belongs in a view that is still on its way. */
  #follow(centre: L.LatLng, zoom: number): void {
    const map = this._map
    const size = map.getSize()
    const scale = map.getZoomScale(zoom, this.#zoom)
    const pane = L.DomUtil.getPosition(map.getPane('mapPane')!)
    const origin = map.project(centre, zoom).subtract(size.divideBy(2)).add(pane).round()
    const corner = map.project(this.#centre, zoom).add(this.#corner.multiplyBy(scale)).subtract(origin)
    L.DomUtil.setTransform(this.#canvas, corner, scale)
  }

  #draw(): void {
    cancelAnimationFrame(this.#request)
    this.#request = 0
    const context = this.#canvas.getContext('2d')
    const frame = this.#frame
    if (context === null || frame === undefined) return
    this.#classes = this.#shades()
    const ratio = devicePixelRatio
    context.save()
    context.setTransform(ratio, 0, 0, ratio, -frame.left * ratio, -frame.top * ratio)
    const extent = this.#pixels(frame, ratio)
    const { left, top, right, bottom } = extent
    this.#stale = undefined
    context.beginPath()
    context.rect(left, top, right - left, bottom - top)
    context.clip()
    context.clearRect(left, top, right - left, bottom - top)
    if (this.#line && this.#world && this.#route && this.#shading && this.#classes && this.#inks)
      paint(context, {
        inks: this.#inks,
        frame,
        line: this.#line,
        world: this.#world,
        ways: this.#ways,
        route: this.#route,
        shading: this.#shading,
        classes: this.#classes,
        leg: this.#leg,
        stretches: this.#stretches.map((stretch) => stationsOf(this.#route!, stretch)),
        extent,
      })
    context.restore()
  }

  /** What is to be drawn again, to whole pixels of the canvas, so that no seam is left. */
  #pixels({ left, top }: Frame, ratio: number): Box {
    const { width, height } = this.#canvas
    const stale = this.#stale ?? everywhere
    const pixel = (place: number, origin: number, size: number, round: (value: number) => number) =>
      origin + Math.min(Math.max(round((place - origin) * ratio), 0), size) / ratio
    return {
      left: pixel(stale.left - margin, left, width, Math.floor),
      top: pixel(stale.top - margin, top, height, Math.floor),
      right: pixel(stale.right + margin, left, width, Math.ceil),
      bottom: pixel(stale.bottom + margin, top, height, Math.ceil),
    }
  }
}

const stationsOf = (route: Route, { start, end }: PlanStretch): Stations => ({
  first: stationNear(route, start),
  last: stationNear(route, end),
})

const union = (a: Box, b: Box): Box => ({
  left: Math.min(a.left, b.left),
  top: Math.min(a.top, b.top),
  right: Math.max(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
})
