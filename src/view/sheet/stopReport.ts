import { clockAfter } from '../../model/world/zone'
import type { Halt, Outcome, PackCharge } from '../../model/forecast/outcome'
import type { BatteryWords } from '../words/battery'
import type { SheetWords } from '../words/sheet'
import type { Words } from '../words/words'

/** What was put into each pack, in order: energy, time, what set the current from when, and what ended it. */
export function chargeSentences(
  { plan, zone }: Outcome,
  halt: Halt,
  { names }: Words,
  battery: BatteryWords,
  words: SheetWords['halt'],
): string[] {
  let begin = halt.arrive
  return halt.charges.map(({ pack, run }: PackCharge) => {
    let from = begin
    const phases = run.phases.map(({ limit, until }) => {
      const text = words.phase(battery.limits[limit], clockAfter(plan.start, from, zone))
      from = begin + until
      return text
    })
    begin += run.time
    const name = plan.battery.packs[pack]?.name ?? names.pack(pack + 1)
    return words.charged(name, run.stored, run.time, [...phases, battery.ends[run.end]])
  })
}

/** Which pack comes off and which goes on; undefined where no swap is planned. */
export function swapSentence(
  { plan }: Outcome,
  { swap, packsBefore }: Halt,
  words: SheetWords['halt'],
): string | undefined {
  if (swap === undefined) return undefined
  const { packs } = plan.battery
  const [off, on] = [packs[swap.off]!.name, packs[swap.on]!.name]
  if (swap.on === swap.off) return words.noOther(on)
  return words.swapped(off, packsBefore[swap.off]!, on, packsBefore[swap.on]!)
}
