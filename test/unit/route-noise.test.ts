import { describe, expect, it } from 'vitest'
import { noiseBetween, noiseLeft, wavelengthForCurvature } from '../../src/model/route/noise'
import { penalties } from '../../src/model/route/smooth'
import { within } from '../asserts'
import { normal } from '../profiles'
import { whittaker } from '../reference/smoothing'

/** Whittaker's gain at a frequency, 1/m, as its own difference equation has it (Eilers 2003), in the limit of a fine grid. */
const gain = (frequency: number, wavelength: number) => 1 / (1 + (wavelength * frequency) ** 4)

/** Over all frequencies, by the midpoint rule in the logarithm. */
function integral(f: (frequency: number) => number): number {
  let sum = 0
  const step = 0.001
  for (let x = -16; x < 4; x += step) sum += 2 * f(Math.exp(x + step / 2)) * Math.exp(x + step / 2) * step
  return sum
}

describe('what smoothing leaves of noise', () => {
  it('is the integral of its gain, squared, over all frequencies', () => {
    for (const [short, long] of [
      [30, 60],
      [60, 120],
      [60, 2000],
    ] as const) {
      const left = integral((f) => gain(f, short) ** 2)
      const between = integral((f) => (gain(f, short) - gain(f, long)) ** 2)
      within(noiseLeft(short), left, 1e-5, `${short} m`)
      within(noiseBetween(short, long), between, 1e-5, `${short} and ${long} m`)
    }
  })

  it('is what the smoother itself leaves of 200,000 values, in height and in curvature', () => {
    const noise = normal(8)
    const spacing = 5
    const values = Float64Array.from({ length: 200_000 }, () => 3 * noise())
    const density = 9 * spacing
    const wavelength = wavelengthForCurvature(density, 0.004)
    const lambda = penalties({ nodes: 2, spacing }, wavelength)[0]!
    const line = whittaker(values, lambda)
    const rms = (column: Float64Array) => Math.sqrt(column.reduce((sum, x) => sum + x * x, 0) / column.length)
    within(rms(line), Math.sqrt(density * noiseLeft(wavelength)), 0.02, 'height')
    const second = line.subarray(1, -1).map((z, i) => (line[i]! - 2 * z + line[i + 2]!) / spacing ** 2)
    within(rms(second), 0.004, 0.02, 'curvature')
    expect(wavelength).toBeGreaterThan(50)
  })
})
