import type { Format } from '../../format'
import type { Passed } from '../../map/meant'
import { drainUnit } from '../../format'

/** Of the map, its legend and its marks. */
export const mapIn = ({ percent, place, units }: Format) => ({
  label: 'Map',
  about: 'Map of the route. Arrow keys move it, plus and minus zoom.',
  wholeRoute: 'Whole route',
  /** How the map is meant, where the page was scrolled over it. */
  passed: {
    wheel: 'The page scrolls. Press the map first, or hold Ctrl, and the wheel zooms.',
    finger: 'The page scrolls. Move the map with two fingers, or tap it first.',
  } satisfies Record<Passed, string>,
  noNetwork: 'No network: coarse base map only.',
  /** Whose server is asked for tiles, said until the rider has seen it. */
  tilesFrom: (server: string) => `Tiles of this map come from ${server}, which sees what part of it you look at.`,
  zoomIn: 'Zoom in',
  zoomOut: 'Zoom out',
  islands: 'Invented islands',

  legend: {
    label: 'Shade the route by',
    drain: 'Drain',
    charge: 'Charge left',
    drainIn: `Drain in ${drainUnit(units)}`,
    chargeIn: 'Charge left in percent',
    rests: 'motor rests',
  },

  start: 'Start',
  finish: 'Finish',
  startAndFinish: 'Start and finish',
  motorStops: (at: number) => `Motor stops, ${place(at)}`,
  reserveReached: (at: number) => `Reserve reached, ${place(at)}`,
  opens: (clock: string) => `opens ${clock}`,
  /** Of a mark, for who can't see it. */
  control: (name: string) => `Control ${name}`,
  pinHere: (name: string) => `${name}. Pin a stop here`,

  /** Of a stop's pin. */
  chargeTo: (share: number) => `to ${percent(share)}`,
  arrivesWith: (where: string, share: number) => `${where}, arrives with ${percent(share)}`,
  moving: 'Drag it along the route, or move it with the arrow keys. Delete removes it.',
})
