import * as L from 'leaflet'
import type { Leg } from '../../model/outcome/legs'
import type { Route } from '../../model/route/route'
import type { Shading } from '../ramp'
import { token } from '../theme'
import type { Points } from './labels'
import { lineIn, nearestOn, type Frame, type Line } from './line'
import { worldOf, type World } from './mercator'
import { paint, shadesOf, type Inks } from './paint'

/** Share of the map's size that the canvas reaches beyond each edge, so that a short pan shows no end. */
const padding = 0.25

/** The shaded route on a canvas of its own. A new view projects the route; a new forecast only strokes it again, once a frame. */
export class RouteLayer extends L.Layer {
  #canvas = L.DomUtil.create('canvas', 'route leaflet-zoom-animated')
  #frame: Frame | undefined
  #centre = L.latLng(0, 0)
  #zoom = 0
  #route: Route | undefined
  #world: World | undefined
  #line: Line | undefined
  #shading: Shading | undefined
  /** As last drawn. */
  #classes: Uint8Array | undefined
  #leg: Leg | undefined
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
    this.#shading = undefined
    this.#leg = undefined
    this.#project()
    this.#redraw()
  }

  /** Draws again only if any colour differs: a stop that is dragged changes few. */
  setShading(shading: Shading): void {
    const before = this.#shading
    this.#shading = shading
    const classes = this.#shades()
    if (before?.classes === shading.classes && isSame(classes, this.#classes)) return
    this.#redraw()
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

  /** Takes the theme's colours anew. */
  restyle(): void {
    this.#inks = { casing: token('casing'), inner: token('casing-inner'), hollow: token('paper'), rest: token('rest') }
    this.#redraw()
  }

  #redraw(): void {
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
    const extent = size.multiplyBy(1 + 2 * padding).round()
    const origin = map.getPixelOrigin()
    this.#frame = {
      scale: 256 * 2 ** this.#zoom,
      originX: origin.x,
      originY: origin.y,
      left: least.x,
      top: least.y,
      right: least.x + extent.x,
      bottom: least.y + extent.y,
    }
    L.DomUtil.setTransform(this.#canvas, least, 1)
    this.#canvas.width = Math.round(extent.x * devicePixelRatio)
    this.#canvas.height = Math.round(extent.y * devicePixelRatio)
    this.#canvas.style.width = `${extent.x}px`
    this.#canvas.style.height = `${extent.y}px`
    this.#project()
    this.#draw()
  }

  /** Stretches the canvas to where it belongs in a view that is still on its way. */
  #follow(centre: L.LatLng, zoom: number): void {
    const map = this._map
    const size = map.getSize()
    const scale = map.getZoomScale(zoom, this.#zoom)
    const pane = L.DomUtil.getPosition(map.getPane('mapPane')!)
    const origin = map.project(centre, zoom).subtract(size.divideBy(2)).add(pane).round()
    const corner = map
      .project(this.#centre, zoom)
      .subtract(size.multiplyBy((0.5 + padding) * scale))
      .subtract(origin)
    L.DomUtil.setTransform(this.#canvas, corner, scale)
  }

  #project(): void {
    if (this.#frame === undefined || this.#world === undefined || this.#route === undefined) return
    this.#line = lineIn(this.#frame, this.#world, this.#route.sections)
  }

  #draw(): void {
    cancelAnimationFrame(this.#request)
    this.#request = 0
    const context = this.#canvas.getContext('2d')
    const frame = this.#frame
    if (context === null || frame === undefined) return
    context.setTransform(1, 0, 0, 1, 0, 0)
    context.clearRect(0, 0, this.#canvas.width, this.#canvas.height)
    this.#classes = this.#shades()
    if (!this.#line || !this.#world || !this.#route || !this.#shading || !this.#classes || !this.#inks) return
    context.setTransform(
      devicePixelRatio,
      0,
      0,
      devicePixelRatio,
      -frame.left * devicePixelRatio,
      -frame.top * devicePixelRatio,
    )
    paint(context, {
      inks: this.#inks,
      frame,
      line: this.#line,
      world: this.#world,
      route: this.#route,
      shading: this.#shading,
      classes: this.#classes,
      leg: this.#leg,
    })
  }
}

function isSame(one: Uint8Array | undefined, other: Uint8Array | undefined): boolean {
  return one !== undefined && one.length === other?.length && one.every((value, i) => value === other[i])
}
