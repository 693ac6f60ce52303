import { gzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { readRoute } from '../../src/model/route/read'

// Files at the limits take a while on a busy machine.
describe('limits', { timeout: 60_000 }, () => {
  it('more than 150 MB of text are refused, also from a small compressed file', async () => {
    const bomb = gzipSync(Buffer.alloc(151_000_000, ' '))
    expect(bomb.length).toBeLessThan(1_000_000)
    expect(await readRoute(bomb, 'a.gpx.gz')).toEqual({
      ok: false,
      fault: { code: 'tooLarge', most: 150_000_000 },
    })
    expect(await readRoute(new Uint8Array(150_000_001), 'a.gpx')).toHaveProperty('ok', false)
  })

  it('more than 2,000,000 points are refused', async () => {
    const many = '<trkpt lat="1" lon="1"></trkpt>\n'.repeat(2_000_001)
    expect(
      await readRoute(new TextEncoder().encode(`<gpx><trk><trkseg>${many}</trkseg></trk></gpx>`), 'a.gpx'),
    ).toEqual({
      ok: false,
      fault: { code: 'tooManyPoints', most: 2_000_000 },
    })
  })
})
