import * as L from 'leaflet'
import type { Workbench } from '../../state/workbench.svelte'
import { place, type Units } from '../format'
import { wordsIn } from '../words/words'
import type { Pointed } from './pointed'
import { around, makeSign, moveTo, setAttributes, setText, type Sign, type SignStyle } from './signs'
import { listed, type Spot } from './spots'

const event: Omit<SignStyle, 'kind'> = { size: [24, 24], anchor: [12, 12], body: around(11), rank: 1 }
/** Where the charge ends comes first of all. */
const end: Omit<SignStyle, 'kind'> = { ...event, rank: -1, on: 'others' }
const control: Omit<SignStyle, 'kind'> = { ...event, rank: 2, on: 'nothing' }
const quiet: Omit<SignStyle, 'kind'> = {
  size: [28, 28],
  anchor: [14, 14],
  body: around(4),
  rank: 3,
  on: 'nothing',
  thinned: true,
  yields: true,
  fromZoom: 9.5,
}
const styles = { start: event, finish: event, reserve: end, empty: end, control, waypoint: quiet }

/** Beyond this number waypoints are left out of the keyboard's round. */
const mostInRound = 30

interface Mark {
  sign: Sign
  element: HTMLElement
  /** As it is shown now. */
  spot: Spot
}

/** Start, finish, events, controls and waypoints on the map. */
export class Marks {
  readonly #marks = new Map<string, Mark>()

  constructor(
    private readonly map: L.Map,
    private readonly bench: Workbench,
    private readonly pointed: Pointed,
  ) {}

  get signs(): Iterable<Sign> {
    return Array.from(this.#marks.values(), ({ sign }) => sign)
  }

  /** Shows these places and no others. */
  show(spots: readonly Spot[], units: Units): void {
    const keys = new Set(spots.map(({ key }) => key))
    for (const [key, { sign }] of this.#marks)
      if (!keys.has(key)) {
        sign.marker.remove()
        this.#marks.delete(key)
      }
    const inRound = spots.length <= mostInRound
    for (const spot of spots) {
      const mark = this.#marks.get(spot.key) ?? this.#make(spot)
      mark.spot = spot
      moveTo(mark.sign, [spot.latitude, spot.longitude])
      setText(mark.sign, spot.label)
      if (spot.kind === 'control') {
        const missed = spot.missed === true
        mark.sign.rank = missed ? event.rank : control.rank
        mark.element.classList.toggle('missed', missed)
      }
      describe(mark, units, spot.kind !== 'waypoint' || inRound)
    }
  }

  #make(spot: Spot): Mark {
    const at: L.LatLngTuple = [spot.latitude, spot.longitude]
    const sign = makeSign({ kind: spot.kind, ...styles[spot.kind] }, at, {
      interactive: spot.kind === 'waypoint' || spot.kind === 'control',
      zIndexOffset: spot.kind === 'waypoint' ? -500 : 500,
    })
    sign.marker.addTo(this.map)
    const mark: Mark = { sign, element: sign.marker.getElement()!, spot }
    this.#marks.set(spot.key, mark)
    this.#listen(mark)
    return mark
  }

  /** A mark moves the readout to its place; a waypoint on the route and a control take a stop. */
  #listen(mark: Mark): void {
    const { element, sign } = mark
    element.onfocus = element.onmouseenter = () => {
      if (mark.spot.distance !== undefined) this.pointed.set(mark.spot.distance)
    }
    element.onblur = element.onmouseleave = () => this.pointed.clear()
    const pin = () => {
      if (isPinnable(mark.spot)) this.bench.places.pinStop(mark.spot.distance)
    }
    // Leaflet's click: the page's own also ends a drag of the map that began on the mark.
    sign.marker.on('click', pin)
    element.onkeydown = (event) => {
      if (event.key !== 'Enter' && event.key !== ' ') return
      event.preventDefault()
      pin()
    }
  }
}

const isPinnable = (spot: Spot): spot is Spot & { distance: number } =>
  (spot.kind === 'waypoint' || spot.kind === 'control') && spot.distance !== undefined

/** Names a mark for who can't see it. */
function describe({ element, spot }: Mark, units: Units, inRound: boolean): void {
  const pinnable = isPinnable(spot)
  const where = spot.distance === undefined ? '' : place(spot.distance, units)
  const words = wordsIn(units).map
  const said = listed(spot.label, spot.label.includes(where) ? '' : where, spot.more ?? '')
  const name = spot.kind === 'control' ? words.control(said) : said
  setAttributes(element, {
    tabindex: inRound ? '0' : '-1',
    role: pinnable ? 'button' : 'img',
    'aria-label': pinnable ? words.pinHere(name) : name,
  })
}
