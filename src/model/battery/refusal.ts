import { voltageTolerance } from './charge'
import { chemistries } from './chemistry'
import { checkConverter, volts, type Converter } from './converter'
import { fullVoltage, type Pack, type PackSpec } from './pack'

/**
 * Why a pack must not be charged from a carried one through this converter, as one sentence; undefined where it may be. That a converter cannot reach
 * the voltage is no refusal: nothing flows then.
 *
 * @param source the carried pack
 * @param converter its set voltage may be up to 0.5 % above the pack's full voltage
 * @param pack the bike's pack, at its temperature; below 0 and above 45 °C is refused
 */
export function refusal(source: Pack, converter: Converter, pack: Pack): string | undefined {
  const fault = checkConverter(converter)
  if (fault !== undefined) return fault
  const full = pack.series * pack.chemistry.chargeLimitVoltage
  const { leastChargeTemperature: least, mostChargeTemperature: most } = pack.chemistry
  if (converter.voltage > full * (1 + voltageTolerance)) {
    return `The ${volts(converter.voltage)} set would overcharge this pack, which is full at ${volts(full)}.`
  }
  if (!(pack.temperature >= least)) return `Lithium cells must not be charged below ${least} °C.`
  if (pack.temperature > most) return `This pack must not be charged above ${most} °C.`
  if (pack.spec.chargeCurrent <= 0) return 'This pack takes no charging current.'
  const sourceFull = source.series * source.chemistry.chargeLimitVoltage
  if (sourceFull > converter.inputVoltageMost) {
    return `The carried pack’s ${volts(sourceFull)} when full would break this converter, which takes ${volts(converter.inputVoltageMost)} at most.`
  }
  return undefined
}

/**
 * Why a pack must not be charged at all after its voltage was measured at rest, as one sentence; undefined where it may be.
 *
 * @param spec a bike's pack or a carried one
 * @param voltage at its terminals, at rest, V
 */
export function checkRestVoltage(spec: PackSpec, voltage: number): string | undefined {
  const { hardLowVoltage } = chemistries[spec.chemistry]
  const least = spec.series * hardLowVoltage
  if (voltage < least) {
    return `At ${volts(voltage)} its cells are below ${hardLowVoltage} V: they may be harmed and must not be charged again.`
  }
  const most = fullVoltage(spec) * (1 + voltageTolerance)
  return voltage > most
    ? `${volts(voltage)} is above the ${volts(fullVoltage(spec))} of this pack when full: check what it is.`
    : undefined
}
