import { openDB, type IDBPDatabase } from 'idb'
import type { RouteChoice } from '../model/route/reading'

/** The route file as it was opened. */
export interface RouteFile {
  bytes: Uint8Array
  fileName: string
  choice: RouteChoice
}

export interface Kept {
  file: RouteFile
  /** The plan as text, to be validated like any other. */
  plan: string
}

const table = 'desk'

/** Plan and route file in the browser, IndexedDB. A browser that forbids it keeps nothing; that is said once by `works`. */
export class Store {
  private database: Promise<IDBPDatabase | undefined>

  constructor(name = 'wattfare') {
    this.database = open(name).catch(() => undefined)
  }

  async works(): Promise<boolean> {
    return (await this.database) !== undefined
  }

  async restore(): Promise<Kept | undefined> {
    const database = await this.database
    const file: unknown = await database?.get(table, 'file')
    const plan: unknown = await database?.get(table, 'plan')
    return isRouteFile(file) && typeof plan === 'string' ? { file, plan } : undefined
  }

  async keepFile(file: RouteFile): Promise<void> {
    await (await this.database)?.put(table, file, 'file')
  }

  async keepPlan(plan: string): Promise<void> {
    await (await this.database)?.put(table, plan, 'plan')
  }
}

/** Async, so that a browser that throws at once is one that rejects. */
const open = async (name: string): Promise<IDBPDatabase> =>
  openDB(name, 1, { upgrade: (database) => void database.createObjectStore(table) })

function isRouteFile(value: unknown): value is RouteFile {
  if (typeof value !== 'object' || value === null) return false
  const { bytes, fileName, choice } = value as Partial<Record<keyof RouteFile, unknown>>
  if (!(bytes instanceof Uint8Array) || typeof fileName !== 'string' || typeof choice !== 'object' || choice === null)
    return false
  const { line, riddenGaps } = choice as Partial<Record<keyof RouteChoice, unknown>>
  return (
    (line === 'joined' || typeof line === 'number') &&
    Array.isArray(riddenGaps) &&
    riddenGaps.every((gap) => typeof gap === 'number')
  )
}
