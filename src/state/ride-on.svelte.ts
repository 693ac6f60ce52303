import type { Outcome } from '../model/forecast/outcome'
import type { SheetRow } from '../model/readings/sheet'
import { chargeToRideOn, type ChargesToRideOn } from '../model/studies/ride-on'
import { studies } from '../work/studies'

/** What has to be left at each row of the day sheet to ride on, of forecasts that were looked at. */
const known = new WeakMap<Outcome, ChargesToRideOn>()
const distancesOf = (rows: readonly SheetRow[]) => rows.map(({ distance }) => distance)
const settlesAfter = 500 // ms

/** At once, as the printer wants it. @param rows of the forecast's day sheet */
export function rideOnNow(outcome: Outcome, rows: readonly SheetRow[]): ChargesToRideOn {
  const table = known.get(outcome) ?? chargeToRideOn(outcome.route, outcome.plan, distancesOf(rows))
  known.set(outcome, table)
  return table
}

/** The same for the screen: by a worker, a moment after the plan rests. */
export class RideOnTable {
  found = $state.raw<{ of: Outcome; table: ChargesToRideOn } | undefined>()
  readonly #queue = studies.queue(1)

  /** @param shown the forecast with the rows of its day sheet, as long as they are on screen */
  constructor(shown: () => { outcome: Outcome; rows: readonly SheetRow[] }) {
    $effect(() => {
      const { outcome, rows } = shown()
      const table = known.get(outcome)
      if (table !== undefined) {
        this.found = { of: outcome, table }
        return undefined
      }
      const wait = setTimeout(() => void this.#reckon(outcome, distancesOf(rows)), settlesAfter)
      return () => {
        clearTimeout(wait)
        this.#queue.cancel()
      }
    })
  }

  async #reckon(outcome: Outcome, distances: number[]) {
    const { route, plan } = outcome
    const got = await this.#queue.run('rideOnAt', route, [{ plan, distances }])
    if (!got.ok) return
    known.set(outcome, got.results[0]!)
    this.found = { of: outcome, table: got.results[0]! }
  }
}
