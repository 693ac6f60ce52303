import { planVersion } from '../../src/model/plan/schema'
import { IDBFactory } from 'fake-indexeddb'
import { openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import 'fake-indexeddb/auto'
import { readDay, routeKey, type Day } from '../../src/state/day'
import { Store, type Writing } from '../../src/state/store'

const bytes = Uint8Array.of(60, 103, 112, 120, 62)
const day: Day = {
  ...{ id: 'a', name: 'A ride', isNamed: false, route: 'key', fileName: 'a ride.gpx' },
  ...{ choice: { line: 2, riddenGaps: [0, 3] }, plan: '{"of":"a"}', at: 0, changed: 1000 },
}
const step = (of: string) => ({ choice: day.choice, plan: of })
const writing = (change: Partial<Day> = {}, rest: Partial<Writing> = {}): Writing => ({
  ...{ day: { ...day, ...change }, bytes: undefined, steps: { forget: [], put: [] }, rider: undefined, ...rest },
})

const allowed = globalThis.indexedDB
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory()
})
afterEach(() => {
  globalThis.indexedDB = allowed
  vi.useRealTimers()
})

describe('Store', () => {
  it('has nothing at first, and afterwards each day as it was kept last, the route as long as no other is given', async () => {
    const store = new Store()
    expect(await store.shown()).toBeUndefined()
    expect(await store.days()).toEqual([])
    expect(await store.day('a')).toBeUndefined()
    await store.keep(writing({}, { bytes }))
    await store.keep(writing({ plan: '{"of":"b"}', changed: 2000 }))
    await store.keep(writing({ id: 'b', changed: 1500 }))
    const again = new Store()
    expect(await again.shown()).toEqual({ day: 'b' })
    expect(await again.days()).toMatchObject([{ id: 'a', plan: '{"of":"b"}' }, { id: 'b' }])
    expect(await again.day('a')).toEqual({ record: { ...day, plan: '{"of":"b"}', changed: 2000 }, bytes, steps: [] })
    expect(await again.day('b')).toMatchObject({ bytes })
    await again.show({ sample: 'flat.gpx' })
    expect(await again.shown()).toEqual({ sample: 'flat.gpx' })
  })

  it('keeps all of one moment or nothing', async () => {
    const store = new Store()
    await store.keep(writing({}, { bytes, rider: 'first' }))
    const uncloneable = { plan: '{"of":"b"}', choice: (() => {}) as never }
    await expect(store.keep(writing(uncloneable, { rider: 'second' }))).rejects.toThrow('failed')
    expect(await store.day('a')).toMatchObject({ record: day })
    expect(await store.rider()).toBe('first')
  })

  it('keeps steps by their numbers, forgets those it is told, and no other day\u2019s', async () => {
    const store = new Store()
    const put = [0, 1, 2].map((at) => [at, step(`step ${at}`)] as const)
    await store.keep(writing({}, { bytes, steps: { forget: 'all', put } }))
    await store.keep(writing({ id: 'b' }, { steps: { forget: 'all', put: [[7, step('b')]] } }))
    await store.keep(writing({}, { steps: { forget: [1], put: [[3, step('step 3')]] } }))
    const kept = (await store.day('a'))!.steps
    expect(kept.map(([at]) => at)).toEqual([0, 2, 3])
    expect(kept[2]![1]).toEqual(step('step 3'))
    await store.keep(writing({}, { steps: { forget: 'all', put: [[4, step('step 4')]] } }))
    expect((await store.day('a'))!.steps.map(([at]) => at)).toEqual([4])
    expect((await store.day('b'))!.steps.map(([at]) => at)).toEqual([7])
  })

  it('removes a day, its route only with the last that uses it, and puts all of it back', async () => {
    const store = new Store()
    await store.keep(writing({}, { bytes, steps: { forget: [], put: [[0, step('0')]] } }))
    await store.add([{ record: { ...day, id: 'b' }, bytes: undefined, steps: [] }])
    await store.remove('b')
    expect(await store.day('b')).toBeUndefined()
    expect(await store.day('a')).toMatchObject({ bytes })
    const whole = (await store.remove('a'))!
    expect(whole).toEqual({ record: day, bytes, steps: [[0, step('0')]] })
    const database = await openDB('wattfare')
    expect([await database.count('routes'), await database.count('steps'), await database.count('days')]).toEqual([
      0, 0, 0,
    ])
    database.close()
    await store.add([whole])
    expect(await store.day('a')).toEqual(whole)
  })

  it('changes what is said of a day and nothing else', async () => {
    const store = new Store()
    await store.keep(writing({}, { bytes }))
    await store.change('a', { name: 'Renamed', isNamed: true })
    await store.change('none', { name: 'Renamed' })
    expect(await store.days()).toEqual([{ ...day, name: 'Renamed', isNamed: true }])
  })

  it('keeps rider and bike apart from those of a newer version, and has the newest it knows', async () => {
    const database = new Store()
    await database.keep(writing({}, { rider: 'of this version' }))
    const raw = await openDB('wattfare')
    await raw.put('desk', 'newer', 'rider 0099')
    await raw.put('desk', 'older', 'rider 0001')
    expect(await database.rider()).toBe('of this version')
    await database.keep(writing({}, { rider: 'later' }))
    expect(await raw.get('desk', 'rider 0099')).toBe('newer')
    await raw.delete('desk', `rider ${String(planVersion).padStart(4, '0')}`)
    expect(await database.rider()).toBe('older')
    raw.close()
  })
})

