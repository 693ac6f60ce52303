import { makeRandom, smoothNoise } from './random'
import type { Road } from './truth'

/** Speeds of a loaded e-bike by gradient, made up to look plausible: percent and km/h. */
const speeds = [
  [-12, 33],
  [-7, 38],
  [-3, 32],
  [-1, 26],
  [0, 23.5],
  [2, 20.5],
  [4, 17],
  [6, 14],
  [8, 11.5],
  [10, 9.5],
  [13, 8],
] as const

const acrossRoad = 2.2
const gettingFaster = 0.35
const slowing = 0.8
const settingOff = 1.2

/**
 * Riding time to each point of a road, s: a speed by gradient, held down in bends and towards the end, with a seeded
 * unevenness of a few percent.
 */
export function ridingTimes({ distance, curvature, profile }: Road, seed: number): number[] {
  const end = distance.at(-1)!
  const uneven = smoothNoise(makeRandom(seed, 'pace'), 0.05, 700, end)
  const speed = distance.map((place, i) => {
    const gradient = (profile.elevationAt(place + 10) - profile.elevationAt(place - 10)) / 20
    const bend = Math.sqrt(acrossRoad / Math.max(curvature[i]!, 1e-6))
    return Math.min((speedAt(gradient * 100) / 3.6) * (1 + uneven(place)), bend)
  })
  speed[0] = settingOff
  speed[speed.length - 1] = settingOff
  for (let i = 1; i < speed.length; i++)
    speed[i] = reachable(speed[i - 1]!, speed[i]!, distance[i]! - distance[i - 1]!, gettingFaster)
  for (let i = speed.length - 2; i >= 0; i--)
    speed[i] = reachable(speed[i + 1]!, speed[i]!, distance[i + 1]! - distance[i]!, slowing)
  let time = 0
  return speed.map((here, i) => {
    if (i > 0) time += (2 * (distance[i]! - distance[i - 1]!)) / (here + speed[i - 1]!)
    return time
  })
}

function reachable(from: number, wanted: number, distance: number, acceleration: number): number {
  return Math.min(wanted, Math.sqrt(from * from + 2 * acceleration * distance))
}

function speedAt(percent: number): number {
  const i = Math.max(
    1,
    speeds.findIndex(([gradient]) => gradient >= percent),
  )
  const [[lowGradient, low], [highGradient, high]] =
    percent > 13 ? [speeds[9], speeds[10]] : [speeds[i - 1]!, speeds[i]!]
  const share = Math.min(1, Math.max(0, (percent - lowGradient) / (highGradient - lowGradient)))
  return low + (high - low) * share
}
