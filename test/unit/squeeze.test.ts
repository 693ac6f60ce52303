import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { readRoute } from '../../src/model/route/read'
import { squeeze } from '../../src/state/squeeze'

it('a squeezed file takes less room and gives the same route; once is enough', async () => {
  const name = 'into-town-18km.gpx'
  const path = fileURLToPath(new URL(`../../sample-routes/${name}`, import.meta.url))
  const bytes = new Uint8Array(readFileSync(path))
  const file = { bytes, fileName: name }
  await squeeze(file)
  expect(file.bytes.length).toBeLessThan(bytes.length / 5)
  expect(await readRoute(file.bytes, name)).toEqual(await readRoute(bytes, name))
  const once = file.bytes
  await squeeze(file)
  expect(file.bytes).toBe(once)
})
