import { gaugeOf } from '../../../model/battery/cable'
import type { BlockFault } from '../../../model/battery/blocks'
import type { BuildAnswers, BuildVoltages } from '../../../model/battery/build'
import type { VoltageRange } from '../../../model/battery/rest'
import type { CarriedSource } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { worded } from '../worded'

/** Of the sheet for the one who builds the lead. */
export const buildIn = ({ measure, number, percent }: Format) => {
  const volts = (voltage: number) => measure(voltage, 'voltage')
  const fine = (voltage: number) => `${number(voltage, 2)} V`
  /** `13.4 to 13.6 V`, or `about 13.2 V` where both are one. */
  const rested = ({ least, most }: VoltageRange) =>
    number(least, 1) === number(most, 1) ? `about ${volts(least)}` : `${number(least, 1)} to ${volts(most)}`
  /** @param continuous and peak current, A */
  const printed = (continuous: number | null, peak: number | null) => {
    const apart = peak === null ? '' : ` (peak ${measure(peak, 'current')})`
    if (continuous !== null) return `up to ${measure(continuous, 'current')}${apart}`
    return peak === null ? 'what is not known' : `what is not stated, but a peak of ${measure(peak, 'current')}`
  }
  return {
    title: 'Build sheet',
    /** `3 of 6 questions answered`. */
    answered: ({ asked, answered }: { asked: number; answered: number }) =>
      answered === asked
        ? `all ${number(asked)} questions answered`
        : `not ready: ${number(answered)} of ${number(asked)} questions answered`,
    answer: 'Answer it in the build sheet',
    look: 'As it prints',
    print: 'Print the build sheet',
    about:
      'For the one who builds and joins the lead, to print: what to measure, in which order, before anything is connected.',
    ready: 'Every question is answered. It is ready when every box below is ticked by who has measured.',
    notReady: (open: number) => `Not ready: ${number(open)} ${open === 1 ? 'question is' : 'questions are'} open.`,
    peakOnly:
      'What the converter bears for hours is to be asked of its maker before anything is built: a peak is no use to a charge.',
    questions: {
      chargeLimitKnown: 'The charge limit of the bike’s pack is read from its label or its charger, not guessed',
      backFeedTried:
        'With the converter off and the bike’s pack on it, what flows back was measured, and is stopped or harmless',
      blocksAlike:
        'All blocks are of one make and kind, and each was charged full and left for an hour before it was measured',
      seriesRated:
        'The maker rates each block’s protection board for so many in series: once open, it sees the voltage of the whole string',
    } satisfies Record<keyof BuildAnswers, string>,
    blocks: {
      title: 'Each block before it is joined',
      about: 'Charge each block by itself until it is full, leave it for an hour, then measure it alone.',
      block: (k: number) => `Block ${number(k + 1)}`,
      notMeasured: 'none',
      more: (count: number) => `Show ${number(count)} more`,
      equal: 'All blocks are measured, and alike enough to be joined.',
      voltage: (voltage: number | null) => (voltage === null ? 'V' : fine(voltage)),
      age: (age: number | null) => (age === null ? 'months' : measure(age, 'age')),
    },
    fault: worded<BlockFault>({
      tooLow: ({ block, voltage, least }) =>
        `Block ${number(block + 1)} shows ${fine(voltage)}, below ${fine(least)}: its cells may be harmed. Do not charge, use or join it.`,
      tooHigh: ({ block, voltage, most }) =>
        `Block ${number(block + 1)} shows ${fine(voltage)}, above the ${fine(most)} of a full one: it is of another kind, or overcharged. Do not join it.`,
      notRested: ({ block, voltage, least, most }) =>
        `Block ${number(block + 1)} shows ${fine(voltage)}, more than the ${number(least, 1)} to ${volts(most)} of a full one at rest: leave it longer, then measure again.`,
      chargeUntold: ({ block, voltage }) =>
        `Block ${number(block + 1)}: its ${fine(voltage)} do not tell its charge, for the voltage of such cells hardly changes there. Charge it full, leave it for an hour, measure again.`,
      notAsStated: ({ block, voltage, charge, stated }) =>
        `Block ${number(block + 1)}: its ${fine(voltage)} are those of ${percent(charge)}, not of the ${percent(stated)} stated. Charge it full, leave it for an hour, measure again.`,
      voltagesDiffer: ({ blocks: [low, high], difference, most }) =>
        `Blocks ${number(low + 1)} and ${number(high + 1)} differ by ${fine(difference)}, more than ${fine(most)}: they are not joined.`,
      agesDiffer: ({ blocks: [young, old], difference, most }) =>
        `Blocks ${number(young + 1)} and ${number(old + 1)} are ${measure(difference, 'age')} apart in age, more than ${measure(most, 'age')}: they are not joined.`,
      notMeasured: ({ count }) =>
        `${number(count)} ${count === 1 ? 'block has' : 'blocks have'} no voltage or no age yet: measure each before it is joined.`,
    }),
    arrangement: 'What is joined',
    /** @param sizes of both leads, mm² */
    parts: ({ carried, converter, sourceCable, outputCable }: CarriedSource, pack: string): string[] => [
      `${number(carried.blocksInSeries)} in series, ${number(carried.blocksInParallel)} in parallel; each block ${measure(carried.blockAh, 'capacity')}, at most ${measure(carried.dischargeCurrent, 'current')}`,
      `Converter set to ${volts(converter.voltage)} and ${measure(converter.current, 'current')}; for hours it takes ${printed(converter.inputCurrent, converter.inputPeak)} and gives ${printed(converter.outputCurrent, converter.outputPeak)}.`,
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
            `Each block, an hour at rest: ${rested(voltages.block)}, and no two differ by more than ${fine(voltages.difference)}: more would drive a tenth of a block’s current from one into the other.`,
            'All blocks: one kind, one age, one charge. Unlike ones are not joined.',
          ]
        : []),
      ...(inParallel > 1 ? ['Each string through its own fuse, then joined.'] : []),
      `Carried pack, plus and minus: ${rested(voltages.source)}, never above ${volts(voltages.sourceFull)}.`,
      'Both ends of every lead: plus on plus, minus on minus.',
      `Converter alone, on the carried pack, its output open: ${volts(set)}, not above ${volts(voltages.packFull)}.`,
      'Input of the converter through a resistor first, or a plug that does so: its capacitors draw a spark from a pack.',
      `Bike’s pack, plus and minus: ${rested(voltages.pack)}, never above ${volts(voltages.packFull)}.`,
      'Converter off, output to the bike’s pack: what flows back is nothing, or stopped by a diode or a relay.',
      'Converter on, with someone beside it: current and voltage as set, nothing gets hot in ten minutes.',
    ],
    meter: 'read',
  }
}

const gauge = (areaMm2: number) => `${areaMm2} mm² (about AWG ${Math.round(gaugeOf(areaMm2))})`
