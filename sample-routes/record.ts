import { type LonLat, type Metres, toLonLat } from './plane'
import { between, makeRandom, normal, type Random, smoothNoise } from './random'
import type { Design } from './roads'
import { ridingTimes } from './speed'
import type { Road } from './truth'

/** A point as it stands in the file. */
export interface FilePoint {
  at: LonLat
  /** m */
  elevation: number
  /** seconds since 1970, whole; only in a recording */
  time?: number
}

/** What a receiver or a planner would have written of the road: points of each part, 8 to 25 m apart, with noise. */
export function record(road: Road, route: Design): FilePoint[][] {
  const where = route.recorded ? recordedPlaces(road, route, route.recorded) : plannedPlaces(road, route.seed)
  const blur = blurred(road, route)
  return where.map((part) => part.map((place) => blur(place)))
}

/** A place on the road: index of the dense point before it, how far on from it (0 to 1), and when. */
interface Place {
  index: number
  share: number
  time?: number
}

function plannedPlaces(road: Road, seed: number): Place[][] {
  const random = makeRandom(seed, 'spacing')
  return road.starts.map((start, part) => {
    const last = (road.starts[part + 1] ?? road.points.length) - 1
    const places: Place[] = [{ index: start, share: 0 }]
    for (;;) {
      const { index, share } = places.at(-1)!
      const here = distanceAt(road, index, share)
      const step = road.curvature[index]! > 1 / 150 ? between(random, 8, 13) : between(random, 10, 22)
      if (here + step > road.distance[last]! - 8) break
      places.push(placeAt(road.distance, here + step, index, last))
    }
    return [...places, { index: last, share: 0 }]
  })
}

function recordedPlaces(road: Road, route: Design, { start, rests }: NonNullable<Design['recorded']>): Place[][] {
  const random = makeRandom(route.seed, 'spacing')
  const times = ridingTimes(road, route.seed)
  const last = road.points.length - 1
  const waiting = Object.entries(rests).map(([name, seconds]) => {
    const place = road.places.find((candidate) => candidate.name === name)
    if (!place) throw new Error(`There is no place called ${name} to rest at.`)
    return { distance: place.distance, seconds }
  })
  const set = Date.parse(start) / 1000
  const places: Place[] = [{ index: 0, share: 0, time: set }]
  let clock = 0
  let rested = 0
  for (;;) {
    const { index, share } = places.at(-1)!
    const here = distanceAt(road, index, share)
    const rest = waiting.find(({ distance }) => distance <= here)
    if (rest) {
      rested += rest.seconds
      waiting.splice(waiting.indexOf(rest), 1)
    }
    clock += secondsTo(times, road.distance, here, clock, index, between(random, 8, 17), last)
    if (clock >= times[last]! - 2) break
    places.push({ ...placeAt(times, clock, index, last), time: set + rested + clock })
  }
  return [[...places, { index: last, share: 0, time: set + rested + Math.ceil(times[last]!) }]]
}

/** Whole seconds until the rider has gone at least so far. */
function secondsTo(
  times: readonly number[],
  distance: readonly number[],
  here: number,
  clock: number,
  index: number,
  step: number,
  last: number,
): number {
  for (let seconds = 1; ; seconds++) {
    const ahead = placeAt(times, clock + seconds, index, last)
    if (ahead.index >= last) return seconds
    const next = distance[ahead.index]! * (1 - ahead.share) + distance[ahead.index + 1]! * ahead.share
    if (next - here >= step) return seconds
  }
}

function distanceAt({ distance }: Road, index: number, share: number): number {
  return distance[index]! * (1 - share) + (distance[index + 1] ?? 0) * share
}

/** Where an ascending column reaches a value, looked for from an index on. */
function placeAt(column: readonly number[], value: number, from: number, last: number): Place {
  let index = from
  while (index < last && column[index + 1]! <= value) index++
  if (index >= last) return { index: last, share: 0 }
  return { index, share: (value - column[index]!) / (column[index + 1]! - column[index]!) }
}

/** Adds the design's noise to a place: position error in metres east and north, elevation error by kind. */
function blurred(road: Road, { seed, noise }: Design): (place: Place) => FilePoint {
  const end = road.distance.at(-1)!
  const curve = (purpose: string, { deviation, spacing }: { deviation: number; spacing: number }) =>
    smoothNoise(makeRandom(seed, purpose), deviation, spacing, end)
  const east = [curve('east drift', noise.drift), curve('east wobble', noise.wobble)]
  const north = [curve('north drift', noise.drift), curve('north wobble', noise.wobble)]
  const slow = [curve('slow', noise.elevation.drift), curve('correlated', noise.elevation.correlated)]
  const white = makeRandom(seed, 'white')
  const spikes = makeRandom(seed, 'spikes')
  return ({ index, share, time }) => {
    const place = distanceAt(road, index, share)
    const sum = (curves: ((place: number) => number)[]) => curves.reduce((total, one) => total + one(place), 0)
    const [x, y] = onRoad(road.points, index, share)
    const error = sum(slow) + noise.elevation.white * normal(white) + spike(spikes, noise.elevation.spikes)
    const elevation =
      Math.round((road.profile.elevationAt(place) + error) / noise.elevation.step) * noise.elevation.step
    return { at: toLonLat([x + sum(east), y + sum(north)]), elevation, ...(time === undefined ? {} : { time }) }
  }
}

function onRoad(points: readonly Metres[], index: number, share: number): Metres {
  const [from, to] = [points[index]!, points[index + 1] ?? points[index]!]
  return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
}

function spike(random: Random, { share, height }: { share: number; height: number }): number {
  return random() < share ? between(random, 0.4, 1) * height * (random() < 0.5 ? -1 : 1) : 0
}
