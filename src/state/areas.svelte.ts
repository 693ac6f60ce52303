import { openDB, type IDBPDatabase } from 'idb'
import type { RoutePoints } from '../model/route/route'
import type { AreaFacts } from '../work/area'

/** An area that the rider takes along, of a map or of heights. */
export interface Area {
  id: number
  name: string
  file: Blob
  facts: AreaFacts
}

const table = 'areas'

/** Areas of maps and of heights, kept in a database of their own. A browser that forbids it keeps them for this visit only. */
export class Areas {
  #list = $state.raw<readonly Area[]>([])
  #isRead = $state(false)
  /** What is drawn. */
  readonly maps = $derived(this.#list.filter(({ facts }) => facts.kind !== 'heights'))
  /** What elevation is taken from. */
  readonly heights = $derived(this.#list.filter(({ facts }) => facts.kind === 'heights'))
  readonly #database: Promise<IDBPDatabase | undefined>

  constructor(name = 'wattfare-maps') {
    this.#database = open(name).catch(() => undefined)
  }

  /** Whether those of earlier visits are there. */
  get isRead(): boolean {
    return this.#isRead
  }

  /** Those of earlier visits. */
  async restore(): Promise<void> {
    try {
      const kept = ((await (await this.#database)?.getAll(table)) ?? []) as Area[]
      this.#list = kept.filter(({ file, facts }) => file instanceof Blob && typeof facts === 'object')
    } catch {
      // What can't be read is not drawn.
    }
    this.#isRead = true
  }

  /** @returns whether it is kept for the next visit */
  async add(name: string, file: Blob, facts: AreaFacts): Promise<boolean> {
    const id = 1 + Math.max(0, ...this.#list.map((area) => area.id))
    const area = { id, name, file, facts }
    this.#list = [...this.#list, area]
    try {
      const database = await this.#database
      await database?.put(table, area)
      return database !== undefined
    } catch {
      return false
    }
  }

  async remove(id: number): Promise<void> {
    this.#list = this.#list.filter((area) => area.id !== id)
    try {
      await (await this.#database)?.delete(table, id)
    } catch {
      // It is drawn again on the next visit, and can be removed there.
    }
  }
}

/** Whether an area holds all points of a route. */
export const holds = (
  { bounds: [west, south, east, north] }: AreaFacts,
  { latitude, longitude }: RoutePoints,
): boolean =>
  latitude.every((degrees) => south <= degrees && degrees <= north) &&
  longitude.every((degrees) => west <= degrees && degrees <= east)

const open = async (name: string): Promise<IDBPDatabase> =>
  openDB(name, 1, { upgrade: (database) => void database.createObjectStore(table, { keyPath: 'id' }) })

export const areas = new Areas()
