import { IDBFactory } from 'fake-indexeddb'
import { openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import 'fake-indexeddb/auto'
import { Store, type KeptFile } from '../../src/state/store'

const file: KeptFile = {
  bytes: Uint8Array.of(60, 103, 112, 120, 62),
  fileName: 'a ride.gpx',
  choice: { line: 2, riddenGaps: [0, 3] },
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory()
})

describe('Store', () => {
  it('has nothing at first, and afterwards what was kept last', async () => {
    const store = new Store()
    expect(await store.restore()).toBeUndefined()
    expect(await store.keepFile({ ...file, fileName: 'older.gpx' })).toBe(true)
    expect(await store.restore(), 'a file without its plan').toBeUndefined()
    await store.keepPlan('{"version":1}')
    await store.keepFile(file)
    expect(await new Store().restore()).toEqual({ file, plan: '{"version":1}' })
    const withPart = { ...file, choice: { ...file.choice, marked: [{ from: 1200.5, to: 9000 }] } }
    await store.keepFile(withPart)
    expect(await new Store().restore()).toEqual({ file: withPart, plan: '{"version":1}' })
  })

  it('has what was kept of every kind of choice', async () => {
    const store = new Store()
    await store.keepPlan('{}')
    for (const line of ['proposed', 'joined', 0, [2, 0]] as const) {
      const kept = { ...file, choice: { ...file.choice, line } }
      await store.keepFile(kept)
      expect(await store.restore()).toEqual({ file: kept, plan: '{}' })
    }
  })

  it('takes what is not as it was kept for nothing', async () => {
    const store = new Store()
    await store.keepPlan('{}')
    const database = await openDB('wattfare', 1)
    for (const foreign of [
      'text',
      null,
      { ...file, bytes: [1, 2] },
      { ...file, fileName: 3 },
      { ...file, choice: null },
      { ...file, choice: { line: 'last', riddenGaps: [] } },
      { ...file, choice: { line: [], riddenGaps: [] } },
      { ...file, choice: { line: [0, -1], riddenGaps: [] } },
      { ...file, choice: { line: 0, riddenGaps: ['1'] } },
      { ...file, choice: { ...file.choice, marked: 'all' } },
      { ...file, choice: { ...file.choice, marked: [{ from: 0 }] } },
      { ...file, choice: { ...file.choice, marked: [{ from: 0, to: NaN }] } },
    ]) {
      await database.put('desk', foreign, 'file')
      expect(await store.restore(), JSON.stringify(foreign)).toBeUndefined()
    }
    await database.put('desk', file, 'file')
    await database.put('desk', { version: 1 }, 'plan')
    expect(await store.restore()).toBeUndefined()
    database.close()
  })
})

describe('where the browser forbids it', () => {
  const allowed = globalThis.indexedDB
  afterEach(() => {
    globalThis.indexedDB = allowed
  })

  it('nothing is kept, and nothing is thrown', async () => {
    globalThis.indexedDB = {
      open: () => {
        throw new DOMException('denied', 'SecurityError')
      },
    } as unknown as IDBFactory
    const store = new Store()
    expect(await store.keepFile(file)).toBe(false)
    expect(await store.keepPlan('{}')).toBe(false)
    expect(await store.restore()).toBeUndefined()
  })
})
