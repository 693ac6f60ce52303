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
  it('has nothing at first, and afterwards what was kept last, the file as long as no other is given', async () => {
    const store = new Store()
    expect(await store.restore()).toBeUndefined()
    expect(await store.keep('{"version":1}', { ...file, fileName: 'older.gpx' })).toBe(true)
    const withPart = { ...file, choice: { ...file.choice, marked: [{ from: 1200.5, to: 9000 }] } }
    expect(await store.keep('{"version":1}', withPart)).toBe(true)
    expect(await store.keep('{"version":2}', undefined)).toBe(true)
    expect(await new Store().restore()).toEqual({ file: withPart, plan: '{"version":2}' })
  })

  it('has what was kept of every kind of choice', async () => {
    const store = new Store()
    for (const line of ['proposed', 'joined', 0, [2, 0]] as const) {
      const kept = { ...file, choice: { ...file.choice, line } }
      await store.keep('{}', kept)
      expect(await store.restore()).toEqual({ file: kept, plan: '{}' })
    }
  })

  it('keeps both of one moment or none', async () => {
    const store = new Store()
    await store.keep('{"of":"a"}', file)
    const uncloneable = { ...file, fileName: 'b.gpx', choice: { ...file.choice, marked: (() => {}) as never } }
    expect(await store.keep('{"of":"b"}', uncloneable)).toBe(false)
    expect(await store.restore()).toEqual({ file, plan: '{"of":"a"}' })
  })

  it('tells a half that is not as it was kept, or missing, from one that is', async () => {
    const store = new Store()
    await store.keep('{}', file)
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
      expect(await store.restore(), JSON.stringify(foreign)).toEqual({ file: undefined, plan: '{}' })
    }
    await database.put('desk', file, 'file')
    await database.put('desk', { version: 1 }, 'plan')
    expect(await store.restore()).toEqual({ file, plan: undefined })
    await database.delete('desk', 'plan')
    expect(await store.restore()).toEqual({ file, plan: undefined })
    database.close()
  })

  it('sets aside what is kept, just as it is, and again without touching what stands there', async () => {
    const store = new Store()
    await store.keep('{"version":99}', file)
    expect(await store.setAside(1000)).toBe(true)
    expect(await store.restore()).toBeUndefined()
    const first = [
      { half: 'file', value: file, at: 1000 },
      { half: 'plan', value: '{"version":99}', at: 1000 },
    ]
    expect(await store.aside()).toEqual(first)
    await store.keep('{', undefined)
    expect(await store.setAside(2000)).toBe(true)
    expect(await new Store().aside()).toEqual([{ half: 'plan', value: '{', at: 2000 }, ...first])
  })
})

it('a database without its table is not to be read, nothing is kept in it, and nothing is thrown', async () => {
  ;(await openDB('wattfare', 1)).close()
  const store = new Store()
  expect(await store.restore()).toEqual({ file: undefined, plan: undefined })
  expect(await store.keep('{}', file)).toBe(false)
  expect(await store.setAside(0)).toBe(false)
  expect(await store.aside()).toEqual([])
})

describe('where the browser forbids it', () => {
  const allowed = globalThis.indexedDB
  afterEach(() => {
    globalThis.indexedDB = allowed
  })

  it('nothing is kept or set aside, and nothing is thrown', async () => {
    globalThis.indexedDB = {
      open: () => {
        throw new DOMException('denied', 'SecurityError')
      },
    } as unknown as IDBFactory
    const store = new Store()
    expect(await store.keep('{}', file)).toBe(false)
    expect(await store.setAside(0)).toBe(false)
    expect(await store.restore()).toBeUndefined()
    expect(await store.aside()).toEqual([])
  })
})
