import * as L from 'leaflet'
import {
  CenteredTextSymbolizer,
  exp,
  GeomType,
  leafletLayer,
  LineLabelSymbolizer,
  LineSymbolizer,
  PolygonSymbolizer,
  type Feature,
  type LabelRule,
  type PaintRule,
} from 'protomaps-leaflet'
import type { Area } from '../../state/areas.svelte'
import { openArchive } from '../../work/area'
import { token } from '../theme.svelte'
import { escaped } from './tiles'

// Where the library that draws tiles looks for the map's.
Object.assign(globalThis, { L: { GridLayer: L.GridLayer, DomUtil: L.DomUtil } })

/** Layers as the open schemas of vector tiles name them, from the bottom up; what others hold is drawn as thin lines. */
const ground = ['earth', 'land']
const water = ['water', 'ocean', 'waterway']
const borders = ['boundaries', 'boundary']
const roads = ['roads', 'transportation', 'streets']
const places = ['places', 'place', 'place_label', 'place_labels']
const roadNames = ['roads', 'transportation_name', 'street_labels']
/** Of no use under a route, or only where they are named. */
const leftOut = ['landcover', 'landuse', 'landuse_overlay', 'park', 'pois', 'poi', 'housenumber', 'aeroway']

const font = '600 12px "Overpass Variable", sans-serif'
const isOf = (kind: GeomType) => (_: number, feature?: Feature) => feature?.geomType === kind

/** The tiles of an area, in the page's colours, or as the pictures that they are. */
export function layerOf({ file, facts }: Area, pane: string): L.Layer {
  const [west, south, east, north] = facts.bounds
  const options = {
    pane,
    bounds: L.latLngBounds([south, west], [north, east]),
    attribution: escaped(facts.attribution),
    maxZoom: 19,
  }
  if (facts.kind === 'raster')
    return new Pictures(file, { ...options, minZoom: facts.minZoom, maxNativeZoom: facts.maxZoom })
  return leafletLayer({
    ...options,
    // Typed there by an older version of the reader, of which it asks for tiles alone.
    url: openArchive(file) as unknown as NonNullable<NonNullable<Parameters<typeof leafletLayer>[0]>['url']>,
    maxDataZoom: facts.maxZoom,
    paintRules: paintRules(facts.layers),
    labelRules: labelRules(),
    lang: 'en',
  }) as unknown as L.Layer
}

function paintRules(layers: readonly string[]): PaintRule[] {
  const fill = (dataLayer: string, colour: string): PaintRule => ({
    dataLayer,
    symbolizer: new PolygonSymbolizer({ fill: token(colour) }),
    filter: isOf(GeomType.Polygon),
  })
  const line = (dataLayer: string, colour: string, widths: number[][], dash?: number[]): PaintRule => ({
    dataLayer,
    symbolizer: new LineSymbolizer({ color: token(colour), width: exp(1.4, widths), ...(dash && { dash }) }),
    filter: isOf(GeomType.Line),
  })
  const thin = [
    [8, 0.5],
    [16, 1],
  ]
  const known = [...ground, ...water, ...borders, ...roads, ...places, ...roadNames, ...leftOut]
  return [
    ...ground.map((layer) => fill(layer, 'land')),
    ...water.map((layer) => fill(layer, 'water')),
    ...water.map((layer) => line(layer, 'land-edge', thin)),
    ...layers.filter((layer) => !known.includes(layer)).map((layer) => line(layer, 'land-edge', thin)),
    ...borders.map((layer) => line(layer, 'land-edge', thin, [4, 3])),
    ...roads.map((layer) =>
      line(layer, 'line-strong', [
        [8, 0.5],
        [12, 1],
        [18, 6],
      ]),
    ),
  ]
}

function labelRules(): LabelRule[] {
  const looks = { fill: token('ink-soft'), stroke: token('land'), width: 2, font, labelProps: ['name'] }
  return [
    ...places.map((dataLayer) => ({
      dataLayer,
      symbolizer: new CenteredTextSymbolizer(looks),
      filter: isOf(GeomType.Point),
    })),
    ...roadNames.map((dataLayer) => ({
      dataLayer,
      symbolizer: new LineLabelSymbolizer(looks),
      filter: isOf(GeomType.Line),
      minzoom: 14,
    })),
  ]
}

/** Tiles that are pictures. */
class Pictures extends L.GridLayer {
  readonly #archive

  constructor(file: Blob, options: L.GridLayerOptions) {
    super(options)
    this.#archive = openArchive(file)
  }

  protected override createTile({ x, y, z }: L.Coords, done: L.DoneCallback): HTMLElement {
    const image = document.createElement('img')
    image.alt = ''
    void this.#show(image, z, x, y).then(
      () => done(undefined, image),
      (error: Error) => done(error, image),
    )
    return image
  }

  async #show(image: HTMLImageElement, z: number, x: number, y: number): Promise<void> {
    const tile = await this.#archive.getZxy(z, x, y)
    if (tile === undefined) return
    const address = URL.createObjectURL(new Blob([tile.data]))
    image.src = address
    await image.decode().finally(() => URL.revokeObjectURL(address))
  }
}
