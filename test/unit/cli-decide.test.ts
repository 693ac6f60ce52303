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

it('the door for the best assist tells the price of a watt-hour along the route, and what the best gains over one ratio and a pair', async () => {
  const words = ['north.gpx', '--ratios', '0,100,200', '--json', '--set', 'battery.packs.0.capacityAh=1.6']
  const told = JSON.parse(await decideFor(words, read)) as {
    best: number
    ways: { by: string; elapsed_s: number; finish: string }[]
    prices: { s_per_Wh: number }[]
    price_along: { start_km: number; end_km: number; s_per_Wh: number }[]
    gain_over_constant_s: number
    gain_over_pair_s: number
  }
  const { ways, best, prices, price_along } = told
  const later = (by: string) => ways.find((way) => way.by === by)!.elapsed_s - ways[best]!.elapsed_s
  expect(told.gain_over_constant_s).toBeCloseTo(later('constant'), 3)
  expect(told.gain_over_pair_s).toBeCloseTo(later('pair'), 3)
  expect(told.gain_over_constant_s).toBeGreaterThan(1)
  expect(ways[best]!.finish).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d/)
  // One price holds wherever more assist would make one sooner, and the pieces cover the way without a gap.
  expect(new Set(price_along.map(({ s_per_Wh }) => s_per_Wh))).toEqual(new Set([0, prices[0]!.s_per_Wh]))
  expect(price_along[0]!.start_km).toBe(0)
  expect(price_along.at(-1)!.end_km).toBeGreaterThan(7.9)
  price_along.slice(1).forEach(({ start_km }, k) => expect(start_km).toBe(price_along[k]!.end_km))
})

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
