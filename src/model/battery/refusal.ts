import type { CarriedFault } from './carried'
import type { MainsCharger } from './charger'
import { converterFault, type Converter, type ConverterFault } from './converter'
import type { Pack } from './pack'
import { wentFlat } from './storage'

/** Why a pack must not be charged by what is to charge it. Voltages in V, temperatures in °C. */
export type ChargeRefusal =
  | { code: 'overcharge'; by: 'charger' | 'converter'; voltage: number; full: number }
  | { code: 'tooCold'; least: number }
  | { code: 'tooHot'; most: number }
  | { code: 'takesNoCharge' }
  | { code: 'flatInStore' }

/** Why a source must not be used on a pack. */
export type Refusal =
  | ChargeRefusal
  | { code: 'chargerFigures' }
  | { code: 'breaksConverter'; voltage: number; most: number }
  | ConverterFault
  | CarriedFault

/** A voltage may pass the pack's full voltage by this share: its own setting error. Charging is then reckoned at the full voltage. */
const voltageTolerance = 0.005

/** The one place that decides whether a pack may be charged at a voltage, at its temperature. @param voltage the most that is held, V */
function chargeRefusal(pack: Pack, voltage: number, by: 'charger' | 'converter'): ChargeRefusal | undefined {
  const full = pack.series * pack.chemistry.chargeLimitVoltage
  const { leastChargeTemperature: least, mostChargeTemperature: most } = pack.chemistry
  if (!(voltage <= full * (1 + voltageTolerance))) return { code: 'overcharge', by, voltage, full }
  if (!(pack.temperature >= least)) return { code: 'tooCold', least }
  if (!(pack.temperature <= most)) return { code: 'tooHot', most }
  const { charge = 1, storage = 0, boardCurrent = 0 } = pack.spec
  if (wentFlat({ ...pack.spec, charge, storage, boardCurrent })) return { code: 'flatInStore' }
  if (!(pack.spec.chargeCurrent > 0)) return { code: 'takesNoCharge' }
  return undefined
}

/**
 * Why a charger must not be used on a pack; undefined where it may be.
 *
 * @param pack at its temperature, °C; below 0 and above 45 is refused (`Chemistry.leastChargeTemperature`)
 * @param charger its voltage may be up to 0.5 % above the pack's full voltage
 */
export function chargerRefusal(pack: Pack, charger: MainsCharger): Refusal | undefined {
  if (!(charger.voltage > 0 && charger.current > 0 && charger.efficiency > 0 && charger.efficiency <= 1))
    return { code: 'chargerFigures' }
  return chargeRefusal(pack, charger.voltage, 'charger')
}

/**
 * Why a pack must not be charged from a carried one through this converter; undefined where it may be. That a converter cannot reach the voltage is no
 * refusal: nothing flows then.
 *
 * @param source the carried pack
 * @param converter its set voltage may be up to 0.5 % above the pack's full voltage
 * @param pack the bike's pack, at its temperature, °C; below 0 and above 45 is refused
 */
export function transferRefusal(source: Pack, converter: Converter, pack: Pack): Refusal | undefined {
  const refusal = converterFault(converter) ?? chargeRefusal(pack, converter.voltage, 'converter')
  if (refusal !== undefined) return refusal
  const voltage = source.series * source.chemistry.chargeLimitVoltage
  const most = converter.inputVoltageMost
  return voltage <= most ? undefined : { code: 'breaksConverter', voltage, most }
}
