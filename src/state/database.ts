import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb'
import * as v from 'valibot'
import { choiceSchema } from '../model/route/choice-schema'
import { newId, routeKey, type Day } from './day'

/** Days, the bytes of their routes, their steps of undo, and what else outlives a visit. What is read may be anything. */
export interface Tables extends DBSchema {
  desk: { key: string; value: unknown }
  days: { key: string; value: unknown; indexes: { route: string } }
  routes: { key: string; value: unknown }
  steps: { key: [day: string, at: number]; value: unknown }
}
export type Database = IDBPDatabase<Tables>
type Upgrade = IDBPTransaction<Tables, StoreNames<Tables>[], 'versionchange'>

/** Why nothing can be kept, or read. */
export type StorageFault = 'forbidden' | 'full' | 'silent' | 'newer' | 'failed'

export class StorageError extends Error {
  constructor(readonly fault: StorageFault) {
    super(fault)
  }
}

/** As a fault of the storage, whatever was thrown. */
export function storageFault(error: unknown): StorageFault {
  if (error instanceof StorageError) return error.fault
  const { name } = error as Partial<DOMException>
  if (name === 'QuotaExceededError') return 'full'
  if (name === 'VersionError') return 'newer'
  if (name === 'SecurityError') return 'forbidden'
  return 'failed'
}

const patience = 3000 // ms

/** What is asked for, or StorageError 'silent' where no answer comes; it may still come later. */
export function answered<T>(asked: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined
  const silence = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new StorageError('silent')), patience)
  })
  return Promise.race([asked, silence]).finally(() => clearTimeout(timer))
}

const version = 2

/** Async, so that a browser that throws at once is one that rejects. @param lost called when the connection is gone */
export const openDatabase = async (name: string, lost: () => void): Promise<Database> => {
  if (!('indexedDB' in globalThis)) throw new StorageError('forbidden')
  const database = await openDB<Tables>(name, version, {
    upgrade: (database, old, _, transaction) => {
      if (old < 1) database.createObjectStore('desk')
      if (old < 2) {
        database.createObjectStore('days', { keyPath: 'id' }).createIndex('route', 'route')
        database.createObjectStore('routes')
        database.createObjectStore('steps')
        if (old === 1) toVersion2(transaction).catch(() => transaction.abort())
      }
    },
    // Another window has a newer build, which waits for this one.
    blocking: () => {
      database.close()
      lost()
    },
    terminated: lost,
  })
  await nameRoute(database)
  return database
}

/** The samples of version 1, which were kept like a file of one's own. */
const oldSamples = ['two-islands-165km.gpx', 'two-passes-62km.gpx', 'into-town-18km.gpx']

const keptFile = v.object({ bytes: v.instance(Uint8Array), fileName: v.string(), choice: choiceSchema })

/** A day of which a part is missing or not as it was kept, just as it is: it is named, and can be saved. */
export interface Wreck {
  id: string
  name: string
  changed: number
  file?: unknown
  plan?: unknown
}

/**
 * One route file and one plan were kept, and beside them what could not be used of earlier visits. All become days; what was kept last is the one that
 * is open, and what can't be used stays as it is.
 */
async function toVersion2(transaction: Upgrade): Promise<void> {
  const desk = transaction.objectStore('desk')
  const days = transaction.objectStore('days')
  const [keys, values] = await Promise.all([desk.getAllKeys(), desk.getAll()])
  const kept = new Map(keys.map((key, i) => [key, values[i]]))
  await desk.clear()
  const changed = Date.now()
  for (const [key, value] of kept)
    if (key.startsWith('aside ')) {
      const { half, value: part, at } = value as { half: 'file' | 'plan'; value: unknown; at: number }
      await days.put({ id: newId(), name: nameOf(part), changed: at, [half]: part } satisfies Wreck)
    }
  const [file, plan] = [kept.get('file'), kept.get('plan')]
  if (file === undefined && plan === undefined) return
  const id = newId()
  const read = v.safeParse(keptFile, file)
  if (read.success && typeof plan === 'string') {
    const { bytes, fileName, choice } = read.output
    const route = routeOfVersion1
    const day: Day = {
      ...{ id, name: fileName, isNamed: false, fileName, choice },
      ...(oldSamples.includes(fileName) ? { sample: fileName } : {}),
      ...{ route, plan, at: 0, changed },
    }
    await Promise.all([transaction.objectStore('routes').put(bytes, route), days.put(day)])
  } else await days.put({ id, name: nameOf(file), changed, file, plan } satisfies Wreck)
  await desk.put({ day: id }, 'open')
}

/** Until the next opening, for a step between versions can't wait for a digest. */
const routeOfVersion1 = 'version 1'

/** Names the route that version 1 kept by its bytes, as all others are: opened once more it is kept once. */
async function nameRoute(database: Database): Promise<void> {
  const bytes = await database.get('routes', routeOfVersion1)
  if (!(bytes instanceof Uint8Array)) return
  const route = await routeKey(bytes)
  const transaction = database.transaction(['days', 'routes'], 'readwrite', { durability: 'strict' })
  const [days, routes] = [transaction.objectStore('days'), transaction.objectStore('routes')]
  const named = (await days.index('route').getAll(routeOfVersion1)) as Day[]
  await Promise.all([
    ...named.map((day) => days.put({ ...day, route })),
    routes.put(bytes, route),
    routes.delete(routeOfVersion1),
    transaction.done,
  ])
}

const nameOf = (file: unknown): string => {
  const { fileName } = (file ?? {}) as { fileName?: unknown }
  return typeof fileName === 'string' ? fileName : ''
}
