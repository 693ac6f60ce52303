import { fitted, medianAbsolute, smoothOver, weightsByLength } from './smooth'

/** Half-gain wavelengths that the elevation smoother may take, m. */
const SHORTEST = 200
const LONGEST = 3000

/**
 * Half-gain wavelength for the elevation smoother, from the data.
 *
 * @param at ridden distance of each elevation, m, ascending from 0
 * @param elevation m, all known
 * @returns m
 */
export function elevationWavelength(at: Float64Array, elevation: Float64Array): number {
  return Math.min(LONGEST, Math.max(SHORTEST, byNoise(at, elevation), byCrossValidation(at, elevation)))
}

export function byNoise(at: Float64Array, e: Float64Array): number {
  const second = new Float64Array(Math.max(0, e.length - 2))
  for (let i = 0; i < second.length; i++) second[i] = e[i]! - 2 * e[i + 1]! + e[i + 2]!
  const noise = medianAbsolute(second) / 0.6745 / Math.sqrt(6)
  const spacing = at[at.length - 1]! / (at.length - 1)
  return Math.cbrt((21.93 * noise * noise * spacing) / 0.003 ** 2)
}

export function byCrossValidation(at: Float64Array, value: Float64Array): number {
  const length = at[at.length - 1]!
  const m = at.length
  const nodes = Math.max(3, Math.min(Math.round(length / 20), 50_000)) + 1
  const spacing = length / (nodes - 1)
  const weight = weightsByLength(at, spacing)
  let best = SHORTEST
  let least = Infinity
  for (let wavelength = SHORTEST; wavelength <= LONGEST; wavelength *= 1.25) {
    const fit = fitted(smoothOver({ at, value, weight }, { nodes, spacing }, wavelength), at, spacing)
    let sum = 0
    for (let i = 0; i < m; i++) sum += weight[i]! * (value[i]! - fit[i]!) ** 2
    const freedom = Math.min(0.99, (2.22 * length) / wavelength / m)
    const score = sum / (1 - freedom) ** 2
    if (score < least) {
      least = score
      best = wavelength
    }
  }
  return best
}
