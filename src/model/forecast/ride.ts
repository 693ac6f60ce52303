import { Batteries, type Packed } from './batteries'
import { Sources } from './sources'
import type { RideState } from './state'

/** A ride under way: a RideState that is changed from station to station, with its packs and sources at work. */
export class Ride {
  station = 0
  leaving = false
  time = 0
  ridingTime = 0
  speed = 0
  change = 0
  settling = 0
  freshness = 1
  riderWork = 0
  motorWork = 0
  motorEnergy = 0
  electronics = 0
  reserveAt: number | null = null
  emptyAt: number | null = null
  readonly batteries: Batteries
  readonly sources: Sources

  constructor(prepared: Packed) {
    this.batteries = new Batteries(prepared)
    this.sources = new Sources(prepared.plan)
  }

  /** Goes on from a state, of a ride by the same plan. */
  restore(state: RideState): void {
    const { packs, active, sources, ...rest } = state
    Object.assign(this, rest)
    this.batteries.restore(packs, active)
    this.sources.restore(sources)
  }

  /** The ride as it is now. */
  state(): RideState {
    const {
      station,
      leaving,
      time,
      ridingTime,
      speed,
      change,
      settling,
      freshness,
      riderWork,
      motorWork,
      motorEnergy,
      electronics,
    } = this
    return {
      station,
      leaving,
      time,
      ridingTime,
      speed,
      change,
      settling,
      freshness,
      riderWork,
      motorWork,
      motorEnergy,
      electronics,
      packs: this.batteries.packs.map(({ charge, drained, loss }) => ({ charge, drained, loss })),
      active: this.batteries.active,
      sources: this.sources.charges(),
      reserveAt: this.reserveAt,
      emptyAt: this.emptyAt,
    }
  }

  /** Stands still for a time, s. */
  stand(time: number): void {
    this.time += time
    this.speed = 0
    this.change = 0
    this.settling = 0
  }
}
