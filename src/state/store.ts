import { openDB, type IDBPDatabase } from 'idb'
import type { RouteChoice } from '../model/route/reading'
import type { Stretch } from '../model/route/travelled'

/** A route file as it was opened; readings of it with other choices share it. */
export interface RouteFile {
  bytes: Uint8Array
  fileName: string
}

export interface KeptFile extends RouteFile {
  choice: RouteChoice
}

export interface Kept {
  file: KeptFile
  /** The plan as text, to be validated like any other. */
  plan: string
}

const table = 'desk'

/** Plan and route file in the browser, IndexedDB. A browser that forbids it keeps nothing, and that is told. */
export class Store {
  private database: Promise<IDBPDatabase | undefined>

  constructor(name = 'wattfare') {
    this.database = open(name).catch(() => undefined)
  }

  async restore(): Promise<Kept | undefined> {
    const database = await this.database
    const file: unknown = await database?.get(table, 'file')
    const plan: unknown = await database?.get(table, 'plan')
    return isKeptFile(file) && typeof plan === 'string' ? { file, plan } : undefined
  }

  /** @returns whether it is kept: false where storage is forbidden or full */
  keepFile(file: KeptFile): Promise<boolean> {
    return this.put('file', file)
  }

  /** @returns whether it is kept */
  keepPlan(plan: string): Promise<boolean> {
    return this.put('plan', plan)
  }

  private async put(key: string, value: KeptFile | string): Promise<boolean> {
    const database = await this.database
    if (database === undefined) return false
    return database.put(table, value, key).then(
      () => true,
      () => false,
    )
  }
}

/** Async, so that a browser that throws at once is one that rejects. */
const open = async (name: string): Promise<IDBPDatabase> =>
  openDB(name, 1, { upgrade: (database) => void database.createObjectStore(table) })

function isKeptFile(value: unknown): value is KeptFile {
  if (typeof value !== 'object' || value === null) return false
  const { bytes, fileName, choice } = value as Partial<Record<keyof KeptFile, unknown>>
  if (!(bytes instanceof Uint8Array) || typeof fileName !== 'string' || typeof choice !== 'object' || choice === null)
    return false
  const { line, riddenGaps, marked } = choice as Partial<Record<keyof RouteChoice, unknown>>
  return (
    isLine(line) &&
    Array.isArray(riddenGaps) &&
    riddenGaps.every((gap) => typeof gap === 'number') &&
    (marked === undefined || (Array.isArray(marked) && marked.every(isStretch)))
  )
}

function isLine(value: unknown): value is RouteChoice['line'] {
  if (value === 'proposed' || value === 'joined') return true
  const numbers = Array.isArray(value) ? value : [value]
  return numbers.length > 0 && numbers.every((number) => Number.isInteger(number) && number >= 0)
}

function isStretch(value: unknown): value is Stretch {
  if (typeof value !== 'object' || value === null) return false
  const { from, to } = value as Partial<Record<keyof Stretch, unknown>>
  return Number.isFinite(from) && Number.isFinite(to)
}
