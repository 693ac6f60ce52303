import type { ChargerShortfall } from '../../../model/battery/charge'
import type { ChemistryId } from '../../../model/battery/chemistry'
import type { Confirmed } from '../../../model/battery/confirmed'
import type { Refusal } from '../../../model/battery/refusal'
import type { TransferEnd, TransferRun } from '../../../model/battery/transfer-run'
import type { AirTravel } from '../../../model/battery/travel'
import type { Format } from '../../format'
import { worded } from '../worded'

/** Of packs, chargers and what they may do to one another. */
export const batteryIn = ({ measure, number, percent }: Format) => {
  const volts = (voltage: number) => measure(voltage, 'voltage')
  const celsius = (temperature: number) => measure(temperature, 'temperature')
  const chemistries: Record<ChemistryId, string> = { nmc: 'NMC-type lithium-ion', lfp: 'LFP' }
  const checkRules = 'check the carrier’s current rules'
  const travel: Record<AirTravel, string> = {
    allowed: `by air in hand luggage up to 100 Wh, terminals covered; ${checkRules}, also for post.`,
    withApproval: `by air only with the airline’s approval, at most two spares, in hand luggage; ${checkRules}, also for post.`,
    notAllowed: `above 160 Wh, not on a passenger plane; by post or freight as dangerous goods only; ${checkRules}.`,
  }

  return {
    chemistries,

    /** Why a pack must not be charged by what is to charge it. */
    refusal: worded<Refusal>({
      overcharge: ({ by, voltage, full }) =>
        `The ${by === 'charger' ? `charger's ${volts(voltage)}` : `${volts(voltage)} set`} would overcharge this pack, which is full at ${volts(full)}.`,
      tooCold: ({ least }) => `Lithium cells must not be charged below ${celsius(least)}.`,
      tooHot: ({ most }) => `This pack must not be charged above ${celsius(most)}.`,
      takesNoCharge: () => 'This pack takes no charging current.',
      chargerFigures: () =>
        'The charger needs a voltage and a current above 0 and an efficiency above 0 and at most 100 %.',
      breaksConverter: ({ voltage, most }) =>
        `The carried pack’s ${volts(voltage)} when full would break this converter, which takes ${volts(most)} at most.`,

      inputRange: () => 'The converter’s input voltage must range from a lower to a higher value.',
      outputRange: () => 'The converter’s output voltage must range from a lower to a higher value.',
      noOutput: () => 'The converter’s greatest currents and power must be above 0.',
      nothingSet: () => 'Set an output voltage and current above 0.',
      setOutside: ({ least, most, set }) =>
        `The converter gives ${volts(least)} to ${volts(most)}, not the ${volts(set)} set.`,
      negativeDraw: () => 'Standby draw and headroom must not be negative.',
      converterEfficiency: () => 'The converter’s efficiency must lie above 10 % and at most at 100 % at each load.',

      notWholeBlocks: () => 'Cells and blocks are counted in whole numbers, from 1.',
      blockCapacity: () => 'A block needs a capacity above 0 and a health above 0 and at most 100 %.',
      blockCurrent: () => 'A block needs a greatest discharge current above 0.',
      lowestVoltage: ({ chemistry, least, below }) =>
        `The lowest voltage of a cell of ${chemistries[chemistry]} must lie from ${least} to below ${below} V.`,
      flatInStore: () =>
        'This pack is flat after its time in store: its cells may have been harmed, so do not charge or use it.',
    }),

    /** Of a charger that may be used, but does not fill the pack. */
    shortfall: ({ voltage, full, charge }: ChargerShortfall) =>
      `The charger's ${volts(voltage)} is below the ${volts(full)} of a full pack and fills it to about ${percent(charge)} only.`,

    /** What must be confirmed before a carried pack is joined to a bike's. */
    asked: {
      polarityMeasured:
        'Have you measured plus and minus at both ends of every lead? The same plug may be wired either way.',
      fullVoltageKnown: 'What is the pack’s full voltage? Read it from its label or its charger; do not guess.',
    } satisfies Record<keyof Confirmed, string>,

    /** How a pack may travel. @param ratedWh of it */
    travel: (air: AirTravel, ratedWh: number) => `${number(ratedWh, ratedWh < 200 ? 1 : 0)} Wh: ${travel[air]}`,

    /** What sets a current. */
    limits: {
      chargerCurrent: 'the charger’s current',
      packCurrent: 'the most that the pack takes',
      cold: 'less current, for the cold',
      constantVoltage: 'constant voltage',
      setCurrent: 'the set current',
      converterOutput: 'the converter’s output limit',
      converterInput: 'the converter’s input limit',
      sourceLimit: 'the most that the carried pack gives',
      sourceEmpty: 'what is left in the carried pack',
      outOfRange: 'what the converter reaches',
    } satisfies Record<TransferRun['phases'][number]['limit'], string>,

    /** What ends a charge. */
    ends: {
      full: 'then full',
      chargerVoltage: 'then as full as the charger’s voltage makes it',
      until: 'then at the charge asked for',
      time: 'until the time was up',
      sourceEmpty: 'then the carried pack was empty',
      outOfRange: 'then the converter could no longer reach the voltage',
      noSocket: 'no socket was free',
    } satisfies Record<TransferEnd, string>,
  }
}
