import { storageFault, type StorageFault } from './database'
import { newId, readDay, routeKey, textOf, type Day, type DayFault } from './day'
import { readDays, writeDay, writeDays, writeWreck, type DaysReading } from './day-file'
import type { Whole } from './store'
import type { Workbench } from './workbench.svelte'

/** A day of the list. */
export interface Listed {
  id: string
  name: string
  fileName: string
  /** Unix time, ms. */
  changed: number
  /** Why it can't be opened; it stays as it is. */
  fault: DayFault | undefined
}

/** A day as a file. */
export interface Filed {
  name: string
  bytes: Uint8Array<ArrayBuffer>
}

/** The days that the browser keeps, and what is done with them. */
export class DayList {
  #days = $state.raw<readonly Listed[] | undefined>()
  #removed = $state.raw<{ name: string; whole: Whole } | undefined>()
  #room = $state.raw<{ used: number; quota: number } | undefined>()
  #fault = $state.raw<StorageFault | 'elsewhere' | undefined>()
  #written = $state<number | undefined>()

  constructor(private readonly bench: Workbench) {}

  /** The one last changed first; undefined until they are read. */
  get days(): readonly Listed[] | undefined {
    return this.#days
  }
  /** What was removed last, until another is. */
  get removed(): { name: string } | undefined {
    return this.#removed
  }
  /** What the browser stores, and may store, bytes. */
  get room(): { used: number; quota: number } | undefined {
    return this.#room
  }
  /** Why the last thing could not be done. */
  get fault(): StorageFault | 'elsewhere' | undefined {
    return this.#fault
  }

  get #store() {
    return this.bench.days.store
  }

  async refresh(): Promise<void> {
    try {
      this.#days = (await this.#store.days()).map(listed)
    } catch (error) {
      this.#fault = storageFault(error)
    }
    this.#room = await roomIn(navigator)
  }

  /** @returns whether it is on screen; where it can't be the desk says why */
  async open(id: string): Promise<boolean> {
    let isOpen = false
    await this.#try(async () => {
      isOpen = id === this.bench.days.day?.id || (await this.bench.days.openDay(id))
    })
    return isOpen
  }

  async rename(id: string, name: string): Promise<void> {
    await this.#alone(id, async () => {
      if (id === this.bench.days.day?.id) this.bench.days.rename(name)
      else await this.#store.change(id, { name, isNamed: true })
    })
    await this.refresh()
  }

  /** @param name of the copy */
  async duplicate(id: string, name: string): Promise<void> {
    await this.#try(async () => {
      const whole = await this.#store.day(id)
      if (whole === undefined) return
      const change = { id: newId(), name, isNamed: true, changed: Date.now() } satisfies Partial<Day>
      await this.#store.add([{ record: { ...(whole.record as object), ...change }, bytes: undefined, steps: [] }])
    })
    await this.refresh()
  }

  /** Removes a day. @param another opens something else, where it is the one on screen and no other of the list can be opened */
  async remove(id: string, another: () => Promise<void>): Promise<void> {
    await this.#alone(id, async () => {
      const { days } = this.bench
      if (id === days.day?.id) {
        const next = this.#days?.find((day) => day.id !== id && day.fault === undefined)
        if (next === undefined || !(await days.openDay(next.id))) await another()
      }
      const whole = await this.#store.remove(id)
      days.forget()
      if (whole !== undefined) this.#removed = { name: listed(whole.record).name, whole }
    })
    await this.refresh()
  }

  /** Puts back what was removed last. */
  async putBack(): Promise<void> {
    const { whole } = this.#removed ?? {}
    if (whole === undefined) return
    await this.#try(async () => {
      await this.#store.add([whole])
      this.#removed = undefined
    })
    await this.refresh()
  }

  /** A day as a file: one that can't be opened just as it is. */
  async file(id: string): Promise<Filed | undefined> {
    let filed: Filed | undefined
    await this.#try(async () => {
      const whole = await this.#store.day(id)
      if (whole !== undefined) filed = fileOf(whole)
    })
    return filed
  }

  /** How much of all days is written to one file, 0 to 1; undefined when none is underway. */
  get written(): number | undefined {
    return this.#written
  }

  /** All days as one file. */
  async all(): Promise<Uint8Array<ArrayBuffer> | undefined> {
    let bytes: Uint8Array<ArrayBuffer> | undefined
    const days = this.#days ?? []
    await this.#try(async () => {
      const files: Filed[] = []
      for (const [i, { id }] of days.entries()) {
        this.#written = i / days.length
        const whole = await this.#store.day(id)
        // The page shows how far it is between one and the next.
        await new Promise((resolve) => setTimeout(resolve))
        if (whole !== undefined) files.push(fileOf(whole))
      }
      bytes = writeDays(files)
    })
    this.#written = undefined
    return bytes
  }

  /** As `#try`, where no other window has the day. */
  async #alone(id: string, work: () => Promise<void>): Promise<void> {
    let isDone = false
    await this.#try(async () => {
      isDone = await this.bench.days.alone(id, work)
    })
    if (!isDone) this.#fault ??= 'elsewhere'
  }

  async #try(work: () => Promise<void>): Promise<void> {
    try {
      await work()
      this.#fault = undefined
    } catch (error) {
      this.#fault = storageFault(error)
    }
  }
}

function listed(record: unknown): Listed {
  const { id, name, fileName, changed } = record as Partial<Record<keyof Listed, unknown>>
  const reading = readDay(record)
  return {
    id: String(id),
    name: typeof name === 'string' ? name : '',
    fileName: typeof fileName === 'string' ? fileName : '',
    changed: Number(changed) || 0,
    fault: reading.ok ? undefined : reading.fault,
  }
}

function fileOf({ record, bytes }: Whole): Filed {
  const reading = readDay(record)
  const isWhole = bytes instanceof Uint8Array && (reading.ok || reading.fault.code !== 'damaged')
  return {
    name: listed(record).name,
    bytes: isWhole ? writeDay(record as Day, bytes) : writeWreck(record, bytes),
  }
}

async function roomIn({ storage }: { storage?: StorageManager }): Promise<{ used: number; quota: number } | undefined> {
  try {
    const { usage, quota } = (await storage?.estimate()) ?? {}
    return usage === undefined || quota === undefined ? undefined : { used: usage, quota }
  } catch {
    return undefined
  }
}

/**
 * Opens the days of a file: one on screen; of several all go into the list, and the first of them on screen.
 *
 * @returns undefined where the file is of another kind
 */
export async function openDays(bench: Workbench, file: Uint8Array, fileName: string): Promise<DaysReading | undefined> {
  const reading = readDays(file, fileName)
  const [first, ...more] = reading?.days ?? []
  if (first === undefined) return reading
  if (more.length > 0)
    await bench.days.store.add(
      await Promise.all(
        more.map(async ({ day, plan, bytes }) => ({
          record: { ...day, id: newId(), route: await routeKey(bytes), plan: textOf(plan), at: 0 } satisfies Day,
          ...{ bytes, steps: [] },
        })),
      ),
    )
  await bench.days.openFiled(first)
  return reading
}