/** A database as version 1 made it: one table without keys of its own. */
async function ofVersion1(kept: Record<string, unknown>): Promise<void> {
  const database = await openDB('wattfare', 1, { upgrade: (database) => void database.createObjectStore('desk') })
  for (const [key, value] of Object.entries(kept)) await database.put('desk', value, key)
  database.close()
}

describe('the step from version 1', () => {
  const file = {
    bytes,
    fileName: 'a ride.gpx',
    choice: { line: [2, 0], riddenGaps: [1], marked: [{ from: 0.5, to: 9 }] },
  }

  it('makes a day of file and plan, which is the one on screen', async () => {
    await ofVersion1({ file, plan: '{"version":1}' })
    const store = new Store()
    const [record] = await store.days()
    const { id } = record as Day
    expect(await store.shown()).toEqual({ day: id })
    const { choice } = file
    expect(record).toMatchObject({ fileName: 'a ride.gpx', name: 'a ride.gpx', choice, plan: '{"version":1}', at: 0 })
    expect(record).not.toHaveProperty('sample')
    expect(await store.day(id)).toMatchObject({ bytes, steps: [] })
    expect(await new Store().days()).toEqual([record])
  })

  it('names the route by its bytes, so that one opened once more is kept once', async () => {
    await ofVersion1({ file, plan: '{"version":1}' })
    const store = new Store()
    const [record] = (await store.days()) as [Day]
    expect(record.route).toBe(await routeKey(bytes))
    await store.keep(writing({ id: 'another', route: await routeKey(bytes) }, { bytes }))
    const raw = await openDB('wattfare')
    expect(await raw.getAllKeys('routes')).toEqual([record.route])
    raw.close()
  })

  it('takes a sample for what it is', async () => {
    await ofVersion1({ file: { ...file, fileName: 'into-town-18km.gpx' }, plan: '{}' })
    expect(await new Store().days()).toMatchObject([{ sample: 'into-town-18km.gpx' }])
  })

  it('lets what was set aside, a half alone and what is damaged stand in the list just as they are', async () => {
    const aside = { half: 'file', value: file, at: 5000 }
    const spoilt = { ...file, choice: { line: 'last', riddenGaps: [] } }
    await ofVersion1({
      file: spoilt,
      plan: '{',
      'aside 5000 file': aside,
      'aside 4000 plan': { half: 'plan', value: 17, at: 4000 },
    })
    const records = (await new Store().days()) as { id: string }[]
    expect(records).toMatchObject([
      { name: 'a ride.gpx', file: spoilt, plan: '{' },
      { name: 'a ride.gpx', file, changed: 5000 },
      { name: '', plan: 17, changed: 4000 },
    ])
    expect(new Set(records.map(({ id }) => id)).size).toBe(3)
    for (const record of records) expect(readDay(record)).toEqual({ ok: false, fault: { code: 'damaged' } })
  })

  it('has nothing of a database in which nothing was kept', async () => {
    await ofVersion1({})
    expect(await new Store().days()).toEqual([])
    expect(await new Store().shown()).toBeUndefined()
  })
})

describe('where the storage fails', () => {
  const saysAll = async (store: Store, fault: string) => {
    for (const asked of [store.shown(), store.days(), store.rider(), store.day('a'), store.keep(writing())])
      await expect(asked).rejects.toMatchObject({ fault })
  }

  it('says that it is forbidden', async () => {
    globalThis.indexedDB = {
      open: () => {
        throw new DOMException('denied', 'SecurityError')
      },
    } as unknown as IDBFactory
    await saysAll(new Store(), 'forbidden')
  })

  it('says that it is of a newer version, and leaves that as it is', async () => {
    ;(await openDB('wattfare', 3, { upgrade: (database) => void database.createObjectStore('later') })).close()
    await saysAll(new Store(), 'newer')
    const database = await openDB('wattfare')
    expect([database.version, ...database.objectStoreNames]).toEqual([3, 'later'])
    database.close()
  })

  it('says that it has failed without its tables', async () => {
    ;(await openDB('wattfare', 2)).close()
    await saysAll(new Store(), 'failed')
  })

  it('says that it is silent after a while', async () => {
    globalThis.indexedDB = { open: () => new IDBOpenDBRequest() } as unknown as IDBFactory
    vi.useFakeTimers()
    const asked = expect(new Store().shown()).rejects.toMatchObject({ fault: 'silent' })
    await vi.advanceTimersByTimeAsync(3000)
    await asked
  })

  it('makes room for a newer build in another window, and says so then', async () => {
    const store = new Store()
    await store.keep(writing())
    ;(await openDB('wattfare', 3)).close()
    await expect(store.keep(writing())).rejects.toMatchObject({ fault: 'newer' })
  })
})
