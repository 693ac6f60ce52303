import { expect, it } from 'vitest'
import { cellChecks } from '../reference/battery-cell'
import { chargeChecks } from '../reference/battery-charge'
import { packChecks } from '../reference/battery-pack'
import { cableChecks } from '../reference/charging-cable'
import { sourceChecks } from '../reference/charging-source'
import { measure } from '../reference/check'

// What the gate holds the packs and their charging against, without all else that it loads.
it.each(Object.entries({ cellChecks, packChecks, chargeChecks, sourceChecks, cableChecks }))('%s', (topic, checks) => {
  for (const check of checks) expect(measure(topic, check).holds, check.quantity).toBe(true)
})
