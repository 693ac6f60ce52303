import { rideOn, type Sink } from '../forecast/forecast'
import { ridingMass } from '../forecast/mass'
import { prepare } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import { stateOf } from '../forecast/columns-sink'
import type { Plan } from '../plan/schema'
import { footCause, type FootCause } from '../readings/on-foot'
import type { StepConditions } from '../ride/forces'
import { walking, type Motion } from '../ride/motion'
import type { Route } from '../route/route'

/** A place where a little mass decides whether one rides or walks. */
export interface FootEdge {
  /** How much heavier the ride is, or lighter, when it tips, kg; to half a kilogram. */
  mass: number
  /** Ridden distance of the first place that is ridden on one side and walked on the other, m; and why it is walked there. */
  distance: number
  cause: FootCause
  /** All that was tried, kg; and how much more, or less, is then walked in all, m; negative where it is the other way round. */
  tried: number
  length: number
}

/** How near a plan stands to walking: where more mass makes it walk, and where less mass makes it ride. */
export interface NearWalking {
  heavier: FootEdge | undefined
  lighter: FootEdge | undefined
}

/**
 * Share of the mass within which a plan is near: a hill of 7 % is known to half a point of gradient, which is as much, and a rider's power is known less
 * well.
 */
const within = 0.08
const precision = 0.5 // kg
/** What is walked by both within this of each other is one place, and less than `least` more is none, m. */
const same = 1000
const least = 50

/**
 * Where a plan stands near walking, by whole forecasts with more and with less luggage: two or three, and some more to find the edge where one is near.
 * Not for each frame of a gesture.
 *
 * @param route at least two stations
 * @param plan valid
 */
export function nearWalking(route: Route, plan: Plan): NearWalking {
  const tried = within * ridingMass(plan, route.length)
  const walkWith = (mass: number) => walkOf(route, plan, mass)
  const now = walkWith(0)
  return {
    heavier: edge(route, tried, (mass) => [walkWith(mass), now]),
    lighter: now.length < least ? undefined : edge(route, tried, (mass) => [now, walkWith(-mass)]),
  }
}

/** What is walked of a ride. */
interface Walk {
  /** State bits of each step. */
  states: Uint8Array
  length: number
}

/** @param pair of rides that differ by a mass, kg: the heavier and the lighter */
function edge(route: Route, tried: number, pair: (mass: number) => [Walk, Walk]): FootEdge | undefined {
  const [heavy, light] = pair(tried)
  const length = heavy.length - light.length
  let place = firstOnlyIn(route, heavy, light)
  if (place === undefined) return undefined
  let low = 0
  let mass = tried
  while (mass - low > precision) {
    const middle = 0.5 * (low + mass)
    const there = firstOnlyIn(route, ...pair(middle))
    if (there === undefined) low = middle
    else {
      mass = middle
      place = there
    }
  }
  return { mass, ...place, tried, length }
}

/** The first place that the heavier ride walks and the lighter nowhere near. */
function firstOnlyIn(route: Route, heavy: Walk, light: Walk): Pick<FootEdge, 'distance' | 'cause'> | undefined {
  const { distance } = route.stations
  const near = nearWalked(distance, light.states)
  let length = 0
  let place: Pick<FootEdge, 'distance' | 'cause'> | undefined
  heavy.states.forEach((state, i) => {
    if ((state & walking) === 0 || near[i] === 1) return
    length += distance[i + 1]! - distance[i]!
    place ??= { distance: distance[i]!, cause: footCause(state) }
  })
  return length < least ? undefined : place
}

/** 1 at each station within a kilometre of what is walked. */
function nearWalked(distance: Float64Array, states: Uint8Array): Uint8Array {
  const near = new Uint8Array(states.length)
  const mark = (from: number, to: number, by: 1 | -1) => {
    let walked = -Infinity
    for (let i = from; i !== to; i += by) {
      if ((states[i]! & walking) !== 0) walked = by * distance[i]!
      if (by * distance[i]! - walked < same) near[i] = 1
    }
  }
  mark(0, states.length, 1)
  mark(states.length - 1, -1, -1)
  return near
}

class FootSink implements Sink {
  constructor(readonly states: Uint8Array) {}

  arrive(): void {}
  leave(): void {}
  rode(station: number, step: StepConditions, motion: Motion): void {
    this.states[station] = stateOf(step, motion)
  }
}

/** @param mass more luggage than planned, kg */
function walkOf(route: Route, plan: Plan, mass: number): Walk {
  const { distance } = route.stations
  const prepared = prepare(route, { ...plan, bike: { ...plan.bike, luggage: plan.bike.luggage + mass } })
  const ride = new Ride(prepared)
  const states = new Uint8Array(distance.length)
  rideOn(prepared, ride, { station: distance.length - 1, leaving: false }, new FootSink(states))
  let length = 0
  for (let i = 0; i + 1 < distance.length; i++)
    if ((states[i]! & walking) !== 0) length += distance[i + 1]! - distance[i]!
  return { states, length }
}
