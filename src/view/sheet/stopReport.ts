import { clockAfter } from '../../model/world/zone'
import type { Halt, Outcome, PackCharge } from '../../model/forecast/outcome'
import type { Reach } from '../../model/readings/reach'
import { distance, duration, percent, place, wattHours, type Units } from '../format'
import type { Words } from '../words/words'

/** `42.1 km, to km 124.5`, or `to the finish, 118 Wh (12 %) to spare, about 24 km more`. */
export function reachText({ until, length, spare, spareLength }: Reach, usable: number, units: Units): string {
  if (until !== undefined)
    return length > 0 ? `${distance(length, units)}, to ${place(until, units)}` : 'none: already below the reserve'
  const more = spareLength === undefined ? '' : `, about ${distance(spareLength, units, 0)} more`
  return `to the finish, ${wattHours(spare)} (${percent(spare / usable)}) to spare${more}`
}

/** What was put into each pack, in order: energy, time, what set the current from when, and what ended it. */
export function chargeSentences({ plan, zone }: Outcome, halt: Halt, { limits, ends }: Words['battery']): string[] {
  let begin = halt.arrive
  return halt.charges.map(({ pack, run }: PackCharge) => {
    let from = begin
    const phases = run.phases.map(({ limit, until }) => {
      const text = `${limits[limit]} from ${clockAfter(plan.start, from, zone)}`
      from = begin + until
      return text
    })
    begin += run.time
    const name = plan.battery.packs[pack]?.name ?? `Pack ${pack + 1}`
    return `${name}: ${wattHours(run.stored)} in ${duration(run.time)}; ${[...phases, ends[run.end]].join(', ')}.`
  })
}

/** Which pack comes off and which goes on; undefined where no swap is planned. */
export function swapSentence({ plan }: Outcome, { swap, packsBefore }: Halt): string | undefined {
  if (swap === undefined) return undefined
  const { packs } = plan.battery
  const [off, on] = [packs[swap.off]!.name, packs[swap.on]!.name]
  if (swap.on === swap.off) return `No other pack has charge left: ${on} stays in.`
  return `${off} comes off with ${percent(packsBefore[swap.off]!)}, ${on} goes on with ${percent(packsBefore[swap.on]!)}.`
}
