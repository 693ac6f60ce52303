import type { Feature, FeatureCollection, MultiPolygon } from 'geojson'
import * as L from 'leaflet'
import coastAddress from '../../../sample-routes/coast.geojson?url'
import type { Area } from '../../state/areas.svelte'
import { fetched } from '../../state/parts.svelte'
import { token } from '../theme.svelte'
import { plainWords } from '../words/words'
import { landNear } from './land'
import { makeSign, setText, type Sign } from './signs'
import type { TileSource } from './tiles'

/** Where the samples' invented islands lie: in open sea, far from any land, so that tiles show nothing there. */
const islands = L.latLngBounds([40.5, -152.3], [41.5, -150.8])

/** Closer than this the coarse land is needed only where there is some. */
const farZoom = 7

/** Areas that the rider brought, below them tiles, and below those a coarse base that needs no network. */
export class Base {
  readonly #land: L.GeoJSON
  readonly #coast: L.GeoJSON
  readonly #names: Sign[] = []
  #named: ReadonlySet<string> = new Set()
  #tiles: L.TileLayer | undefined
  #areas: readonly Area[] = []
  #areaLayers: L.Layer[] = []
  #onIslands = false
  #centre = 0
  #landAsked = false
  #landData: Feature<MultiPolygon> | undefined
  #coastAsked = false

  /** @param onTiles told whether tiles arrive: true at the first that does, false at a failure before that */
  constructor(
    private readonly map: L.Map,
    private readonly onTiles: (arrive: boolean) => void,
    private readonly onNames: () => void,
  ) {
    map.createPane('coarse')
    map.createPane('area')
    const renderer = L.svg({ pane: 'coarse', padding: 0.5 })
    this.#land = L.geoJSON(undefined, { renderer, interactive: false } as L.GeoJSONOptions).addTo(map)
    this.#coast = L.geoJSON(undefined, { renderer, interactive: false } as L.GeoJSONOptions).addTo(map)
    map.on('zoomend', () => this.#askForLand())
    this.restyle()
  }

  get signs(): Iterable<Sign> {
    return this.#names.filter(({ label }) => !this.#named.has(label.textContent ?? ''))
  }

  /**
   * A route somewhere else.
   *
   * @param named names that the route's own waypoints show
   */
  lookAt(bounds: L.LatLngBounds, named: ReadonlySet<string>): void {
    this.#named = named
    for (const name of this.#names) this.#showName(name)
    this.#centre = bounds.getCenter().lng
    this.#showLand()
    const onIslands = islands.contains(bounds)
    if (onIslands !== this.#onIslands)
      this.map.attributionControl[onIslands ? 'addAttribution' : 'removeAttribution'](plainWords().map.islands)
    this.#onIslands = onIslands
    this.#askForLand()
    if (this.#onIslands && !this.#coastAsked) {
      this.#coastAsked = true
      void load<FeatureCollection>(coastAddress).then((coast) => this.#showCoast(coast))
    }
  }

  get onIslands(): boolean {
    return this.#onIslands
  }

  /** Other tiles, or none. */
  setTiles(source: TileSource | undefined): void {
    this.#tiles?.remove()
    this.#tiles = undefined
    if (source === undefined) return
    let arrived = false
    this.#tiles = L.tileLayer(source.address, { attribution: source.attribution, maxZoom: 19 })
      .on('tileload', () => {
        if (!arrived) this.onTiles(true)
        arrived = true
      })
      .on('tileerror', () => {
        if (!arrived) this.onTiles(false)
      })
      .addTo(this.map)
  }

  /** Other areas that the rider brought; what draws them is fetched when there are any. */
  setAreas(areas: readonly Area[]): void {
    if (areas === this.#areas) return
    this.#areas = areas
    void this.#drawAreas()
  }

  async #drawAreas(): Promise<void> {
    const areas = this.#areas
    const part = areas.length === 0 ? undefined : await fetched(() => import('./areaLayer'))
    if (areas !== this.#areas) return
    for (const layer of this.#areaLayers) layer.remove()
    this.#areaLayers = part === undefined ? [] : areas.map((area) => part.layerOf(area, 'area').addTo(this.map))
  }

  /** Takes the theme's colours anew. */
  restyle(): void {
    if (this.#areas.length > 0) void this.#drawAreas()
    const style = { color: token('land-edge'), weight: 1, fillColor: token('land'), fillOpacity: 1 }
    this.#land.options.style = this.#coast.options.style = style
    this.#land.setStyle(style)
    this.#coast.setStyle(style)
  }

  #askForLand(): void {
    if (this.#landAsked || (this.#onIslands && this.map.getZoom() >= farZoom)) return
    this.#landAsked = true
    void load<Feature<MultiPolygon>>('./land.geojson').then((land) => {
      this.#landAsked = land !== undefined
      this.#landData = land
      this.#showLand()
    })
  }

  #showLand(): void {
    this.#land.clearLayers()
    if (this.#landData !== undefined) this.#land.addData(landNear(this.#landData, this.#centre))
  }

  #showCoast(coast: FeatureCollection | undefined): void {
    for (const feature of coast?.features ?? [])
      if (feature.geometry.type === 'Point') this.#addName(feature)
      else this.#coast.addData(feature)
    this.onNames()
  }

  #addName({ geometry, properties }: Feature): void {
    if (geometry.type !== 'Point') return
    const [longitude, latitude] = geometry.coordinates
    const town = properties?.type === 'town' || properties?.type === 'harbour'
    const name = makeSign(
      {
        kind: 'place',
        size: [8, 8],
        anchor: [4, 4],
        body: { left: -3, top: -3, right: 3, bottom: 3 },
        on: 'nothing',
        thinned: true,
        rank: town ? 4 : 5,
        fromZoom: town ? 9 : 12,
      },
      [latitude!, longitude!],
    )
    setText(name, String(properties?.name ?? ''))
    this.#names.push(name)
    this.#showName(name)
  }

  #showName({ marker, label }: Sign): void {
    if (this.#named.has(label.textContent ?? '')) marker.remove()
    else marker.addTo(this.map).getElement()?.setAttribute('aria-hidden', 'true')
  }
}

/** A bundled file; undefined where it can't be had, and the map does without. */
async function load<T>(address: string): Promise<T | undefined> {
  try {
    const response = await fetch(address)
    return response.ok ? ((await response.json()) as T) : undefined
  } catch {
    return undefined
  }
}
