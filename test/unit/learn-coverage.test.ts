import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { readRoute } from '../../src/model/route/read'
import { coverage, learnt, type Scores } from '../learning/study'

const seeds = 40
const limit = 600_000 // ms, on a machine that is busy with all else; alone it takes about 10 s

/*
 * A small part of what `npx tsx test/learning/run.ts 1000` measures, on a short route: truths drawn from what is believed, rides recorded with the errors
 * of a receiver and a barometer, and what is learnt held against the truth. Of all scores together so many lie in their spans; those of one ride
 * hang together, so the bounds are three standard errors of about 100 independent ones.
 */
it(
  'of forty simulated rides the truth lies in spans of 80 and 95 % about as often as they say',
  async () => {
    const file = new Uint8Array(readFileSync(new URL('../../sample-routes/into-town-18km.gpx', import.meta.url)))
    const town = await readRoute(file, 'town.gpx')
    if (!town.ok) throw new Error(town.fault.code)
    const all: Scores[][] = []
    for (let seed = 1; seed <= seeds; seed++) {
      const one = await learnt(seed, town.route, town.route)
      all.push([one.without, one.with])
    }
    for (const k of [0, 1]) {
      const { in80, in95 } = coverage(all.flatMap((scores) => Object.values(scores[k]!)))
      expect(in80).toBeGreaterThan(0.68)
      expect(in80).toBeLessThan(0.92)
      expect(in95).toBeGreaterThan(0.885)
    }
  },
  limit,
)
