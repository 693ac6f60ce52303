import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { learnFor, type LearnReport } from '../../src/cli/learn'
import { near } from '../asserts'
import { asGpx, recorded, roads, standing } from '../recordings'

const root = new URL('../../', import.meta.url)
const files: Record<string, string> = {
  'out.gpx': asGpx('Out', recorded([roads(1800), standing(300), roads(1800)], 5)),
  'even.gpx': asGpx('Even', recorded([{ time: 3000, speed: () => 5 }], 5)),
}
const read = (name: string) =>
  files[name] === undefined ? new Uint8Array(readFileSync(new URL(name, root))) : new TextEncoder().encode(files[name])
const asked = async (...words: string[]) => JSON.parse(await learnFor([...words, '--json'], read)) as LearnReport
const sample = 'sample-routes/two-passes-62km.gpx'

describe('what a ride tells, for scripts', () => {
  it('are its facts, each figure by its path, and what a reading of the charge would be worth', async () => {
    const { facts, beliefs, correlations, worth, prediction, warnings, further } = await asked(sample)
    near(facts.length_m, 62_000, 300)
    near(facts.elapsed_s, facts.riding_s + facts.stopped_s + facts.crossing_s, 0.1)
    // As sample-routes/roads.ts has them: 9 and 35 minutes.
    expect(facts.halts.length).toBe(2)
    near(facts.halts[0]!.seconds, 540, 20)
    near(facts.halts[1]!.seconds, 2100, 20)
    expect([facts.power_W, facts.heart_per_min, further, prediction]).toEqual([null, null, [], null])
    for (const [path, one] of Object.entries(beliefs)) {
      expect(one.low80, path).toBeLessThan(one.middle)
      expect(one.high80, path).toBeGreaterThan(one.middle)
      expect(one.prior_low80, path).toBeLessThan(one.prior_high80)
    }
    expect(Object.keys(beliefs)).toContain('assist.climbRatio')
    expect(Math.abs(correlations[0]!.value)).toBeGreaterThanOrEqual(Math.abs(correlations[1]!.value))
    const ratio = worth!.find(({ path }) => path === 'assist.ratio')!
    expect(ratio.then_pct).toBeLessThan(0.6 * ratio.now_pct)
    expect(warnings.map(({ code }) => code)).toEqual(['chargeNotRead'])
  })

  it('have the charge in them where it is read, and no assist where the plan has none', async () => {
    const { beliefs, worth, warnings } = await asked(sample, '--charge-start', '100', '--charge-end', '50')
    expect(beliefs['assist.ratio']!.verdict).toBe('learnt')
    expect([worth, warnings]).toEqual([null, []])
    const less = await asked(sample, '--charge-start', '100', '--charge-end', '80')
    expect(less.beliefs['assist.ratio']!.middle).toBeLessThan(beliefs['assist.ratio']!.middle)
    const muscle = await asked(sample, '--set', 'assist.ratio=0', '--set', 'assist.climbRatio=0')
    expect(Object.keys(muscle.beliefs).filter((path) => path.startsWith('assist'))).toEqual([])
    expect(muscle.warnings).toEqual([])
  })

  it('foretell the rest beside the plain guess and what was ridden', async () => {
    const { prediction, facts } = await asked(sample, '--until', '31')
    const { riding_s, low80_s, high80_s, plain_guess_s, ridden_s, from_km } = prediction!
    expect([low80_s < riding_s, riding_s < high80_s, from_km]).toEqual([true, true, 31])
    expect(ridden_s).toBeLessThan(facts.riding_s)
    near(plain_guess_s, ((facts.riding_s - ridden_s) / 31_000) * (facts.length_m - 31_000), 0.001 * plain_guess_s)
  })

  it('foretell what the rest takes out of the packs where the charge is read there and at the end', async () => {
    const words = [sample, '--until', '31', '--charge-start', '100', '--charge-end', '40']
    const { prediction, facts } = await asked(...words, '--charge-until', '66')
    const { Wh, low80_Wh, high80_Wh, plain_guess_Wh, read_Wh } = prediction!.energy!
    expect([low80_Wh < Wh, Wh < high80_Wh]).toEqual([true, true])
    // By hand: 34 points over 31 km, 26 over the rest; places lie on stations.
    near(plain_guess_Wh / read_Wh, (34 / 26) * (facts.length_m / 31_000 - 1), 0.002)
    // Half as much used before says half as much to come.
    const sparing = await asked(...words, '--charge-until', '83')
    expect(sparing.prediction!.energy!.Wh).toBeLessThan(0.7 * Wh)
    const without = await asked(...words)
    expect(without.prediction!.energy).toBeNull()
    expect(without.warnings).toContainEqual({ code: 'chargeUntilNotRead' })
  })

  it('come from several recordings; one with made-up times is told and not used', async () => {
    const { facts, further, warnings, beliefs } = await asked('even.gpx', 'out.gpx')
    expect([facts.recording, further.map(({ recording }) => recording)]).toEqual(['even.gpx', ['out.gpx']])
    expect(warnings).toContainEqual({ code: 'madeUpTimes', recording: 'even.gpx' })
    const alone = await asked('out.gpx')
    expect(beliefs).toEqual(alone.beliefs)
    const none = await asked('even.gpx')
    expect(new Set(Object.values(none.beliefs).map(({ verdict }) => verdict))).toEqual(new Set(['not']))
  })

  it('can be read in a terminal', async () => {
    const text = await learnFor([sample, '--until', '31'], read)
    expect(text).toContain('standing in 2 halts')
    expect(text).toMatch(/rider\.power +\d+/)
    expect(text).toMatch(/From km 31\.0: foretold \d h/)
    expect(text).toMatch(/With the charge at start and end assist\.ratio would be known to \d+ % instead of \d+ %\./)
  })

  it.each([
    [['sample-routes/two-islands-165km.gpx'], /has no times of a ride/],
    [['test/files/web-page.gpx'], /./],
    [[], /No route file is named/],
    [[sample, '--charge-until', '50'], /--charge-until needs --until/],
    [[sample, '--until', '31', '--charge-until', '30', '--charge-end', '40'], /--charge-end is above --charge-until/],
    [[sample, '--until', '80'], /--until needs a place from km 1 to km 62\.0/],
    [[sample, '--charge-end', '120'], /--charge-end needs a percentage/],
    [[sample, '--charge-start', '40', '--charge-end', '60'], /--charge-end is above --charge-start/],
    [[sample, '--power'], /There is no option --power/],
  ])('are refused in one line: %j', async (words, why) => {
    await expect(learnFor(words, read)).rejects.toThrow(why)
  })
})
