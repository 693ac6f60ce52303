import type { Outcome } from '../../model/forecast/outcome'
import { metresPerKilometre, metresPerMile } from '../../model/units'
import { drain as drainText, formatIn, type Units } from '../format'
import { mass } from '../kit/amounts'
import { whyWordsIn } from '../words/why'
import { exactIn, explainIn } from './explain'
import type { Given, Row } from './why.svelte'

/** Why a charge puts so much into a pack. */
export function storedReasons(run: Given['stored'], _: Outcome, units: Units): Row {
  const { duration } = formatIn(units)
  const { energy } = exactIn(units)
  const { losses } = run
  const reason = explainIn(units)('stored', {
    values: {
      sourceOut: energy(run.drawn),
      sourceHeat: energy(losses.source),
      leadHeat: energy(losses.sourceCable + losses.outputCable),
      converterLoss: energy(losses.converter + losses.standby),
      packHeat: energy(losses.pack),
      notBack: energy(losses.coulombic),
      time: duration(run.time),
    },
    result: energy(run.stored),
  })
  return { title: reason.title, reasons: [reason] }
}

/** Why a lead takes so much voltage and becomes so warm. */
export function leadReasons({ title, current, load }: Given['lead'], _: Outcome, units: Units): Row {
  const { measure, number, percent } = formatIn(units)
  const explain = explainIn(units)
  const amperes = measure(current, 'current', 2)
  const drop = `${number(load.drop, 2)} V`
  return {
    title,
    reasons: [
      explain('leadDrop', {
        values: {
          current: amperes,
          resistance: measure(load.resistance, 'resistance', 1),
          ofVoltage: percent(load.dropShare, 1),
        },
        result: drop,
      }),
      explain('leadHeat', { values: { current: amperes, drop }, result: `${number(load.loss, 1)} W` }),
    ],
  }
}

/** Why this fuse. */
export function fuseReasons({ fuse, load, rating }: Given['fuse'], _: Outcome, units: Units): Row {
  const amperes = (current: number) => formatIn(units).measure(current, 'current')
  const reason = explainIn(units)('fuse', {
    values: { load: amperes(load), least125: amperes(1.25 * load), rating: amperes(rating) },
    result: fuse.code === 'fuse' ? amperes(fuse.current) : '–',
  })
  return { title: reason.title, reasons: [reason] }
}

/** Why so much flows at a moment. */
export function flowReasons({ moment, drops: [first, second] }: Given['flow'], _: Outcome, units: Units): Row {
  const { measure, percent } = formatIn(units)
  const explain = explainIn(units)
  const words = whyWordsIn(units)
  const volts = (value: number) => measure(value, 'voltage', 2)
  const amperes = (value: number) => measure(value, 'current', 2)
  const watts = (value: number) => measure(value, 'power', 1)
  const { inputVoltage, outputVoltage, sourceCurrent, current, drawn, given } = moment
  return {
    title: words.flow(moment.time),
    reasons: [
      explain('flowOut', {
        values: { volts: volts(inputVoltage + first), current: amperes(sourceCurrent) },
        result: watts((inputVoltage + first) * sourceCurrent),
      }),
      ...(drawn > 0
        ? [
            explain('flowConverter', {
              values: { given: watts(given), drawn: watts(drawn) },
              result: percent(given / drawn, 1),
            }),
          ]
        : []),
      explain('flowIn', {
        values: { volts: volts(outputVoltage - second), current: amperes(current) },
        result: watts((outputVoltage - second) * current),
      }),
    ],
  }
}

/** Why a change gives so much more. */
export function changeReasons({ name, row, asItIs }: Given['change'], _: Outcome, units: Units): Row {
  const explain = explainIn(units)
  const exact = exactIn(units)
  const stored = asItIs.run?.stored
  const sooner = row.timeSaved
  return {
    title: `${name}, ${mass(row.mass, units)}`,
    reasons: [
      ...(row.run === undefined || stored === undefined
        ? []
        : [
            explain('changeGain', {
              values: { with: exact.energy(row.run.stored), asItIs: exact.energy(stored) },
              result: exact.energy(row.run.stored - stored),
            }),
          ]),
      ...(sooner === undefined || asItIs.timeToCharge === undefined || row.timeToCharge === undefined
        ? []
        : [
            explain('changeSooner', {
              values: { asItIs: exact.time(asItIs.timeToCharge), with: exact.time(row.timeToCharge) },
              result: `${sooner < 0 ? '−' : ''}${exact.time(Math.abs(sooner))}`,
            }),
          ]),
    ],
  }
}

/** Why a further kilometre or mile takes so long at the charger. */
export function minuteReasons({ time, storing, drain }: Given['minute'], _: Outcome, units: Units): Row {
  const { distance, measure, number } = formatIn(units)
  const words = whyWordsIn(units)
  const one = units === 'metric' ? metresPerKilometre : metresPerMile
  const reason = explainIn(units)('minuteWorth', {
    values: { drain: drainText(drain, units), oneMore: distance(one, 0), storing: measure(storing, 'power', 1) },
    result: storing > 0 ? `${number((drain * one) / storing / 60, 1)} min` : '–',
  })
  return { title: words.flow(time), reasons: [reason] }
}
