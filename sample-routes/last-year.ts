import type { FilePoint } from './record'
import { gpx } from './gpx'
import { toLonLat } from './plane'
import { between, makeRandom, normal, smoothNoise } from './random'
import type { Design } from './roads'
import type { Road } from './truth'

/**
 * Last year's ride of the first sample: another rider on a heavier bike with four packs, in other weather. It is ridden here by a plain integration in
 * time of its own, not by the forecast, so that what is learnt from it is checked by something else.
 */
const truth = {
  rider: { mass: 92, power: 104, climbFactor: 1.2, fade: 0.045 },
  bike: { mass: 31, luggage: 17, dragArea: 0.67, rolling: 0.0092 },
  assist: { ratio: 0.8, climbRatio: 1.25 },
  weather: { windSpeed: 5.5, windFromDegrees: 205, temperatureCelsius: 11 },
} as const

/** What the rider would have stated of that day: bike and load as weighed, the wind as forecast, the rest as a plan begins. */
const stated: Record<string, unknown> = {
  start: '2026-06-20T05:40',
  'rider.mass': 91,
  'bike.mass': 31,
  'bike.luggage': 18,
  'assist.ratio': 1,
  'assist.climbRatio': 1.5,
  'weather.windSpeed': 4,
  'weather.windFromDegrees': 225,
  'weather.temperatureCelsius': 12,
}

const seed = 1661
/** 05:40 by the islands' clock, which is ten hours behind UTC */
const start = Date.parse('2026-06-20T15:40:00Z') / 1000
const packs = 4
const packMass = 3
/** of one pack, from full to where the motor stops, Wh: 10 cells in series of 13.9 Ah at 3.67 V on average, 92 % of it */
const usableOfPack = 469

/** by name of the place, or by distance, m; s */
const rests: Record<string, number> = { 'Tide Mill at Pellorick': 1260, Hallomund: 2700, 'Tollan Spring': 1080 }
const shortHalts = [
  [9300, 95],
  [31_200, 160],
  [58_400, 75],
  [78_900, 210],
  [112_300, 120],
  [149_600, 65],
] as const
const passage = { waits: 1620, sails: 2280, lands: 260 }

const gravity = 9.8
const roughness = 0.1
/** wind at 1.5 m over that at 10 m, log law */
const windShare = Math.log(1.5 / roughness) / Math.log(10 / roughness)
const step = 0.5 // s

interface Moment {
  /** s since the start */
  time: number
  distance: number
}

/** The ride in time: where the rider was every half second, and what left the packs. */
function ridden(road: Road) {
  const { points, distance, curvature, starts, profile } = road
  const length = distance.at(-1)!
  const mass = truth.rider.mass + truth.bike.mass + truth.bike.luggage + packs * packMass
  const uneven = smoothNoise(makeRandom(seed, 'legs'), 0.08, 900, length)
  const halts = [
    ...shortHalts.map(([at, seconds]) => ({ distance: at as number, time: seconds as number })),
    ...Object.entries(rests).map(([name, time]) => ({
      distance: road.places.find((one) => one.name === name)!.distance,
      time,
    })),
  ].sort((a, b) => a.distance - b.distance)
  const quay = distance[starts[1]!]!
  const limits = speedLimits(distance, curvature, [...halts.map((halt) => halt.distance), quay, length])
  const density = (101_325 / (287.05 * (273.15 + truth.weather.temperatureCelsius))) * 0.996
  const wind = windShare * truth.weather.windSpeed
  const from = (truth.weather.windFromDegrees * Math.PI) / 180

  const way: Moment[] = [{ time: 0, distance: 0 }]
  const halted: { distance: number; arrive: number; time: number }[] = []
  let [time, at, speed, work, used, crossed] = [0, 0, 0.5, 0, 0, false]
  let next = 0
  let index = 0
  const stand = (seconds: number) => {
    halted.push({ distance: at, arrive: time, time: seconds })
    time += seconds
    speed = 0.5
    way.push({ time, distance: at })
  }
  let crossing = { from: 0, sails: 0, lands: 0, to: 0 }
  while (at < length - 0.5) {
    if (next < halts.length && at >= halts[next]!.distance - 0.5) stand(halts[next++]!.time)
    if (!crossed && at >= quay - 0.5) {
      crossed = true
      const sails = time + passage.waits
      crossing = { from: time, sails, lands: sails + passage.sails, to: sails + passage.sails + passage.lands }
      halted.push({ distance: quay, arrive: time, time: passage.waits })
      halted.push({ distance: quay, arrive: crossing.lands, time: passage.lands })
      time = crossing.to
      at = quay + 0.5
      speed = 0.5
      way.push({ time, distance: at })
    }
    while (index < distance.length - 2 && distance[index + 1]! <= at) index++
    const gradient = (profile.elevationAt(at + 8) - profile.elevationAt(at - 8)) / 16
    const [[x0, y0], [x1, y1]] = [points[index]!, points[index + 1]!]
    const heading = Math.atan2(x1 - x0, y1 - y0)
    const along = speed + wind * Math.cos(from - heading)
    const across = wind * Math.sin(from - heading)
    const climb = Math.min(1, Math.max(0, (gradient - 0.01) / 0.04))
    const fresh = Math.exp((-truth.rider.fade * work) / (180 * 3600))
    const pedals = Math.min(1, Math.max(0, (32 - speed * 3.6) / 2))
    const power =
      truth.rider.power * (1 + (truth.rider.climbFactor - 1) * climb) * fresh * pedals * Math.exp(uneven(at))
    const ratio = truth.assist.ratio + (truth.assist.climbRatio - truth.assist.ratio) * climb
    const helped = Math.min(ratio * power, 450, (80 / 0.35) * speed) * Math.min(1, Math.max(0, (25 - speed * 3.6) / 2))
    const resistance =
      0.5 * density * (truth.bike.dragArea + 0.0044) * Math.hypot(along, across) * along +
      truth.bike.rolling * mass * gravity +
      0.091 +
      0.0087 * speed +
      (mass * gravity * gradient) / Math.sqrt(1 + gradient * gradient)
    const free = Math.min(0.6, ((0.95 * (power + helped)) / Math.max(speed, 0.5) - resistance) / (mass + 3))
    const limit = valueAt(distance, limits, index, at)
    const wanted = speed + free * step
    const eased = wanted > limit
    const kept = eased
      ? Math.max(0, Math.min(1, ((limit - speed) / step + resistance / mass) / (free + resistance / mass)))
      : 1
    speed = Math.max(0.5, Math.min(wanted, limit))
    work += kept * power * step
    const motor = kept * helped
    used += ((motor * (1 + 0.0013 * Math.min(motor, 200)) + 5 + 3) * 1.02 * step) / 3600
    at += speed * step
    time += step
    way.push({ time, distance: at })
  }
  return { way, halted, crossing, quay, used, time }
}

