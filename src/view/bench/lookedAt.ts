import type { BenchStop } from '../../model/battery/alternatives'
import { chargeAfterStorage } from '../../model/battery/carried'
import { crossingsFor } from '../../model/plan/crossings'
import type { Halt, Outcome } from '../../model/forecast/outcome'
import type { CarriedSource } from '../../model/plan/schema'
import type { BenchWords } from '../words/bench'
import { stopKey } from './asked.svelte'

/** A stop or a crossing of the plan at which the bench can look. */
export interface Occasion {
  /** Unique among the occasions of an outcome. */
  key: string
  name: string
  /** Id of the stop; none for a crossing. */
  stop: string | undefined
  halt: Halt
  /** Whether the plan charges from the source here. */
  uses: boolean
}

/** Stops and crossings in the order of the day. */
export function occasionsOf(outcome: Outcome, source: CarriedSource, words: BenchWords): Occasion[] {
  const { plan, route, halts } = outcome
  const crossings = crossingsFor(route, plan)
  return halts.flatMap((halt): Occasion[] => {
    const stop = plan.stops.find(({ id }) => id === halt.stop)
    if (stop !== undefined)
      return [
        {
          key: stopKey(stop.id),
          name: words.atStop(stop.name, halt.distance),
          stop: stop.id,
          halt,
          uses: stop.source === source.id,
        },
      ]
    if (halt.gap === undefined) return []
    const name = words.atCrossing(halt.distance)
    const uses = crossings[halt.gap]?.source === source.id
    return [{ key: `crossing ${halt.gap}`, name, stop: undefined, halt, uses }]
  })
}

/** What is asked where no stop of the plan says it. */
export interface Asked {
  /** Of the bike's pack, 0 to 1. */
  charge: number
  /** s. */
  duration: number
}

/** The pack that the bench shows first: the first that the plan charges there. */
export const packAtFirst = (occasion: Occasion | undefined): number => occasion?.halt.charges[0]?.pack ?? 0

/** Time and charges with which a pack meets the source, without a charge wanted. */
export type Meeting = Omit<BenchStop, 'chargeTo'> & {
  /** Whether the plan charges this pack here. */
  planned: boolean
}

/**
 * Time and charges on arrival: of the outcome where the plan uses the source, as asked else.
 *
 * @param pack index
 */
export function meetingAt(occasion: Occasion | undefined, source: CarriedSource, pack: number, asked: Asked): Meeting {
  if (occasion?.uses !== true) return { ...asked, sourceCharge: chargeAfterStorage(source.carried), planned: false }
  const { charges, arrive, depart, packsBefore, carried } = occasion.halt
  const before = carried?.before ?? chargeAfterStorage(source.carried)
  const turn = charges.findIndex((one) => one.pack === pack)
  const earlier = charges.slice(0, Math.max(turn, 0))
  return {
    duration: depart - arrive - earlier.reduce((sum, { run }) => sum + run.time, 0),
    charge: packsBefore[pack]!,
    sourceCharge: earlier.at(-1)?.run.sourceCharge ?? before,
    planned: turn >= 0,
  }
}
