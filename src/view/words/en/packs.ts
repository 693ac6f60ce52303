import type { CarriedFacts } from '../../../model/battery/carried'
import type { ConverterKind, CurrentCaution } from '../../../model/battery/converter'
import type { MainsSource, PlanSource } from '../../../model/plan/schema'
import type { Format } from '../../format'
import type { Disagreement } from '../../sheet/agreement'
import { worded } from '../worded'

/** Of the plan's packs and charge sources. */
export const packsIn = ({ measure, number, percent }: Format) => {
  const amperes = (current: number) => measure(current, 'current')
  const volts = (voltage: number) => `${number(voltage, 1)} V`
  return {
    title: 'Packs, in the order of use',
    add: 'Add a pack',
    inShort: (ratedWh: number, charge: number) => `${number(ratedWh)} Wh, ${percent(charge)} at the start`,
    rated: (nominal: number, full: number, ratedWh: number) =>
      `${volts(nominal)} nominal, ${volts(full)} full, ${number(ratedWh)} Wh when new.`,
    cells: 'Cells',
    earlier: 'Use earlier',
    later: 'Use later',

    sources: {
      title: 'Charge sources',
      none: 'None: every stop is a rest.',
      add: {
        mains: 'Add a charger',
        carried: 'Add a carried pack',
        swap: 'Add a swap',
      } satisfies Record<PlanSource['kind'], string>,
      mains: ({ voltage, current }: Pick<MainsSource, 'voltage' | 'current'>) =>
        `mains, ${volts(voltage)}, ${number(current, 1)} A`,
      swap: 'the next pack takes its place',
      carried: ({ ratedWh, mass }: CarriedFacts, current: number) =>
        `${number(ratedWh)} Wh, ${measure(mass, 'mass', 1)}, ${number(current, 1)} A`,
      aboutSwap: 'At a stop with it, the next pack that is not spent is put in; nothing is charged.',
      /** What is wrong between a source and one of the packs. */
      fault: (pack: string, fault: string) => `${pack}: ${fault}`,
    },

    carried: {
      title: 'Carried pack',
      facts: ({ fullVoltage, nominalVoltage, emptyVoltage, ratedWh, mass }: CarriedFacts, charge: number) =>
        `${volts(fullVoltage)} full, ${volts(nominalVoltage)} nominal, ${volts(emptyVoltage)} empty; ${number(ratedWh)} Wh when new, ${measure(mass, 'mass', 1)}; ${percent(charge)} at the start.`,
      travel: (blocks: number, travel: string) =>
        `${blocks > 1 ? 'Each block, ' : ''}${travel} All blocks are alike: same kind, age and charge; unlike ones must not be joined.`,
      converter: 'Converter',
      kind: 'Kind',
      notPrinted: 'none',
      currentCaution: worded<CurrentCaution>({
        peakOnly: ({ side, peak, taken }) =>
          `Only a peak ${side} current is stated: of ${amperes(peak)}, ${amperes(taken)} are taken as flowing for hours. Look for what the maker states as continuous.`,
        peakBelow: ({ side, continuous, peak }) =>
          `The peak ${side} current, ${amperes(peak)}, is below the continuous one, ${amperes(continuous)}: one of them is not what is printed.`,
        setAbove: ({ set, continuous, peak }) =>
          `It is set to ${amperes(set)}, above the ${amperes(continuous)} that it gives for hours${peak !== null && set <= peak ? '; its peak is no use to a charge' : ''}: no more than those are counted.`,
      }),
      /** Why figures can't count together, before what counts until then. */
      disagree: worded<Disagreement>({
        inputRange: () => 'The least input voltage must lie below the greatest;',
        outputRange: () => 'The least output voltage must lie below the greatest;',
        noOutput: () => 'One of the two must be stated, the continuous current or the peak;',
        setOutside: ({ least, most, set }) =>
          `The converter would give ${volts(least)} to ${volts(most)}, not the ${volts(set)} set;`,
        lowestVoltage: ({ least, below }) =>
          `For such cells it must lie from ${volts(least)} to below ${volts(below)};`,
      }),
      kinds: {
        'step-down': 'Step-down',
        'step-up': 'Step-up',
        'step-up-down': 'Steps up and down',
      } satisfies Record<ConverterKind, string>,
      leads: { sourceCable: 'Cable to the converter', outputCable: 'Cable to the bike’s pack' },
      confirmed: 'Confirmed by you',
      confirmations: {
        polarityMeasured: 'Plus and minus are measured at both ends of every lead',
        fullVoltageKnown: 'The bike pack’s full voltage is read from its label or charger',
      },
      /** What a halt leaves in it. */
      leftAt: (stop: string, before: number, after: number) =>
        `${stop}: ${percent(before)} to ${percent(after)} of it.`,
      theCrossing: 'The crossing',
    },
  }
}