/** Fastest speed at each point of the road by bends, the rider and the places where he stops, with the braking before. */
function speedLimits(distance: readonly number[], curvature: readonly number[], stops: readonly number[]): number[] {
  const limits = curvature.map((bend) => Math.min(40 / 3.6, Math.sqrt(2.2 / Math.max(bend, 1e-6))))
  for (const stop of stops) limits[distance.findLastIndex((at) => at <= stop)] = 0.8
  for (let i = limits.length - 2; i >= 0; i--)
    limits[i] = Math.min(limits[i]!, Math.sqrt(limits[i + 1]! ** 2 + 2 * 1.5 * (distance[i + 1]! - distance[i]!)))
  return limits
}

function valueAt(at: readonly number[], column: readonly number[], index: number, place: number): number {
  const width = at[index + 1]! - at[index]!
  const share = width > 0 ? Math.min(1, Math.max(0, (place - at[index]!) / width)) : 0
  return column[index]! + share * (column[index + 1]! - column[index]!)
}

/** What a receiver with a barometer wrote of it, on board too. */
function written(road: Road, { way, crossing, quay, time }: ReturnType<typeof ridden>): FilePoint[] {
  const random = makeRandom(seed, 'receiver')
  const drift = smoothNoise(makeRandom(seed, 'barometer'), 3, 2400, time)
  const keeps = (seconds: number) => Math.exp(-seconds / 60)
  const error: [number, number] = [3 * normal(random), 3 * normal(random)]
  const points: FilePoint[] = []
  let [i, index, last] = [0, 0, 0]
  for (let now = 0; now <= Math.floor(time); now += Math.round(between(random, 6, 13))) {
    while (i < way.length - 1 && way[i + 1]!.time <= now) i++
    const place = way[i]!.distance
    const k = keeps(now - last)
    last = now
    for (const axis of [0, 1] as const) error[axis] = k * error[axis] + Math.sqrt(1 - k * k) * 3 * normal(random)
    while (index < road.distance.length - 2 && road.distance[index + 1]! <= place) index++
    const aboard = now > crossing.from && now < crossing.to
    const sailed = Math.min(1, Math.max(0, (now - crossing.sails) / (crossing.lands - crossing.sails)))
    const [from, to] = aboard
      ? [road.points[road.starts[1]! - 1]!, road.points[road.starts[1]!]!]
      : [road.points[index]!, road.points[index + 1]!]
    const width = road.distance[index + 1]! - road.distance[index]!
    const share = aboard ? sailed : width > 0 ? Math.min(1, Math.max(0, (place - road.distance[index]!) / width)) : 0
    const height = road.profile.elevationAt(aboard ? quay : place) + drift(now) + 0.2 * normal(random)
    points.push({
      at: toLonLat([from[0] + share * (to[0] - from[0]) + error[0], from[1] + share * (to[1] - from[1]) + error[1]]),
      elevation: Math.round(height / 0.2) * 0.2,
      time: start + now,
    })
  }
  return points
}

/** File and truth of last year's ride by their names. */
export function lastYear(design: Design, road: Road): [name: string, text: string][] {
  const ride = ridden(road)
  const round = (value: number, decimals = 1) => Number(value.toFixed(decimals))
  const left = (used: number) => Math.round(100 * (1 - used / (packs * usableOfPack)))
  const name = 'two-islands-last-year'
  const title = { title: 'Two islands, last year', description: 'A recorded ride of the same day a year before.' }
  const told = {
    about: 'Made by sample-routes/last-year.ts: the invented truth behind the recording of the same name.',
    seed,
    truth,
    packs: { count: packs, usableWh: usableOfPack, usedWh: round(ride.used) },
    /** what the rider noted of all four packs */
    charge: { startPercent: 100, endPercent: left(ride.used) },
    stated,
    halts: ride.halted.map(({ distance, arrive, time }) => ({
      distance: round(distance),
      arrive: round(arrive),
      time,
    })),
    crossing: {
      distance: round(ride.quay),
      leaves: round(ride.crossing.sails),
      lands: round(ride.crossing.lands),
    },
    elapsed: round(ride.time),
  }
  return [
    [`last-year/${name}.gpx`, gpx({ ...design, ...title }, { ...road, places: [] }, [written(road, ride)])],
    [`last-year/${name}.truth.json`, `${JSON.stringify(told, undefined, 2)}\n`],
  ]
}
