import type { MainsCharger } from './charger'
import { chemistries } from './chemistry'
import { checkConverter, type Converter } from './converter'
import { fullVoltage, type Pack, type PackSpec } from './pack'
import { volts } from './volts'

/** A voltage may pass the pack's full voltage by this share: its own setting error. Charging is then reckoned at the full voltage. */
const voltageTolerance = 0.005

/**
 * The one place that decides whether a pack may be charged at a voltage and at its temperature, as one sentence; undefined where it may.
 *
 * @param voltage the most that is held, V
 * @param what holds it, as the sentence begins
 */
function chargeRefusal(
  { chemistry, series, temperature, spec }: Pack,
  voltage: number,
  what: string,
): string | undefined {
  const full = series * chemistry.chargeLimitVoltage
  const { leastChargeTemperature: least, mostChargeTemperature: most } = chemistry
  if (!(voltage <= full * (1 + voltageTolerance)))
    return `${what} would overcharge this pack, which is full at ${volts(full)}.`
  if (!(temperature >= least)) return `Lithium cells must not be charged below ${least} °C.`
  if (!(temperature <= most)) return `This pack must not be charged above ${most} °C.`
  return spec.chargeCurrent > 0 ? undefined : 'This pack takes no charging current.'
}

/**
 * Why a charger must not be used on a pack, as one sentence; undefined where it may be.
 *
 * @param pack at its temperature; below 0 and above 45 °C is refused (`Chemistry.leastChargeTemperature`)
 * @param charger its voltage may be up to 0.5 % above the pack's full voltage
 */
export function chargerRefusal(pack: Pack, charger: MainsCharger): string | undefined {
  if (!(charger.voltage > 0 && charger.current > 0 && charger.efficiency > 0 && charger.efficiency <= 1))
    return 'The charger needs a voltage and a current above 0 and an efficiency above 0 and at most 100 %.'
  return chargeRefusal(pack, charger.voltage, `The charger's ${volts(charger.voltage)}`)
}

/**
 * Why a pack must not be charged from a carried one through this converter, as one sentence; undefined where it may be. That a converter cannot reach
 * the voltage is no refusal: nothing flows then.
 *
 * @param source the carried pack
 * @param converter its set voltage may be up to 0.5 % above the pack's full voltage
 * @param pack the bike's pack, at its temperature; below 0 and above 45 °C is refused
 */
export function refusal(source: Pack, converter: Converter, pack: Pack): string | undefined {
  const fault =
    checkConverter(converter) ?? chargeRefusal(pack, converter.voltage, `The ${volts(converter.voltage)} set`)
  if (fault !== undefined) return fault
  const sourceFull = source.series * source.chemistry.chargeLimitVoltage
  return sourceFull <= converter.inputVoltageMost
    ? undefined
    : `The carried pack’s ${volts(sourceFull)} when full would break this converter, which takes ${volts(converter.inputVoltageMost)} at most.`
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
