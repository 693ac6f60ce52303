import { expect, it } from 'vitest'
import { measure } from '../reference/check'
import { physicsTopics } from '../reference/physics'

// What the gate holds the ride against, without all else that it loads.
it.each(Object.entries(physicsTopics))('%s', (topic, checks) => {
  for (const check of checks) expect(measure(topic, check).holds, check.quantity).toBe(true)
})
