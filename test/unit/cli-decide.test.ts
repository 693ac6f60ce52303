import { expect, it } from 'vitest'
import { decideFor } from '../../src/cli/decide'
import { Fault } from '../../src/cli/arguments'
import { loadOutsOf } from '../../src/model/decide/load-outs'
import { defaultPlan } from '../../src/model/plan/defaults'

/** Eight kilometres to the north, up and down. */
const gpx = `<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="test"><trk><name>North</name><trkseg>${Array.from(
  { length: 161 },
  (_, k) =>
    `<trkpt lat="${(45 + k * 0.00045).toFixed(5)}" lon="7"><ele>${(300 + 40 * Math.sin(k / 20)).toFixed(1)}</ele></trkpt>`,
).join('')}</trkseg></trk></gpx>`
const read = () => new TextEncoder().encode(gpx)

it('the door for decisions tells a stated chance, stops, load-outs and starts where all is asked for, and else the assist alone', async () => {
  const asked = async (...words: string[]) =>
    JSON.parse(await decideFor(['north.gpx', '--ratios', '0,100,200', '--json', ...words], read)) as {
      code: string
      chance_pct: number | null
      others?: { stops: { advised: boolean }[]; load_outs: { packs: number; elapsed_s: number | null }[] }
    }
  const plain = await asked()
  expect(plain).toMatchObject({ code: 'found', chance_pct: null })
  expect(plain.others).toBeUndefined()
  const { chance_pct, others } = await asked('--sure', '80', '--all')
  expect(chance_pct).toBeGreaterThan(79)
  expect(others!.stops.filter(({ advised }) => advised).length).toBe(1)
  expect(others!.load_outs.map(({ packs }) => packs)).toEqual(
    loadOutsOf(defaultPlan(), String).map(({ packs }) => packs),
  )
  for (const { elapsed_s } of others!.load_outs) expect(elapsed_s).toBeGreaterThan(600)
  await expect(asked('--sure', '100')).rejects.toThrow(Fault)
})
