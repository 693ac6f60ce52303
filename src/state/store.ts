import { planVersion } from '../model/plan/schema'
import type { Day, Grounds } from './day'
import { answered, openDatabase, storageFault, StorageError, type Database } from './database'
import type { StepRecord } from './steps'

/** A route file as it was opened; readings of it with other choices share it. */
export interface RouteFile {
  bytes: Uint8Array
  fileName: string
  grounds?: Grounds
}

/** What is on screen: a day of the rider's, or a sample as it came. */
export type Shown = { day: string } | { sample: string }

/** What one moment of a day is kept as. */
export interface Writing {
  day: Day
  /** The bytes of its route, undefined where they are kept. */
  bytes: Uint8Array | undefined
  steps: { forget: 'all' | readonly number[]; put: readonly (readonly [at: number, step: StepRecord])[] }
  /** Rider and bike for new days, as the text of a plan; undefined where they stay. */
  rider: string | undefined
}

/** A day with all that is kept of it, just as it is. */
export interface Whole {
  record: unknown
  bytes: unknown
  steps: readonly (readonly [at: number, step: unknown])[]
}

/** On the disk when it is done, where the browser grants that. */
const durable = { durability: 'strict' } as const
const ofDays = ['desk', 'days', 'routes', 'steps'] as const
/** Apart by version, so that none takes the place of a newer one. */
const riderKey = (version = planVersion) => `rider ${String(version).padStart(4, '0')}`
const stepsOf = (id: string) => IDBKeyRange.bound([id, -Infinity], [id, Infinity])

/** Days in the browser, IndexedDB: each change one transaction. What can't be done rejects with a StorageError. */
export class Store {
  #opening: Promise<Database>
  #opened: Database | undefined

  constructor(private readonly name = 'wattfare') {
    this.#opening = this.#open()
  }

