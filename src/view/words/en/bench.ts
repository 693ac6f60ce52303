import type { Change, ChangeRefusal } from '../../../model/battery/alternatives'
import type { CableCaution, CableLoad } from '../../../model/battery/cable'
import type { ConverterKind, OutOfReach } from '../../../model/battery/converter'
import type { FuseProposal } from '../../../model/battery/fuse'
import type { SensibleEnd } from '../../../model/battery/marginal'
import type { TransferEnd, TransferRun } from '../../../model/battery/transfer-run'
import { carriedFacts } from '../../../model/battery/carried'
import type { CarriedSource } from '../../../model/plan/schema'
import type { CarryChoice } from '../../../model/studies/compare'
import { joulesPerWattHour } from '../../../model/units'
import { distanceUnit, type Format } from '../../format'
import { worded } from '../worded'
import { batteryIn } from './battery'
import { buildIn } from './build'
import { chargingIn } from './charging'
import { fillOrders } from './fillOrders'
import { trialIn } from './trial'

const ordinals = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth']
const ordinal = (count: number) => ordinals[count] ?? 'further'

/** Of the bench. */
export const benchIn = (format: Format) => {
  const { distance, duration, energy, measure, number, percent } = format
  const volts = (voltage: number) => measure(voltage, 'voltage')
  const amperes = (current: number) => measure(current, 'current')
  const watts = (power: number) => measure(power, 'power')
  const minute = (time: number) => `minute ${number(time / 60)}`
  const battery = batteryIn(format)
  const { limits, ends } = battery

  const kinds: Record<ConverterKind, string> = {
    'step-down': 'steps down',
    'step-up': 'steps up',
    'step-up-down': 'steps up and down',
  }

  /** Why nothing flows. */
  const nothing: Record<TransferEnd, string> = {
    full: 'it is full',
    chargerVoltage: 'it is as full as the set voltage makes it',
    until: 'it is as full as asked for',
    time: 'there is no time for it',
    sourceEmpty: 'the carried pack has nothing more to give',
    outOfRange: 'the wanted output is beyond what this converter can do',
    noSocket: 'no socket is free',
  }

  /** `set current at first, converter’s input limit from minute 12`: what set the current, in order. */
  const phasesText = (phases: TransferRun['phases']): string =>
    phases
      .map(({ limit }, i) => {
        if (i > 0) return `${limits[limit]} from ${minute(phases[i - 1]!.until)}`
        return phases.length > 1 ? `${limits[limit]} at first` : `${limits[limit]} all the time`
      })
      .join(', ')

  /** What binds, as a clause: `the converter’s input limit binds from minute 12`. */
  const binding = (phases: TransferRun['phases']): string => {
    const [first, ...later] = phases
    if (first === undefined) return ''
    if (later.length === 0) return `; ${limits[first.limit]} sets the pace all the time`
    if (later.length === 1) return `; ${limits[later[0]!.limit]} sets the pace from ${minute(first.until)}`
    return `; what sets the pace: ${phasesText(phases)}`
  }

  return {
    label: 'Bench',
    none: 'No carried pack is planned. With one, and a converter, a pack of the bike is filled on the way: here is what flows then, what limits it, and what it weighs.',
    add: 'Add a carried pack',
    source: 'Source',

    /** What is looked at. */
    lookedAt: 'At which halt',
    atCrossing: (at: number) => `the crossing, ${format.place(at)}`,
    atStop: (stop: string, at: number) => `${stop}, ${format.place(at)}`,
    doesNotUse: (occasion: string) => `${occasion} (does not use it)`,
    apart: 'Apart from the plan',
    packToFill: 'Pack to fill',
    askedCharge: 'Its charge, %',
    askedTime: 'Time, min',
    chargeAt: (occasion: string) => `Charge from it at ${occasion}`,
    backTo: (occasion: string) => `Back to ${occasion}`,
    cautionsTitle: 'Cautions',
    cautions: chargingIn(format),
    trial: trialIn(format),
    onTheBench: 'The arrangement',
    /** A carried source in a few words. */
    inShort: ({ carried, converter }: CarriedSource) => {
      const { ratedWh, fullVoltage, mass } = carriedFacts(carried)
      return `${number(ratedWh)} Wh, ${volts(fullVoltage)} full, ${measure(mass, 'mass')}; converter set to ${volts(converter.voltage)} and ${amperes(converter.current)}`
    },

    /**
     * What an arrangement does in a stop, in one sentence.
     *
     * @param run of the stop
     * @param before charge of the pack on arrival, 0 to 1
     * @param stay how long the stop lasts, s
     * @param drain mean of the route, J/m
     */
    summary: (run: TransferRun, pack: string, before: number, stay: number, drain: number): string => {
      if (run.phases.length === 0) return `Nothing flows into ${pack}: ${nothing[run.end]}.`
      const further = drain > 0 ? `: ${distance(run.stored / drain, 0)} more` : ''
      const early = run.time < stay - 30 ? ` of the ${duration(stay)}` : ''
      const end = early === '' ? '' : `, ${ends[run.end]}`
      return `In ${duration(run.time)}${early} this puts ${energy(run.stored)} into ${pack} (from ${percent(before)} to ${percent(run.charge)})${further}${binding(run.phases)}${end}.`
    },
    why: (stored: number) => `Why ${energy(stored)}`,
    phases: phasesText,
    /** What a carried pack comes with and has left, as shares. */
    left: (source: string, before: number, after: number) =>
      `${source} comes with ${percent(before)} and has ${percent(after)} left.`,
    instead: (filled: string | undefined, pack: string) =>
      `The plan fills ${filled} here; this is what ${pack} would get instead.`,

    /** In the drawing. */
    drawing: {
      /** Blocks of a carried pack. */
      blocks: (inSeries: number, inParallel: number) =>
        inParallel === 1
          ? `${inSeries} in series`
          : inSeries === 1
            ? `${inParallel} in parallel`
            : `${inParallel} strings of ${inSeries} in series`,
      full: (voltage: number) => `${volts(voltage)} full`,
      out: (voltage: number, power: number) => `${volts(voltage)}, ${watts(power)} out`,
      lead: (length: number, areaMm2: number) => `${measure(length, 'length', 1)}, ${number(areaMm2, 1)} mm²`,
      /** @param drop V */
      lost: (drop: number, current: number) => `${number(drop, 2)} V, ${number(drop * current, 1)} W lost`,
      converter: 'Converter',
      kinds,
      set: (voltage: number, current: number) => `set to ${volts(voltage)}, ${amperes(current)}`,
      drawn: (voltage: number, power: number) => `in ${volts(voltage)}, ${watts(power)}`,
      given: (voltage: number, power: number) => `out ${volts(voltage)}, ${watts(power)}`,
      volts,
      amperes,
      stored: (current: number, power: number) => `${amperes(current)}, ${watts(power)} in`,
      fuse: 'fuse',
    },

    /** Of the charge over time. */
    course: {
      title: 'Charge over time',
      lines: (pack: string, source: string) => `Full line: ${pack}. Broken line: ${source}.`,
      slider: 'Time on the slider:',
      binds: (time: number, limit: keyof typeof limits) => `${minute(time)}, ${limits[limit]} sets the pace`,
      /** All that is measured at a moment: V, A, W, 0 to 1. */
      moment: (
        time: number,
        pack: string,
        now: { outputVoltage: number; current: number; given: number; charge: number; limit: keyof typeof limits },
      ) =>
        `${minute(time)}: ${pack} ${volts(now.outputVoltage)}, ${amperes(now.current)}, ${watts(now.given)}, ${percent(now.charge)}; ${limits[now.limit]} sets the pace`,
      phase: (from: number, to: number, limit: keyof typeof limits) =>
        `Minute ${number(from / 60)} to ${number(to / 60)}: ${limits[limit]}`,
      limits,
      /** In the chart. */
      bike: 'bike',
      carried: 'carried',
      stopEnds: 'the stop ends',
    },

    /** What a further minute is worth. */
    marginal: {
      title: 'What a further minute is worth',
      inShort: (end: SensibleEnd | undefined) =>
        end === undefined
          ? 'staying is worth its time to the end'
          : `stop after ${duration(end.time)}, at ${percent(end.charge)}`,
      sensible: (end: SensibleEnd | undefined) =>
        end === undefined
          ? 'To its end each minute gives more than half of what the best one does: staying is worth its time.'
          : `Stopping after ${duration(end.time)}, at ${percent(end.charge)}, is sensible: from there a minute gives less than half of what the best one does.`,
      after: 'After',
      charge: 'Charge',
      forOneMore: `For 1 ${distanceUnit(format.units)} more`,
      /** @param time for a further km or mile, min; undefined where none is gained */
      minutes: (time: number | undefined) => (time === undefined ? 'no more' : `${number(time, 1)} min`),
    },

    /** Of the table of what one change would give. */
    limiting: {
      label: 'What limits it',
      title: 'What limits it, and what one change would give',
      change: 'Change, and what sets the pace then',
      inTheStop: 'In the stop',
      soonerAt: (charge: number) => `Sooner at ${percent(charge)}`,
      mass: 'Mass',
      /** @param stored in all, J; undefined where only what is more is known */
      gain: (stored: number | undefined, gain: number) =>
        stored === undefined ? `${energy(gain)} more` : `${energy(stored)} (+${number(gain / joulesPerWattHour)})`,
      none: 'No single change gives more here.',
      others: (count: number) => `${number(count)} other ${count === 1 ? 'change gives' : 'changes give'} nothing more`,
      nothing: 'gives nothing more',
      neverThere: 'never there',
      take: 'Put into the plan',
      takeThis: (change: string) => `Put into the plan: ${change}`,
    },

    /** Carry it or not. */
    carry: {
      title: 'Carry it or not',
      /** @param finishes clock and what comes along */
      inShort: (finishes: readonly (readonly [string, CarryChoice['what']])[]) =>
        finishes.length === 0
          ? ''
          : `finish ${finishes
              .map(
                ([clock, what]) =>
                  `${clock} ${{ carried: 'as planned', pack: 'with another bike pack', neither: 'with neither' }[what]}`,
              )
              .join(', ')}`,
      unused: (source: string) =>
        `No stop and no crossing of the plan charges from ${source} yet: pin a stop, and choose it there as what it charges from.`,
      choice: ({ what }: CarryChoice, source: string) =>
        ({ carried: `${source}, as planned`, pack: 'Another bike pack instead', neither: 'Neither' })[what],
      /**
       * What is best, in the first line.
       *
       * @param next number of the bike pack that would come instead
       */
      verdict: (choices: readonly CarryChoice[], source: string, next: number): string => {
        const [carried, pack, neither] = (['carried', 'pack', 'neither'] as const).map((what) =>
          choices.find((choice) => choice.what === what),
        )
        if (carried === undefined || neither === undefined) return ''
        const other = pack ?? neither
        const instead = pack === undefined ? 'nothing instead' : `a ${ordinal(next)} bike pack`
        const heavier = carried.mass - other.mass
        const later = carried.time - other.time
        const weight =
          Math.abs(heavier) < 0.05
            ? `weighs as much as ${instead}`
            : `weighs ${measure(Math.abs(heavier), 'mass')} ${heavier > 0 ? 'more' : 'less'} than ${instead}`
        const clock =
          Math.abs(later) < 30
            ? 'finishes at the same time'
            : `finishes ${duration(Math.abs(later))} ${later > 0 ? 'later' : 'sooner'}`
        const lasts = (choice: CarryChoice) => choice.margin.verdict === 'lasts'
        const charge = lasts(neither)
          ? ' The charge lasts without either.'
          : lasts(carried) === lasts(other)
            ? lasts(carried)
              ? ' With either the charge lasts.'
              : ' With neither does the charge last.'
            : ` The charge lasts with ${lasts(carried) ? source : instead} alone.`
        return `${source} ${weight} and ${clock}.${charge}`
      },
      mass: 'Mass in all',
      finish: 'Finish',
      finishes: (clock: string, time: number) => `${clock}, after ${duration(time)}`,
      margin: 'At the finish',
      marginText: ({ verdict, margin }: CarryChoice['margin']) =>
        verdict === 'empty'
          ? 'does not last'
          : margin < 0
            ? `${energy(-margin)} below the reserve`
            : `${energy(margin)} above the reserve`,
      reach: 'Reach',
      take: 'Take this over',
      takeThis: (choice: string) => `Take this over: ${choice}`,
      taken: (source: string, what: CarryChoice['what']) =>
        `${source} stays at home, ${what === 'neither' ? 'nothing is charged from it' : 'another bike pack comes instead'}; Undo brings it back.`,
      about: (source: string) =>
        `Without ${source}, stops that are there only for charging from it fall away; others stay as rests. The other pack is like the last one, full at the start.`,
    },

    /** Of cables, connectors and fuse. */
    leads: {
      title: 'Cables, connectors, fuses',
      /** @param currents greatest, of both leads, A */
      inShort: (currents: readonly number[], fuses: readonly FuseProposal[]) =>
        `at most ${currents.map(amperes).join(' and ')}; fuses of ${fuses
          .map((fuse) => (fuse.code === 'fuse' ? `${fuse.current} A` : 'none that fits'))
          .join(' and ')}`,
      toConverter: 'To the converter',
      toPack: 'To the bike’s pack',
      /** @param load at its greatest current, A */
      load: (current: number, { rating, resistance, drop, dropShare, loss }: CableLoad) =>
        `at most ${amperes(current)} of the ${amperes(rating)} it carries for hours; its ${number(1000 * resistance)} mΩ there and back take ${number(drop, 2)} V (${percent(dropShare, 1)}) and make ${number(loss, 1)} W of heat.`,
      /** @param ratings of the connectors of both leads, A */
      connectors: (ratings: [number, number]) =>
        `Connectors are held to 60 % of the rating printed on the weakest one, ${number(ratings[0])} A and ${number(ratings[1])} A here.`,
    },

    build: buildIn(format),

    /** One thing changed, in the table of what limits a charge. */
    change: worded<Change>({
      asItIs: () => 'As it is',
      blocksInSeries: ({ blocks }) => `All ${blocks} blocks in series`,
      blocksInParallel: ({ blocks }) => `All ${blocks} blocks in parallel`,
      oneMoreInSeries: () => 'One more block in series',
      oneMoreInParallel: () => 'One more block in parallel',
      oneMoreString: ({ blocks }) => `One more string of ${blocks} blocks`,
      higherCurrent: ({ current }) => (current === undefined ? 'A higher set current' : `Set to ${amperes(current)}`),
      converterInput: ({ current }) => `A converter that may draw ${amperes(current)}`,
      mainsCharger: ({ current }) => `A ${amperes(current)} charger at a socket`,
      fillOrder: ({ order }) => `Packs filled ${fillOrders[order]}`,
    }),
    /** Why it cannot be had. */
    changeRefusal: (refusal: ChangeRefusal) =>
      refusal.code === 'mostAlready'
        ? `${amperes(refusal.current)} is already all that converter and pack allow.`
        : battery.refusal(refusal),

    /** Over which part of its discharge a source does not serve the converter. */
    outOfReach: worded<OutOfReach>({
      passedOn: ({ voltage, isAlways }) =>
        `${isAlways ? 'Even empty,' : `Down to ${volts(voltage)}`} the source is too high to step up from: such a converter passes it straight on, its current unlimited.`,
      belowSet: ({ voltage, set, isAlways }) =>
        `${isAlways ? 'Even full,' : `From ${volts(voltage)} down`} the source is too low to step down to ${volts(set)}.`,
      belowInput: ({ voltage, isAlways }) =>
        `${isAlways ? 'Even full,' : `From ${volts(voltage)} down`} the source is below what this converter runs on.`,
    }),

    cableCaution: worded<CableCaution>({
      current: ({ current, rating }) =>
        `${amperes(current)} is more than the ${amperes(rating)} this cable carries for hours.`,
      drop: ({ share, sensible }) =>
        `The cable takes ${percent(share, 1)} of the voltage; ${percent(sensible)} is sensible: shorter or thicker.`,
      connectors: ({ rating, most, current }) =>
        `Connectors rated ${rating} A should carry ${amperes(most)} for hours, not ${amperes(current)}.`,
    }),
    fuse: worded<FuseProposal>({
      fuse: ({ current, blade, full }) =>
        `Fuse the source with ${current} A at its terminal, ${blade === undefined ? `d.c. fuse rated at least ${Math.ceil(full)} V` : `blade fuse rated ${blade} V`} (full: ${volts(full)}).`,
      noFuse: ({ load, least, cableRating }) =>
        `No fuse fits: ${amperes(load)} needs one of at least ${amperes(least)}, the cable allows ${amperes(cableRating)}; thicker cable or less current.`,
    }),
    /** Said beside everything about leads and fuses. */
    codeDecides: 'Local code and a qualified person decide.',
  }
}
