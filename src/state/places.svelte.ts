import { addStop, changeStop } from '../model/plan/edit'
import { addStretch, moveStretchEnd, removeStretch, type StretchEnd } from '../model/plan/edit-stretches'
import type { Names } from '../model/plan/names'
import { freeStretch } from '../model/plan/stretches'
import type { Desk } from './desk'

/** Stops and stretches as they are taken hold of on map and profile. */
export class Places {
  /** Stop that the keyboard or pointer last touched. */
  selectedStop = $state<string | undefined>()
  /** Stretch whose ends can be moved on map and profile, and whose fields are unfolded. */
  selectedStretch = $state<string | undefined>()
  /** Stretch whose fields were asked for from elsewhere on the page, until they are there. */
  askedStretch = $state<string | undefined>()

  /** @param names of what is added */
  constructor(
    private readonly desk: Desk,
    private readonly names: Names,
  ) {}

  /** Pins a stop, m from the start; gives its id. */
  pinStop(distance: number): string | undefined {
    let id: string | undefined
    this.desk.edit((plan) => {
      const added = addStop(plan, distance, this.names.stop)
      id = added.id
      return added.plan
    })
    this.selectedStop = id
    return id
  }

  /** Moves a stop as part of a gesture, held within the route. */
  dragStop(id: string, distance: number): void {
    this.desk.preview((plan) => changeStop(plan, id, { distance: this.#held(distance) }))
  }

  /** Moves a stop by some metres, as one step. */
  nudgeStop(id: string, by: number): void {
    this.desk.edit((plan) => {
      const stop = plan.stops.find((stop) => stop.id === id)
      return stop === undefined ? plan : changeStop(plan, id, { distance: this.#held(stop.distance + by) })
    })
  }

  /**
   * Marks a stretch at a place, m from the start, or where there is room; gives its id. Where there is a stretch already that one is selected,
   * and without any room nothing happens.
   */
  markStretch(at: number | undefined): string | undefined {
    const { plan } = this.desk
    if (plan === undefined) return undefined
    let id = plan.stretches.find(({ start, end }) => at !== undefined && start <= at && at < end)?.id
    if (id === undefined)
      this.desk.edit((plan) => {
        const free = freeStretch(plan.stretches, at, this.desk.route?.length ?? 0)
        if (free === undefined) return plan
        const added = addStretch(plan, free.start, free.end)
        id = added.id
        return added.plan
      })
    this.selectedStretch = id ?? this.selectedStretch
    return id
  }

  /** Moves an end of a stretch as part of a gesture, no farther than its neighbour, the route and its other end. */
  dragStretch(id: string, end: StretchEnd, distance: number): void {
    this.desk.preview((plan) => moveStretchEnd(plan, id, end, distance, this.desk.route?.length ?? 0))
  }

  /** Moves an end of a stretch by some metres, as one step. */
  nudgeStretch(id: string, end: StretchEnd, by: number): void {
    const stretch = this.desk.plan?.stretches.find((stretch) => stretch.id === id)
    if (stretch !== undefined)
      this.desk.edit((plan) => moveStretchEnd(plan, id, end, stretch[end] + by, this.desk.route?.length ?? 0))
  }

  /** Shows the fields of a stretch. */
  askStretch(id: string): void {
    this.desk.setView({ sheetOpen: true })
    this.selectedStretch = id
    this.askedStretch = id
  }

  /** Removes a stretch, and says so. */
  removeStretch(id: string): void {
    const stretch = this.desk.plan?.stretches.find((stretch) => stretch.id === id)
    if (stretch === undefined) return
    this.desk.edit((plan) => removeStretch(plan, id))
    if (this.selectedStretch === id) this.selectedStretch = undefined
    this.desk.messages.say({ subject: 'step', kind: 'news', said: { code: 'stretchRemoved', stretch } })
  }

  #held(distance: number): number {
    return Math.min(Math.max(distance, 0), this.desk.route?.length ?? 0)
  }
}
