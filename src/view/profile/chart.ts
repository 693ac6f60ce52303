import type { Route } from '../../model/route/route'
import { inHeight, type Units } from '../format'
import type { Shading } from '../ramp'
import type { ChartColours } from '../theme.svelte'
import { drawAxes, ticksOf } from './axes'
import { columnClasses, columnsOf, type Columns } from './columns'
import type { Frame } from './frame'
import { elevationLine, type Point } from './lines'
import { drawCrossings, drawGroundLine, drawLevels, fillRibbon } from './ribbon'

/** The route in columns, and the line through them. */
interface Ground {
  columns: Columns
  elevation: Point[]
}

/** All that is drawn. */
export interface Scene {
  frame: Frame
  route: Route
  shading: Shading
  units: Units
  colours: ChartColours
}

/**
 * The profile's ground on a canvas: axes and ribbon. What follows a drag frame by frame, the charge and the labels, lies above it in
 * `Lines.svelte`; here only columns whose colour differs are drawn again, for a whole canvas costs some 5 ms where there is no graphics
 * processor.
 */
export class ProfileChart {
  #scene: Scene | undefined
  #ground: Ground | undefined
  #classes: Uint8Array = new Uint8Array()
  #levels: number[] = []
  #ratio = 1
  #canvas: HTMLCanvasElement
  #context: CanvasRenderingContext2D

  constructor(canvas: HTMLCanvasElement) {
    this.#canvas = canvas
    this.#context = canvas.getContext('2d')!
  }

  show(scene: Scene): void {
    const { frame, route, shading, units, colours } = scene
    const before = this.#scene
    this.#scene = scene
    if (before?.route !== route || before.frame !== frame || this.#ground === undefined) {
      const columns = columnsOf(route, frame.right - frame.left)
      this.#ground = { columns, elevation: elevationLine(columns) }
    }
    const shown = this.#classes
    this.#classes = columnClasses(this.#ground.columns, shading.byStation)
    if (
      before?.frame === frame &&
      before.units === units &&
      before.colours === colours &&
      before.shading.classes === shading.classes
    ) {
      this.#repair(shown)
      return
    }
    const ticks = ticksOf(frame, route, units)
    this.#levels = ticks.heights.map((height) => height / inHeight(1, units))
    this.#clear(frame)
    drawAxes(this.#context, frame, ticks, units, colours)
    this.#draw(0, this.#classes.length)
  }

  /** Gives the canvas its size, in pixels of the screen, and nothing on it. */
  #clear({ width, height }: Frame): void {
    this.#ratio = window.devicePixelRatio
    this.#canvas.width = Math.floor(width * this.#ratio)
    this.#canvas.height = Math.floor(height * this.#ratio)
    this.#canvas.style.width = `${width}px`
    this.#canvas.style.height = `${height}px`
    this.#context.scale(this.#ratio, this.#ratio)
  }

  /** Draws the columns again whose class is another than the one shown. */
  #repair(shown: Uint8Array): void {
    const ctx = this.#context
    const ratio = this.#ratio
    const { frame } = this.#scene!
    const classes = this.#classes
    const width = (frame.right - frame.left) / classes.length
    for (let from = 0; from < classes.length; from++) {
      if (classes[from] === shown[from]) continue
      let to = from + 1
      while (to < classes.length && classes[to] !== shown[to]) to++
      // Whole pixels, so that no seam is left.
      const left = Math.floor((frame.left + from * width) * ratio) / ratio
      const right = Math.ceil((frame.left + to * width) * ratio) / ratio
      ctx.save()
      ctx.beginPath()
      ctx.rect(left, frame.top, right - left, frame.bottom - frame.top)
      ctx.clip()
      ctx.clearRect(left, frame.top, right - left, frame.bottom - frame.top)
      this.#draw(from - 2, to + 2)
      ctx.restore()
      from = to
    }
  }

  /** Draws some of the columns. */
  #draw(from: number, to: number): void {
    const ctx = this.#context
    if (this.#scene === undefined || this.#ground === undefined) return
    const { frame, route, shading, colours } = this.#scene
    const { columns, elevation } = this.#ground
    const first = Math.max(from, 0)
    const last = Math.min(to, columns.count)
    ctx.save()
    drawLevels(ctx, frame, this.#levels, colours.line)
    fillRibbon(ctx, frame, columns, this.#classes, shading, colours.rest, first, last)
    drawCrossings(ctx, frame, route, colours)
    drawGroundLine(ctx, frame, elevation.slice(first, last + 2), colours.ink)
    ctx.restore()
  }
}
