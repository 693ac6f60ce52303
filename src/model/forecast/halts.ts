import { passageOf, windowsOf, type Window } from '../world/controls'
import { nextSailing } from '../world/sailings'
import { crossingsFor } from '../plan/crossings'
import { night } from '../ride/rider'
import type { Plan, PlanCrossing, PlanSource, PlanStop } from '../plan/schema'
import { chargesToShare, stay } from '../plan/stop-goal'
import type { Route } from '../route/route'
import type { Halt, PackCharge } from './outcome'
import type { Ride } from './ride'
import { byStation } from '../route/nearest'

/** Where no sailing is found within a week, the crossing is taken to last this long, s. */
const noSailing = 8 * 86_400

/** Where and how long the rider stands still, and what is done then: stops, swaps of packs, controls that are not yet open, crossings. */
export class Halts {
  private readonly stops: Map<number, PlanStop[]>
  private readonly controls: Map<number, Window[]>
  private readonly gaps: Map<number, number>
  private readonly crossings: PlanCrossing[]
  /** 1 where a stop, a control or a crossing lies. */
  readonly eventful: Uint8Array

  constructor(
    private readonly route: Route,
    private readonly plan: Plan,
    private readonly zone: string,
    private readonly started: number,
  ) {
    this.stops = byStation(route, plan.stops)
    this.controls = byStation(route, windowsOf(plan.controls, null, plan.start, zone, route.length))
    this.gaps = new Map(route.crossings.map((crossing, gap) => [route.sections[crossing.after]!.last, gap]))
    this.crossings = crossingsFor(route, plan)
    this.eventful = new Uint8Array(route.stations.distance.length)
    for (const station of this.places()) this.eventful[station] = 1
  }

  /** Stations at which the rider is to stand. */
  places(): number[] {
    return [...this.stops.keys(), ...this.controls.keys(), ...this.gaps.keys()]
  }

  /**
   * All that happens at a station, in order: stops, waiting for a control, a swap where the pack in use is spent, a crossing. From a night the rider
   * sets out fresh.
   *
   * @param ride just arrived; stands still for it, with packs and sources changed
   * @param list where halts are noted
   */
  arrive(station: number, ride: Ride, list?: Halt[]): void {
    const arrived = ride.time
    const stops = this.stops.get(station)
    if (stops !== undefined) for (const stop of stops) this.stop(station, ride, stop, list)
    const controls = this.controls.get(station)
    if (controls !== undefined) for (const control of controls) this.control(station, ride, control, list)
    if (ride.batteries.inUse.spent && ride.batteries.hasAnother)
      this.swap(station, ride, stops === undefined ? this.plan.battery.swapTime : 0, list)
    const gap = this.gaps.get(station)
    if (gap !== undefined) this.cross(station, ride, gap, list)
    if (ride.time - arrived >= night) ride.freshness = 1
  }

  private stop(station: number, ride: Ride, stop: PlanStop, list?: Halt[]): void {
    const source = this.plan.sources.find(({ id }) => id === stop.source)
    this.halt('stop', station, ride, source, list, () => {
      const { batteries, sources } = ride
      if (source === undefined) return { stop: stop.id, time: stop.duration }
      if (source.kind === 'swap') return { stop: stop.id, time: stop.duration, swap: batteries.swap() }
      const timed = chargesToShare(stop) ? { share: stop.chargeTo } : { time: stop.duration }
      const charges: PackCharge[] | undefined = list && []
      const { time: charging, ...result } = batteries.chargeBy(source, sources, timed, stop.fillFirst, charges)
      const refused = result.refusal !== undefined && charging === 0
      return {
        stop: stop.id,
        time: refused ? stop.duration : stay(stop, charging),
        ...(charges && { charges }),
        ...result,
      }
    })
  }

  private control(station: number, ride: Ride, control: Window, list?: Halt[]): void {
    const { early } = passageOf(control, this.started + ride.time)
    if (early > 0) this.halt('control', station, ride, undefined, list, () => ({ control: control.id, time: early }))
  }

  private swap(station: number, ride: Ride, time: number, list?: Halt[]): void {
    this.halt('swap', station, ride, undefined, list, () => ({ time, swap: ride.batteries.swap() }))
  }

  private cross(station: number, ride: Ride, gap: number, list?: Halt[]): void {
    const { timetable, source: id, fillFirst } = this.crossings[gap]!
    const instant = this.started + ride.time
    const sailing = nextSailing(timetable, instant, this.zone)
    const time = sailing === undefined ? noSailing : sailing.arrive - instant
    const source = this.plan.sources.find((source) => source.id === id)
    this.halt('crossing', station, ride, source, list, () => {
      const said = { gap, time, ...(sailing !== undefined && { sailing }) }
      if (source === undefined) return said
      if (source.kind === 'swap') return { ...said, swap: ride.batteries.swap() }
      const charges: PackCharge[] | undefined = list && []
      const { refusal } = ride.batteries.chargeBy(source, ride.sources, { time }, fillFirst, charges)
      return { ...said, ...(charges && { charges }), ...(refusal !== undefined && { refusal }) }
    })
  }

  /** Stands still for what is done in a halt, and notes it with the charge before and after. */
  private halt(
    kind: Halt['kind'],
    station: number,
    ride: Ride,
    source: PlanSource | undefined,
    list: Halt[] | undefined,
    act: () => Partial<Halt> & { time: number },
  ): void {
    if (list === undefined) {
      ride.stand(act().time)
      return
    }
    const { batteries, sources, time: arrive } = ride
    const leftBefore = batteries.left()
    const packsBefore = batteries.packs.map(({ charge }) => charge)
    const before = source && sources.left(source.id)
    const { time, ...done } = act()
    ride.stand(time)
    const after = source && sources.left(source.id)
    list.push({
      kind,
      station,
      distance: this.route.stations.distance[station]!,
      arrive,
      depart: arrive + time,
      leftBefore,
      leftAfter: batteries.left(),
      packsBefore,
      ...(before !== undefined && after !== undefined && { carried: { before, after } }),
      charges: [],
      ...done,
    })
  }
}
