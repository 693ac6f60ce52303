import * as L from 'leaflet'
import type { Outcome } from '../../model/forecast/outcome'
import type { StretchEnd } from '../../model/plan/edit-stretches'
import type { PlanStretch } from '../../model/plan/schema'
import { positionAt } from '../../model/route/place'
import type { Workbench } from '../../state/workbench.svelte'
import { inDistance, place, type Units } from '../format'
import { movedBy, removes } from '../moves'
import { wordsIn } from '../words/words'
import { ledOptions, panTo, type Leading } from './led'
import { around, makeSign, moveTo, setAttributes, setText, type Sign, type SignStyle } from './signs'

const badge: SignStyle = {
  kind: 'stretch',
  size: [28, 28],
  anchor: [14, 14],
  body: around(9),
  rank: 2,
  on: 'nothing',
  thinned: true,
}
/** The handles hang below their ends, as pins stand above, and outside of them, so that both can be had however short the stretch is on the map. */
const handle: Record<StretchEnd, SignStyle> = {
  start: {
    kind: 'stretch-end start',
    size: [32, 44],
    anchor: [32, 7],
    body: { left: -22, top: 0, right: 0, bottom: 30 },
    rank: 0,
    on: 'nothing',
  },
  end: {
    kind: 'stretch-end end',
    size: [32, 44],
    anchor: [0, 7],
    body: { left: 0, top: 0, right: 22, bottom: 30 },
    rank: 0,
    on: 'nothing',
  },
}
const ends = ['start', 'end'] as const

/** The stretches on the map: a badge in the middle of each that selects it, and two handles on the ends of the one selected. */
export class Stretches {
  readonly #badges = new Map<string, Sign>()
  #handles: { id: string; signs: Record<StretchEnd, Sign> } | undefined
  #outcome: Outcome | undefined

  constructor(
    private readonly map: L.Map,
    private readonly bench: Workbench,
    private readonly leading: Leading,
  ) {}

  get signs(): Iterable<Sign> {
    return [...this.#badges.values(), ...Object.values(this.#handles?.signs ?? {})]
  }

  /** Shows the stretches of the forecast's plan. */
  show(outcome: Outcome, units: Units, selected: string | undefined): void {
    this.#outcome = outcome
    const stretches = outcome.plan.stretches.filter(({ start }) => start < outcome.length)
    for (const [id, { marker }] of this.#badges)
      if (!stretches.some((stretch) => stretch.id === id)) {
        marker.remove()
        this.#badges.delete(id)
      }
    for (const stretch of stretches) this.#showBadge(stretch, units, stretch.id === selected)
    const chosen = stretches.find(({ id }) => id === selected)
    if (this.#handles !== undefined && this.#handles.id !== chosen?.id) {
      for (const { marker } of Object.values(this.#handles.signs)) marker.remove()
      this.#handles = undefined
    }
    if (chosen !== undefined) this.#showHandles(chosen, units)
  }

  /** Moves what is shown to its place in another plan. */
  move({ plan, length }: Outcome): void {
    for (const { id, start, end } of plan.stretches) {
      const places = { start, end: Math.min(end, length) }
      const badge = this.#badges.get(id)
      if (badge !== undefined) moveTo(badge, this.#positionAt((places.start + places.end) / 2))
      if (this.#handles?.id !== id) continue
      for (const end of ends) moveTo(this.#handles.signs[end], this.#positionAt(places[end]))
    }
  }

  #showBadge(stretch: PlanStretch, units: Units, isSelected: boolean): void {
    const words = wordsIn(units).stretches
    const sign = this.#badges.get(stretch.id) ?? this.#makeBadge(stretch.id)
    moveTo(sign, this.#positionAt((stretch.start + Math.min(stretch.end, this.#outcome!.length)) / 2))
    setText(sign, words.title(stretch))
    const element = sign.marker.getElement()!
    setAttributes(element, {
      'aria-label': `${words.title(stretch)}, ${words.span(stretch)}`,
      'aria-pressed': String(isSelected),
    })
    element.classList.toggle('selected', isSelected)
  }

  #makeBadge(id: string): Sign {
    const sign = makeSign(badge, [0, 0], { interactive: true, zIndexOffset: 250 })
    sign.marker.addTo(this.map)
    const element = sign.marker.getElement()!
    setAttributes(element, { tabindex: '0', role: 'button' })
    const toggle = () => (this.bench.places.selectedStretch = this.bench.places.selectedStretch === id ? undefined : id)
    sign.marker.on('click', toggle)
    element.addEventListener('keydown', (event) => {
      if (event.key === 'Enter' || event.key === ' ') {
        event.preventDefault()
        toggle()
      } else this.#key(id, event)
    })
    this.#badges.set(id, sign)
    return sign
  }

  #showHandles(stretch: PlanStretch, units: Units): void {
    this.#handles ??= {
      id: stretch.id,
      signs: { start: this.#makeHandle(stretch.id, 'start'), end: this.#makeHandle(stretch.id, 'end') },
    }
    const words = wordsIn(units).stretches
    const { length } = this.#outcome!
    const plain = (metres: number) => inDistance(metres, units).toFixed(1)
    for (const end of ends) {
      const sign = this.#handles.signs[end]
      moveTo(sign, this.#positionAt(stretch[end]))
      setText(sign, place(stretch[end], units))
      setAttributes(sign.marker.getElement()!, {
        'aria-label': words.endOf(end, stretch),
        'aria-valuemin': '0',
        'aria-valuemax': plain(length),
        'aria-valuenow': plain(Math.min(stretch[end], length)),
        'aria-valuetext': place(stretch[end], units),
        title: words.moving,
      })
    }
  }

  #makeHandle(id: string, end: StretchEnd): Sign {
    const sign = makeSign(handle[end], [0, 0], { ...ledOptions, zIndexOffset: 1500 })
    const { marker } = sign
    marker.addTo(this.map)
    const element = marker.getElement()!
    setAttributes(element, { tabindex: '0', role: 'slider' })
    element.addEventListener('keydown', (event) => this.#key(id, event, end))
    element.addEventListener('focus', () => {
      if (element.matches(':focus-visible')) panTo(this.map, marker.getLatLng())
    })
    this.leading.add(marker, {
      route: () => this.#outcome?.route,
      at: () => this.#stretch(id)?.[end],
      begin: () => undefined,
      lead: (distance) => this.bench.places.dragStretch(id, end, distance),
      keep: () => this.bench.commit(),
      cancel: () => this.bench.cancel(),
    })
    return sign
  }

  #stretch(id: string): PlanStretch | undefined {
    return this.bench.plan?.stretches.find((stretch) => stretch.id === id)
  }

  #positionAt(distance: number): L.LatLngTuple {
    const { latitude, longitude } = positionAt(this.#outcome!.route, distance)
    return [latitude, longitude]
  }

  #key(id: string, event: KeyboardEvent, end?: StretchEnd): void {
    if (this.leading.underway) return
    const by = end === undefined ? undefined : movedBy(event)
    if (by !== undefined && end !== undefined) {
      this.bench.places.nudgeStretch(id, end, by)
      const stretch = this.#stretch(id)
      if (stretch !== undefined) panTo(this.map, this.#positionAt(stretch[end]))
    } else if (removes(event)) {
      this.bench.places.removeStretch(id)
      this.map.getContainer().focus({ preventScroll: true })
    } else if (event.key === 'Escape' && this.bench.places.selectedStretch === id) {
      this.bench.places.selectedStretch = undefined
      this.#badges.get(id)?.marker.getElement()?.focus({ preventScroll: true })
    } else return
    event.preventDefault()
    event.stopPropagation()
  }
}
