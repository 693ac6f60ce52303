/**
 * What the smoother leaves of noise. At a frequency f, 1/m, its gain is 1 / (1 + (wavelength · f)⁴), with the half-gain wavelength of
 * `penalties`. Noise is taken as white along the way, of a density: variance of one value times the distance between values. Its variance in
 * the line is the density times the integral of gain² over all f; closed forms by ∫ df / (1 + f⁴) = π / √2 and ∫ df / (1 + f⁴)² = ¾ π / √2.
 */
const WHOLE = Math.PI / Math.SQRT2

/**
 * Variance of a smoothed line of noise of density 1, 1/m.
 *
 * @param wavelength half-gain wavelength, m
 */
export function noiseLeft(wavelength: number): number {
  return (0.75 * WHOLE) / wavelength
}

/**
 * Variance of the difference of two smoothed lines of the same noise of density 1, 1/m.
 *
 * @param short half-gain wavelength of the one, m
 * @param long half-gain wavelength of the other, m; longer
 */
export function noiseBetween(short: number, long: number): number {
  const ratio = long / short
  const common = (WHOLE * (ratio ** 3 - 1)) / (ratio ** 4 - 1) / short
  return noiseLeft(short) + noiseLeft(long) - 2 * common
}

/**
 * Half-gain wavelength, m, at which the second derivative of a smoothed line of noise has a given standard deviation: its variance is
 * density · ∫ (2πf)⁴ gain² df = density · (2π)⁴ · ¼ π / √2 / wavelength⁵.
 *
 * @param density of the noise, m³
 * @param deviation of the second derivative, 1/m
 */
export function wavelengthForCurvature(density: number, deviation: number): number {
  return (((2 * Math.PI) ** 4 * WHOLE * density) / (4 * deviation * deviation)) ** (1 / 5)
}
