import { readPlan } from '../model/plan/check'
import type { Names } from '../model/plan/names'
import type { Plan } from '../model/plan/schema'
import { type RouteChoice, WHOLE_FILE } from '../model/route/reading'
import type { FileFault } from '../work/jobs'
import { storageFault, type StorageFault } from './database'
import { newId, readDay, routeKey, textOf, type Day, type Others } from './day'
import type { FiledDay } from './day-file'
import type { Timeline } from './history'
import { Keeper } from './keeper'
import { changesRider, newPlan } from './rider-bike'
import type { Message } from './messages.svelte'
import type { Said } from './said'
import { readSteps, type Step } from './steps'
import type { RouteFile, Store } from './store'

/** The day on screen. */
export interface OpenDay {
  /** Undefined as long as a sample is as it came. */
  id: string | undefined
  /** As the rider named it. */
  name: string | undefined
  /** Begun as a sample, by its name. */
  sample: string | undefined
  file: RouteFile
  /** Key of the file's bytes. */
  route: string
  others: Others | undefined
}

/** How a day begins on screen. */
export interface Beginning extends Timeline<Step> {
  day: OpenDay
  /** As it is in the browser. */
  isKept: boolean
}

/** Where days are put up: the desk on which one at a time is worked at. */
export interface Place {
  /** Reads a route file and puts up what is to begin with it, which is asked for at once; another that is begun meanwhile supersedes it. */
  begin(
    file: RouteFile,
    choice: RouteChoice,
    beginning: () => Promise<Beginning>,
  ): Promise<'open' | 'superseded' | FileFault>
  say(message: Message): void
  /** Keeps what is on screen. */
  rest(): void
}

/** Which day is on screen, and that it is kept. */
export class Days {
  #day = $state.raw<OpenDay | undefined>()
  #fault = $state.raw<StorageFault | undefined>()
  readonly #keeper: Keeper
  /** What was kept last, or is on its way: its plan, and the state of the day. */
  #seen: Plan | undefined
  #last: Step | undefined
  #turn = 0
  #hasAskedToPersist = false

  constructor(
    readonly store: Store,
    private readonly place: Place,
    private readonly names: Names,
  ) {
    this.#keeper = new Keeper(
      store,
      (plan) => textOf(newPlan(names, plan)),
      (fault) => (this.#fault = fault),
    )
  }

  get day(): OpenDay | undefined {
    return this.#day
  }
  /** Why nothing is kept; undefined where all is. */
  get fault(): StorageFault | undefined {
    return this.#fault
  }

  /**
   * The day of the last visit, or where it can't be opened another.
   *
   * @returns the sample to open instead, 'first' for any, undefined where a day is open
   */
  async restore(): Promise<string | undefined> {
    try {
      const shown = await this.store.shown()
      if (shown !== undefined && 'sample' in shown) return shown.sample
      if (shown !== undefined && (await this.openDay(shown.day))) return undefined
      for (const record of await this.store.days()) {
        const { id } = record as { id: string }
        if (id !== shown?.day && readDay(record).ok && (await this.openDay(id))) return undefined
      }
    } catch (error) {
      this.#trouble(error)
    }
    return 'first'
  }

