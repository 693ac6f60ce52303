import { gaugeOf } from '../../../model/battery/cable'
import type { BuildAnswers, BuildVoltages } from '../../../model/battery/build'
import type { CarriedSource } from '../../../model/plan/schema'
import type { Format } from '../../format'

/** Of the sheet for the one who builds the lead. */
export const buildIn = ({ measure, number }: Format) => {
  const volts = (voltage: number) => measure(voltage, 'voltage')
  const fine = (voltage: number) => `${number(voltage, 2)} V`
  /** @param continuous and peak current, A */
  const printed = (continuous: number | null, peak: number | null) => {
    const apart = peak === null ? '' : ` (peak ${measure(peak, 'current')})`
    if (continuous !== null) return `up to ${measure(continuous, 'current')}${apart}`
    return peak === null ? 'what is not known' : `what is not stated, but a peak of ${measure(peak, 'current')}`
  }
  return {
    title: 'Build sheet',
    print: 'Print the build sheet',
    about:
      'For the one who builds and joins the lead, to print: what to measure, in which order, before anything is connected.',
    ready: 'Every question is answered. It is ready when every box below is ticked by who has measured.',
    notReady: (open: number) => `Not ready: ${number(open)} ${open === 1 ? 'question is' : 'questions are'} open.`,
    questions: {
      chargeLimitKnown: 'The charge limit of the bike’s pack is read from its label or its charger, not guessed',
      backFeedTried:
        'With the converter off and the bike’s pack on it, what flows back was measured, and is stopped or harmless',
      blocksAlike: 'All blocks are of one kind and age, and were measured at one voltage at rest',
      seriesRated:
        'The maker rates each block’s protection board for so many in series: once open, it sees the voltage of the whole string',
    } satisfies Record<keyof BuildAnswers, string>,
    arrangement: 'What is joined',
    /** @param sizes of both leads, mm² */
    parts: ({ carried, converter, sourceCable, outputCable }: CarriedSource, pack: string): string[] => [
      `${number(carried.blocksInSeries)} in series, ${number(carried.blocksInParallel)} in parallel; each block ${measure(carried.blockAh, 'capacity')}, at most ${measure(carried.dischargeCurrent, 'current')}`,
      `Converter set to ${volts(converter.voltage)} and ${measure(converter.current, 'current')}; for hours it takes ${printed(converter.inputCurrent, converter.inputPeak)} and gives ${printed(converter.outputCurrent, converter.outputPeak)}.${isPeakOnly(converter) ? ' What it bears for hours is to be asked of its maker before anything is built: a peak is no use to a charge.' : ''}`,
      `Lead to the converter ${measure(sourceCable.length, 'length', 1)}, ${gauge(sourceCable.areaMm2)}; lead to ${pack} ${measure(outputCable.length, 'length', 1)}, ${gauge(outputCable.areaMm2)}`,
    ],
    fuses: 'Fuses, each at the terminal of its source',
    atSource: 'Carried pack',
    atPack: 'Bike’s pack, which is a source too',
    atString: 'Each string of blocks in parallel',
    order: 'Measure in this order, with nothing connected',
    /** @param set voltage, V @param inParallel strings */
    steps: (voltages: BuildVoltages, set: number, blocks: number, inParallel: number): string[] => [
      ...(blocks > 1
        ? [
            `Each block at rest: about ${volts(voltages.block)}, and no two differ by more than ${fine(voltages.difference)}: more would drive a tenth of a block’s current from one into the other.`,
            'All blocks: one kind, one age, one charge. Unlike ones are not joined.',
          ]
        : []),
      ...(inParallel > 1 ? ['Each string through its own fuse, then joined.'] : []),
      `Carried pack, plus and minus: about ${volts(voltages.source)}, never above ${volts(voltages.sourceFull)}.`,
      'Both ends of every lead: plus on plus, minus on minus.',
      `Converter alone, on the carried pack, its output open: ${volts(set)}, not above ${volts(voltages.packFull)}.`,
      'Input of the converter through a resistor first, or a plug that does so: its capacitors draw a spark from a pack.',
      `Bike’s pack, plus and minus: about ${volts(voltages.pack)}, never above ${volts(voltages.packFull)}.`,
      'Converter off, output to the bike’s pack: what flows back is nothing, or stopped by a diode or a relay.',
      'Converter on, with someone beside it: current and voltage as set, nothing gets hot in ten minutes.',
    ],
    meter: 'read',
  }
}

const isPeakOnly = ({ inputCurrent, outputCurrent }: CarriedSource['converter']) =>
  inputCurrent === null || outputCurrent === null

const gauge = (areaMm2: number) => `${areaMm2} mm² (about AWG ${Math.round(gaugeOf(areaMm2))})`
