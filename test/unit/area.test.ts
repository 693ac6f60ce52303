import { describe, expect, it } from 'vitest'
import { readArea } from '../../src/work/area'
import { islandTiles, writePmtiles } from '../pmtiles'

const blob = (bytes: Buffer) => new Blob([new Uint8Array(bytes)])
const islands = islandTiles(8)

describe('readArea', () => {
  it('tells what a PMTiles file says of itself, its attribution as text', async () => {
    expect(await readArea(blob(islands))).toEqual({
      kind: 'vector',
      bounds: [-152.3, 40.5, -150.8, 41.5],
      minZoom: 0,
      maxZoom: 8,
      attribution: 'Surveyors of Tarrovay © nobody',
      layers: ['earth', 'places'],
    })
  })

  it('takes pictures too, and does without metadata', async () => {
    const tiles = [{ z: 3, x: 1, y: 2, bytes: new Uint8Array([1]) }]
    const facts = await readArea(blob(writePmtiles({ tiles, type: 2, bounds: [-10, -10, 10, 10], metadata: {} })))
    expect(facts).toMatchObject({ kind: 'raster', minZoom: 3, maxZoom: 3, attribution: '', layers: [] })
  })

  it.each([
    ['of another kind', Buffer.from('<gpx></gpx>'), { code: 'notPmtiles' }],
    ['empty', Buffer.alloc(0), { code: 'notPmtiles' }],
    [
      'of another version',
      Buffer.concat([Buffer.from('PMTiles\x02'), islands.subarray(8)]),
      { code: 'otherVersion', version: 2 },
    ],
    ['cut off in its tiles', islands.subarray(0, islands.length - 100), { code: 'damaged' }],
    ['cut off in its header', islands.subarray(0, 60), { code: 'damaged' }],
    [
      'with a spoilt directory',
      Buffer.concat([islands.subarray(0, 127), Buffer.alloc(40), islands.subarray(167)]),
      { code: 'damaged' },
    ],
    [
      'with tiles of an unknown kind',
      Buffer.concat([islands.subarray(0, 99), Buffer.from([0]), islands.subarray(100)]),
      { code: 'otherTiles' },
    ],
  ])('refuses a file %s', async (_, bytes, fault) => {
    expect(await readArea(blob(bytes))).toEqual(fault)
  })
})