  /** Opens a day of the list. */
  async openDay(id: string): Promise<boolean> {
    const turn = ++this.#turn
    const whole = await this.store.day(id)
    if (whole === undefined || turn !== this.#turn) return false
    const reading = readDay(whole.record)
    const { name } = whole.record as { name: string }
    if (!reading.ok || !(whole.bytes instanceof Uint8Array)) {
      this.#say('kept', { code: 'dayUnread', name, fault: reading.ok ? { code: 'damaged' } : reading.fault })
      return false
    }
    const { day, plan } = reading
    const { past, future } = readSteps(whole.steps, day.at)
    const file = { bytes: whole.bytes, fileName: day.fileName }
    const read = await this.place.begin(file, day.choice, () =>
      Promise.resolve({
        ...{ past, future, at: day.at, present: { choice: day.choice, plan }, isKept: true },
        day: {
          ...{ id, file, route: day.route, others: day.others },
          name: day.isNamed ? day.name : undefined,
          sample: day.sample,
        },
      }),
    )
    if (typeof read === 'object') this.#say('kept', { code: 'dayRouteUnread', name, fault: read })
    // Of steps that can't be read nothing is left with the next edit.
    if (past.length + future.length < whole.steps.length) this.#keeper.forget()
    return read === 'open'
  }

  /** A new day on a route file, with the rider's own bike where there is one. */
  async openFile(bytes: Uint8Array, fileName: string): Promise<boolean> {
    this.#turn++
    const file = { bytes, fileName }
    const read = await this.place.begin(file, WHOLE_FILE, async () => {
      const [route, plan] = await Promise.all([routeKey(bytes), this.#newPlan()])
      const day = { id: newId(), name: undefined, sample: undefined, file, route, others: undefined }
      return { day, isKept: false, ...alone({ choice: WHOLE_FILE, plan }) }
    })
    if (typeof read === 'object') this.#say('file', { code: 'routeUnread', fault: read, file: fileName })
    return read === 'open'
  }

  /** A day that came as a file, as a new one. */
  async openFiled({
    day: { name, isNamed, sample, fileName, choice, others },
    plan,
    bytes,
  }: FiledDay): Promise<boolean> {
    this.#turn++
    const file = { bytes, fileName }
    const read = await this.place.begin(file, choice, async () => ({
      ...{ isKept: false, ...alone({ choice, plan }) },
      day: {
        ...{ id: newId(), name: isNamed ? name : undefined, sample, file, route: await routeKey(bytes), others },
      },
    }))
    if (typeof read === 'object') this.#say('file', { code: 'routeUnread', fault: read, file: fileName })
    return read === 'open'
  }

  /** The day on screen as one that can be written to a file. @param name of its route */
  filed({ choice, plan }: Step, name: string): { day: Omit<Day, 'id' | 'at'>; bytes: Uint8Array } | undefined {
    if (this.#day === undefined) return undefined
    const day = { ...headOf(this.#day, name), choice, plan: textOf(plan), changed: Date.now() }
    return { day, bytes: this.#day.file.bytes }
  }

  /** A sample as it comes, which becomes a day of the rider's with the first edit. @param plan that of a day without places where absent */
  async openSample(file: RouteFile, plan = newPlan(this.names)): Promise<void> {
    this.#turn++
    await this.place.begin(file, WHOLE_FILE, async () => ({
      ...alone({ choice: WHOLE_FILE, plan }),
      isKept: true,
      day: {
        id: undefined,
        name: undefined,
        sample: file.fileName,
        file,
        route: await routeKey(file.bytes),
        others: undefined,
      },
    }))
  }

  /** Takes a day as the one on screen. */
  begun(day: OpenDay, timeline: Timeline<Step>, isKept: boolean): void {
    const { id, sample = '' } = day
    this.#day = day
    this.#seen = timeline.present.plan
    this.#last = isKept ? timeline.present : undefined
    if (!isKept) return
    if (id !== undefined) this.#keeper.found(id, timeline)
    this.store.show(id === undefined ? { sample } : { day: id }).catch((error) => this.#trouble(error))
  }

  /** Keeps what is on screen, if it is not. @param name of its route */
  keep(timeline: Timeline<Step>, name: string): void {
    const { present } = timeline
    if (this.#day === undefined || present === this.#last) return
    const { id = newId(), file } = this.#day
    const isRiders =
      this.#day.sample === undefined && this.#seen !== undefined && changesRider(this.#seen, present.plan)
    if (this.#day.id === undefined) this.#day = { ...this.#day, id }
    this.#seen = present.plan
    this.#last = present
    this.#keeper.keep({ day: { ...headOf(this.#day, name), id }, bytes: file.bytes, timeline, isRiders })
    if (timeline.past.length > 0) this.#askToPersist()
  }

  /** Names the day on screen. */
  rename(name: string): void {
    if (this.#day === undefined) return
    this.#day = { ...this.#day, name }
    this.#last = undefined
    this.place.rest()
  }

  /** Takes nothing of the day on screen as kept, as when days were removed. */
  forget(): void {
    this.#last = undefined
    this.#keeper.forget()
  }

  /** Sends what waits to be kept, as when the page is left. */
  leave(): void {
    this.#keeper.flush()
  }

  #say(subject: Message['subject'], said: Said): void {
    this.place.say({ subject, kind: 'fault', said })
  }

  async #newPlan(): Promise<Plan> {
    try {
      const text = this.#fault === undefined ? await this.store.rider() : undefined
      const reading = text === undefined ? undefined : readPlan(text)
      return newPlan(this.names, reading?.ok ? reading.plan : undefined)
    } catch (error) {
      this.#trouble(error)
      return newPlan(this.names)
    }
  }

  /** That the browser does not make room by what the rider has made. */
  #askToPersist(): void {
    if (this.#hasAskedToPersist) return
    this.#hasAskedToPersist = true
    const { storage } = navigator as { storage?: StorageManager }
    void storage?.persist?.().catch(() => undefined)
  }

  #trouble(error: unknown): void {
    this.#fault = storageFault(error)
  }
}

/** @param name of its route */
const headOf = ({ name: own, sample, file, route, others }: OpenDay, name: string) => ({
  ...{ name: own ?? name, isNamed: own !== undefined, route, fileName: file.fileName },
  ...(sample === undefined ? {} : { sample }),
  ...(others === undefined ? {} : { others }),
})

const alone = (present: Step): Timeline<Step> => ({ past: [], present, future: [], at: 0 })