  #open(): Promise<Database> {
    const lost = () => {
      this.#opened = undefined
      this.#opening = this.#open()
    }
    const opening = openDatabase(this.name, lost).then((database) => (this.#opened = database))
    // Said by who asks for it.
    opening.catch(() => undefined)
    return opening
  }

  /** What was on screen last, undefined where nothing was. */
  async shown(): Promise<Shown | undefined> {
    const value = await this.#ask((database) => database.get('desk', 'open'))
    const { day, sample } = (value ?? {}) as { day?: unknown; sample?: unknown }
    return typeof day === 'string' ? { day } : typeof sample === 'string' ? { sample } : undefined
  }

  /** Keeps what is on screen; on its way at once, as in `keep`. */
  async show(shown: Shown): Promise<void> {
    await this.#write((database) => {
      const transaction = database.transaction('desk', 'readwrite', durable)
      const { done } = transaction
      done.catch(() => undefined)
      const put = transaction.store.put(shown, 'open')
      transaction.commit()
      return Promise.all([put, done])
    })
  }

  /** Rider and bike for new days, as the text of a plan of this version, or else of the one before that was kept last. */
  async rider(): Promise<string | undefined> {
    const texts = await this.#ask((database) => database.getAll('desk', IDBKeyRange.bound(riderKey(1), riderKey())))
    const text = texts.at(-1)
    return typeof text === 'string' ? text : undefined
  }

  /** Keeps rider and bike for new days. @param rider text of a plan of this version */
  async keepRider(rider: string): Promise<void> {
    await this.#write((database) => database.put('desk', rider, riderKey()))
  }

  /** All days, the one last changed first. */
  async days(): Promise<unknown[]> {
    const changed = (record: unknown) => Number((record as { changed?: unknown }).changed) || 0
    const all = await this.#ask((database) => database.getAll('days'))
    return all.sort((one, other) => changed(other) - changed(one))
  }

  /** @returns undefined where there is no such day */
  async day(id: string): Promise<Whole | undefined> {
    return this.#ask(async (database) => {
      const transaction = database.transaction(['days', 'routes', 'steps'])
      const record = await transaction.objectStore('days').get(id)
      if (record === undefined) return undefined
      const { route } = record as { route?: unknown }
      const steps = transaction.objectStore('steps')
      const [bytes, keys, values] = await Promise.all([
        typeof route === 'string' ? transaction.objectStore('routes').get(route) : undefined,
        steps.getAllKeys(stepsOf(id)),
        steps.getAll(stepsOf(id)),
      ])
      return { record, bytes, steps: keys.map(([, at], i) => [at, values[i]] as const) }
    })
  }

  /** Keeps a moment of the day on screen, all of it or nothing. Where the database is open nothing is waited for, so that all is on its way before a page that is left is gone. */
  async keep({ day, bytes, steps, rider }: Writing): Promise<void> {
    await this.#write((database) => {
      const transaction = database.transaction(ofDays, 'readwrite', durable)
      const { done } = transaction
      // Said here already, since a put may throw before anyone waits for it.
      done.catch(() => undefined)
      const [desk, kept] = [transaction.objectStore('desk'), transaction.objectStore('steps')]
      const puts: Promise<unknown>[] = [
        transaction.objectStore('days').put(day),
        desk.put({ day: day.id } satisfies Shown, 'open'),
      ]
      if (bytes !== undefined) puts.push(transaction.objectStore('routes').put(bytes, day.route))
      if (rider !== undefined) puts.push(desk.put(rider, riderKey()))
      if (steps.forget === 'all') puts.push(kept.delete(stepsOf(day.id)))
      else for (const at of steps.forget) puts.push(kept.delete([day.id, at]))
      for (const [at, step] of steps.put) puts.push(kept.put(step, [day.id, at]))
      transaction.commit()
      return Promise.all([...puts, done])
    })
  }

  /** Adds days, or puts back what `remove` gave. */
  async add(wholes: readonly Whole[]): Promise<void> {
    await this.#write(async (database) => {
      const transaction = database.transaction(ofDays, 'readwrite', durable)
      const { done } = transaction
      done.catch(() => undefined)
      const puts = wholes.flatMap(({ record, bytes, steps }) => {
        const { id, route } = record as Pick<Day, 'id' | 'route'>
        return [
          transaction.objectStore('days').put(record),
          ...(bytes === undefined ? [] : [transaction.objectStore('routes').put(bytes, route)]),
          ...steps.map(([at, step]) => transaction.objectStore('steps').put(step, [id, at])),
        ]
      })
      await Promise.all([...puts, done])
    })
  }

  /** Changes the record of a day that is on no screen. */
  async change(id: string, change: Partial<Day>): Promise<void> {
    await this.#write(async (database) => {
      const transaction = database.transaction('days', 'readwrite', durable)
      const record = await transaction.store.get(id)
      if (record !== undefined) await transaction.store.put({ ...(record as object), ...change })
      await transaction.done
    })
  }

  /** Removes a day, its steps, and the bytes of its route where no other day uses them; gives what it was. */
  async remove(id: string): Promise<Whole | undefined> {
    const whole = await this.day(id)
    await this.#write(async (database) => {
      const transaction = database.transaction(ofDays, 'readwrite', durable)
      const days = transaction.objectStore('days')
      await Promise.all([days.delete(id), transaction.objectStore('steps').delete(stepsOf(id))])
      const { route } = (whole?.record ?? {}) as { route?: unknown }
      if (typeof route === 'string' && (await days.index('route').count(route)) === 0)
        await transaction.objectStore('routes').delete(route)
      await transaction.done
    })
    return whole
  }

  async #ask<T>(question: (database: Database) => Promise<T>): Promise<T> {
    try {
      return await answered(this.#opening.then(question))
    } catch (error) {
      throw new StorageError(storageFault(error))
    }
  }

  async #write(writing: (database: Database) => Promise<unknown>): Promise<void> {
    try {
      await writing(this.#opened ?? (await this.#opening))
    } catch (error) {
      throw new StorageError(storageFault(error))
    }
  }
}
