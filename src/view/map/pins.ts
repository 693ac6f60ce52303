import * as L from 'leaflet'
import { positionAt } from '../../model/route/place'
import type { Outcome } from '../../model/forecast/outcome'
import { removeStop } from '../../model/plan/edit'
import type { PlanStop } from '../../model/plan/schema'
import { figuresOf } from '../../model/plan/stop-goal'
import type { Workbench } from '../../state/workbench.svelte'
import { duration, inDistance, place, type Units } from '../format'
import { movedBy, removes } from '../moves'
import { plainWords, wordsIn } from '../words/words'
import { ledOptions, panTo, type Leading } from './led'
import { makeSign, moveTo, setAttributes, setText, type Sign, type SignStyle } from './signs'

const style: SignStyle = {
  kind: 'pin',
  size: [44, 46],
  anchor: [22, 44],
  body: { left: -13, top: -42, right: 13, bottom: 0 },
  rank: 0,
}

/** The stops as pins on the route: dragged, moved by keys, removed. */
export class Pins {
  readonly #pins = new Map<string, Sign>()
  #outcome: Outcome | undefined

  constructor(
    private readonly map: L.Map,
    private readonly bench: Workbench,
    private readonly leading: Leading,
  ) {}

  get signs(): Iterable<Sign> {
    return this.#pins.values()
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
      moveTo(pin, this.#placeOf(stop))
      const ends = figuresOf(plan, stop).map((figure) =>
        figure === 'chargeTo' ? wordsIn(units).map.chargeTo(stop.chargeTo) : duration(stop.duration),
      )
      setText(pin, [stop.name, ...ends].join(', '))
      describe(pin.marker.getElement()!, stop, outcome, units)
      const isSelected = stop.id === selected
      Object.assign(pin, isSelected ? { on: 'others', rank: -1 } : { on: 'route', rank: 0 })
      pin.marker.getElement()!.classList.toggle('selected', isSelected)
    }
  }

  /** Moves the pins that are shown to their places in another plan. */
  move({ plan }: Outcome): void {
    for (const stop of plan.stops) {
      const pin = this.#pins.get(stop.id)
      if (pin !== undefined) moveTo(pin, this.#placeOf(stop))
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
    const pin = makeSign(style, [0, 0], { ...ledOptions, zIndexOffset: 1000 })
    const { marker } = pin
    marker.addTo(this.map)
    const element = marker.getElement()!
    element.tabIndex = 0
    element.setAttribute('role', 'slider')
    element.title = plainWords().map.moving
    element.addEventListener('keydown', (event) => this.#key(id, event))
    element.addEventListener('focus', () => {
      this.bench.places.selectedStop = id
      if (element.matches(':focus-visible')) panTo(this.map, marker.getLatLng())
    })
    marker.on('click', () => this.focus(id))
    this.#lead(id, marker)
    this.#pins.set(id, pin)
    return pin
  }

  #lead(id: string, marker: L.Marker): void {
    this.leading.add(marker, {
      route: () => this.#outcome?.route,
      at: () => this.#stop(id)?.distance,
      begin: () => (this.bench.places.selectedStop = id),
      lead: (distance) => this.bench.places.dragStop(id, distance),
      keep: () => this.bench.commit(),
      cancel: () => this.bench.cancel(),
    })
  }

  #key(id: string, event: KeyboardEvent): void {
    if (this.leading.underway) return
    const move = movedBy(event)
    if (move === undefined && !removes(event)) return
    event.preventDefault()
    event.stopPropagation()
    if (move !== undefined) {
      this.bench.places.nudgeStop(id, move)
      const stop = this.#stop(id)
      if (stop !== undefined) panTo(this.map, this.#placeOf(stop))
    } else {
      this.bench.edit((plan) => removeStop(plan, id))
      this.map.getContainer().focus({ preventScroll: true })
    }
  }
}

function describe(element: HTMLElement, stop: PlanStop, outcome: Outcome, units: Units): void {
  const halt = outcome.halts.find((halt) => halt.stop === stop.id)
  const where = place(stop.distance, units)
  const plain = (metres: number) => inDistance(metres, units).toFixed(1)
  setAttributes(element, {
    'aria-label': stop.name,
    'aria-valuemin': '0',
    'aria-valuemax': plain(outcome.length),
    'aria-valuenow': plain(stop.distance),
    'aria-valuetext':
      halt === undefined ? where : wordsIn(units).map.arrivesWith(where, halt.leftBefore / outcome.usable),
  })
  element.classList.toggle('rest', stop.source === null)
}
