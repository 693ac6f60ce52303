import { passageOf, windowsOf, type Window } from '../world/controls'
import { nextSailing } from '../world/sailings'
import { crossingsFor } from '../plan/crossings'
import type { Plan, PlanCrossing, PlanSource, PlanStop } from '../plan/schema'
import { chargesToShare, stay } from '../plan/stop-goal'
import type { Route } from '../route/route'
import type { Batteries } from './batteries'
import type { Halt } from './outcome'
import { Sources } from './sources'
import { byStation } from '../route/nearest'

/** Where no sailing is found within a week, the crossing is taken to last this long, s. */
const noSailing = 8 * 86_400

/** Where and how long the rider stands still, and what is done then: stops, swaps of packs, controls that are not yet open, crossings. */
export class Halts {
  readonly list: Halt[] = []
  private readonly stops: Map<number, PlanStop[]>
  private readonly controls: Map<number, Window[]>
  private readonly gaps: Map<number, number>
  private readonly crossings: PlanCrossing[]
  private readonly sources: Sources
  /** 1 where a stop, a control or a crossing lies. */
  private readonly eventful: Uint8Array

  constructor(
    private readonly route: Route,
    private readonly plan: Plan,
    private readonly batteries: Batteries,
    private readonly zone: string,
    private readonly started: number,
  ) {
    this.stops = byStation(route, plan.stops)
    this.controls = byStation(route, windowsOf(plan.controls, null, plan.start, zone, route.length))
    this.gaps = new Map(route.crossings.map((crossing, gap) => [route.sections[crossing.after]!.last, gap]))
    this.crossings = crossingsFor(route, plan)
    this.sources = new Sources(plan)
    this.eventful = new Uint8Array(route.stations.distance.length)
    for (const station of this.places()) this.eventful[station] = 1
  }

  /** Stations at which the rider is to stand, the last one included. */
  stations(): number[] {
    return [...this.places(), this.route.stations.distance.length - 1]
  }

  /**
   * All that happens at a station, in order: stops, waiting for a control, a swap where the pack in use is spent, a crossing.
   *
   * @param time of arrival since the start, s
   * @returns how long it takes, s
   */
  arrive(station: number, time: number): number {
    if (this.eventful[station] === 0 && !this.batteries.inUse.spent) return 0
    let now = time
    const stops = this.stops.get(station)
    if (stops !== undefined) for (const stop of stops) now += this.stop(station, now, stop)
    const controls = this.controls.get(station)
    if (controls !== undefined) for (const control of controls) now += this.control(station, now, control)
    if (this.batteries.inUse.spent) now += this.swap(station, now, stops === undefined ? this.plan.battery.swapTime : 0)
    const gap = this.gaps.get(station)
    if (gap !== undefined) now += this.cross(station, now, gap)
    return now - time
  }

  private places(): number[] {
    return [...this.stops.keys(), ...this.controls.keys(), ...this.gaps.keys()]
  }

  private stop(station: number, arrive: number, stop: PlanStop): number {
    const source = this.plan.sources.find(({ id }) => id === stop.source)
    return this.halt('stop', station, arrive, source, () => {
      if (source === undefined) return { stop: stop.id, time: stop.duration }
      if (source.kind === 'swap') return { stop: stop.id, time: stop.duration, swap: this.batteries.swap() }
      const timed = chargesToShare(stop) ? { share: stop.chargeTo } : { time: stop.duration }
      const { time: charging, ...result } = this.batteries.chargeBy(source, this.sources, stop.fillFirst, timed)
      const refused = result.refusal !== undefined && result.charges.length === 0
      return { stop: stop.id, time: refused ? stop.duration : stay(stop, charging), ...result }
    })
  }

  private control(station: number, arrive: number, control: Window): number {
    const { early } = passageOf(control, this.started + arrive)
    return early > 0
      ? this.halt('control', station, arrive, undefined, () => ({ control: control.id, time: early }))
      : 0
  }

  private swap(station: number, arrive: number, time: number): number {
    const swap = this.batteries.swap()
    return swap.on === swap.off ? 0 : this.halt('swap', station, arrive, undefined, () => ({ time, swap }))
  }

  private cross(station: number, arrive: number, gap: number): number {
    const { timetable, source: id, fillFirst } = this.crossings[gap]!
    const instant = this.started + arrive
    const sailing = nextSailing(timetable, instant, this.zone)
    const time = sailing === undefined ? noSailing : sailing.arrive - instant
    const source = this.plan.sources.find((source) => source.id === id)
    return this.halt('crossing', station, arrive, source, () => {
      const said = { gap, time, ...(sailing !== undefined && { sailing }) }
      if (source === undefined) return said
      if (source.kind === 'swap') return { ...said, swap: this.batteries.swap() }
      return { ...this.batteries.chargeBy(source, this.sources, fillFirst, { time }), ...said }
    })
  }

  /** Notes a halt with the charge before and after what is done in it. */
  private halt(
    kind: Halt['kind'],
    station: number,
    arrive: number,
    source: PlanSource | undefined,
    act: () => Partial<Halt> & { time: number },
  ): number {
    const leftBefore = this.batteries.left()
    const packsBefore = this.batteries.packs.map(({ charge }) => charge)
    const before = source && this.sources.left(source.id)
    const { time, ...done } = act()
    const after = source && this.sources.left(source.id)
    this.list.push({
      kind,
      station,
      distance: this.route.stations.distance[station]!,
      arrive,
      depart: arrive + time,
      leftBefore,
      leftAfter: this.batteries.left(),
      packsBefore,
      ...(before !== undefined && after !== undefined && { carried: { before, after } }),
      charges: [],
      ...done,
    })
    return time
  }
}
