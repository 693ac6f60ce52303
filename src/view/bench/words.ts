import type { TransferEnd, TransferRun } from '../../model/battery/transfer-run'
import { distance, duration, number, percent, wattHours, type Units } from '../format'
import { endNames, limitNames } from '../sheet/stopReport'

const minute = (time: number) => number(time / 60)

/** `set current at first, converter’s input limit from minute 12`: what set the current, in order. */
export function phasesText(phases: TransferRun['phases']): string {
  return phases
    .map(({ limit }, i) => {
      const name = limitNames[limit]
      if (i > 0) return `${name} from minute ${minute(phases[i - 1]!.until)}`
      return phases.length > 1 ? `${name} at first` : `${name} all the time`
    })
    .join(', ')
}

/** What binds, as a clause: `the converter’s input limit binds from minute 12`. */
function binding(phases: TransferRun['phases']): string {
  const [first, ...later] = phases
  if (first === undefined) return ''
  if (later.length === 0) return `; ${limitNames[first.limit]} binds all the time`
  if (later.length === 1) return `; ${limitNames[later[0]!.limit]} binds from minute ${minute(first.until)}`
  return `; what binds: ${phasesText(phases)}`
}

const nothing: Record<TransferEnd, string> = {
  full: 'it is full',
  'charger voltage': 'it is as full as the set voltage makes it',
  until: 'it is as full as asked for',
  time: 'there is no time for it',
  'source empty': 'the carried pack has nothing more to give',
  'converter out of range': 'the wanted output is beyond what this converter can do',
  'no socket': 'no socket is free',
}

/**
 * What an arrangement does in a stop, in one sentence.
 *
 * @param run of the stop
 * @param before charge of the pack on arrival, 0 to 1
 * @param stay how long the stop lasts, s
 * @param drain mean of the route, J/m
 */
export function summarySentence(
  run: TransferRun,
  pack: string,
  before: number,
  stay: number,
  drain: number,
  units: Units,
): string {
  if (run.phases.length === 0) return `Nothing flows into ${pack}: ${nothing[run.end]}.`
  const further = drain > 0 ? `: ${distance(run.stored / drain, units, 0)} more` : ''
  const early = run.time < stay - 30 ? ` of the ${duration(stay)}` : ''
  const end = early === '' ? '' : `, ${endNames[run.end]}`
  return `In ${duration(run.time)}${early} this puts ${wattHours(run.stored)} into ${pack} (from ${percent(before)} to ${percent(run.charge)})${further}${binding(run.phases)}${end}.`
}
