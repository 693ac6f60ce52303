import type { Names } from '../model/plan/names'
import type { Plan } from '../model/plan/schema'
import { type RouteChoice, WHOLE_FILE } from '../model/route/reading'
import type { FileFault } from '../work/jobs'
import { answered, storageFault, type StorageFault } from './database'
import {
  groundsFor,
  newId,
  readBeside,
  readDay,
  routeKey,
  textOf,
  type Beside,
  type Day,
  type Grounds,
  type KeptRide,
} from './day'
import type { FiledDay } from './day-file'
import type { Timeline } from './history'
import type { Changed } from './hold'
import { Keeper } from './keeper'
import type { Message } from './messages.svelte'
import { OwnBike } from './own-bike.svelte'
import { changesRider, newPlan } from './rider-bike'
import { alone, freshDay, headOf, type Beginning, type OpenDay } from './open-day'
import type { Said } from './said'
import { readStep, readSteps, type Step } from './steps'
import type { RouteFile, Store } from './store'
import { Windows } from './windows.svelte'

/** Where days are put up: the desk on which one at a time is worked at. */
export interface Place {
  /** Reads a route file and puts up what is to begin with it, which is asked for at once; another that is begun meanwhile supersedes it. */
  begin(
    file: RouteFile,
    choice: RouteChoice,
    beginning: () => Promise<Beginning>,
  ): Promise<'open' | 'superseded' | FileFault>
  /** Says something of a subject, or that what was said of it is over. */
  say(subject: Message['subject'], message: Message | undefined): void
  /** Ends a gesture as it is, and keeps what is on screen. */
  commit(): void
  /** Keeps what is on screen. */
  rest(): void
  /** Shows what another window made of the day on screen. */
  follow(step: Step): Promise<void>
}

/** Which day is on screen, and that it is kept. */
export class Days {
  #day = $state.raw<OpenDay | undefined>()
  #fault = $state.raw<StorageFault | undefined>()
  readonly #windows = new Windows({
    id: () => this.#day?.id,
    settle: () => this.#settle(),
    reopen: (id) => this.#reopen(id),
    follow: (word) => this.#follow(word),
  })
  readonly #keeper: Keeper
  readonly ownBike: OwnBike
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
    this.ownBike = new OwnBike(
      store,
      names,
      () => this.#rider(),
      (error) => this.#trouble(error),
    )
  }

  get day(): OpenDay | undefined {
    return this.#day
  }
  /** Whether the day on screen is worked at in another window, and only shown here. */
  get isFollowing(): boolean {
    return this.#windows.isFollowing
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
      const [shown, rider] = await Promise.all([this.store.shown(), this.store.rider()])
      this.ownBike.isUnknown = rider === undefined
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
    // First, so that what is read is what another window left.
    const isHeld = await this.#windows.take(id)
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
    const file = { bytes: whole.bytes, fileName: day.fileName, ...(day.grounds && { grounds: day.grounds }) }
    const read = await this.place.begin(file, day.choice, () =>
      Promise.resolve({
        ...{ past, future, at: day.at, present: { choice: day.choice, plan }, isKept: true, isOthers: !isHeld },
        day: {
          ...{ id, file, route: day.route, others: day.others, beside: day.beside },
          rides: day.rides,
          name: day.isNamed ? day.name : undefined,
          sample: day.sample,
        },
      }),
    )
    if (typeof read === 'object') this.#say('kept', { code: 'dayRouteUnread', name, fault: read })
    if (read !== 'open' && turn === this.#turn && id !== this.#day?.id) this.#windows.leave(id)
    // Of steps that can't be read nothing is left with the next edit.
    if (past.length + future.length < whole.steps.length) this.#keeper.forget()
    return read === 'open'
  }

  /** A new day on a route file, with the rider's own bike where there is one. */
  async openFile(bytes: Uint8Array, fileName: string): Promise<boolean> {
    this.#turn++
    const file = { bytes, fileName }
    const read = await this.place.begin(file, WHOLE_FILE, async () => {
      const [route, plan] = await Promise.all([routeKey(bytes), this.ownBike.newPlan()])
      const day = freshDay({ id: newId(), file, route })
      return { day, isKept: false, ...alone({ choice: WHOLE_FILE, plan }) }
    })
    if (typeof read === 'object') this.#say('file', { code: 'routeUnread', fault: read, file: fileName })
    return read === 'open'
  }

  /** A day that came as a file, as a new one. */
  async openFiled({
    day: { name, isNamed, sample, fileName, choice, others, grounds, beside, rides },
    plan,
    bytes,
  }: FiledDay): Promise<boolean> {
    this.#turn++
    const file = { bytes, fileName, ...(grounds && { grounds }) }
    const read = await this.place.begin(file, choice, async () => ({
      ...{ isKept: false, ...alone({ choice, plan }) },
      day: {
        ...{ id: newId(), name: isNamed ? name : undefined, sample, file, route: await routeKey(bytes), others },
        beside,
        rides,
      },
    }))
    if (typeof read === 'object') this.#say('file', { code: 'routeUnread', fault: read, file: fileName })
    return read === 'open'
  }

  /** The day on screen as one that can be written to a file. @param name of its route */
  filed({ choice, plan }: Step, name: string): { day: Omit<Day, 'id' | 'at'>; bytes: Uint8Array } | undefined {
    if (this.#day === undefined) return undefined
    const grounds = groundsFor([choice], this.#day.file.grounds)
    const day = { ...headOf(this.#day, name), choice, ...grounds, plan: textOf(plan), changed: Date.now() }
    return { day, bytes: this.#day.file.bytes }
  }

  /** A sample as it comes, which becomes a day of the rider's with the first edit. @param plan that of a day without places where absent */
  async openSample(file: RouteFile, plan = newPlan(this.names)): Promise<void> {
    this.#turn++
    await this.place.begin(file, WHOLE_FILE, async () => ({
      ...alone({ choice: WHOLE_FILE, plan }),
      isKept: true,
      day: { ...freshDay({ id: undefined, file, route: await routeKey(file.bytes) }), sample: file.fileName },
    }))
  }

  /** Takes a day as the one on screen. */
  begun({ day, isKept, isOthers = false }: Beginning, timeline: Timeline<Step>): void {
    const { id, sample = '' } = day
    this.#day = day
    this.#seen = timeline.present.plan
    this.#last = isKept ? timeline.present : undefined
    this.#windows.shows(id, isOthers)
    if (id !== undefined && !isKept) void this.#windows.take(id)
    if (!isKept) return
    if (id !== undefined) this.#keeper.found(id, timeline)
    answered(this.store.show(id === undefined ? { sample } : { day: id })).catch((error) => this.#trouble(error))
  }

  /** Keeps what is on screen, if it is not. @param name of its route */
  keep(timeline: Timeline<Step>, name: string): void {
    const { present } = timeline
    if (this.#day === undefined || this.isFollowing || present === this.#last) return
    const { id = newId(), file } = this.#day
    const isRiders =
      this.#day.sample === undefined && this.#seen !== undefined && changesRider(this.#seen, present.plan)
    if (this.#day.id === undefined) {
      this.#day = { ...this.#day, id }
      void this.#windows.take(id)
    }
    this.#seen = present.plan
    this.#last = present
    const { past, future } = timeline
    const grounds = groundsFor(
      [...past, present, ...future].map(({ choice }) => choice),
      file.grounds,
    )
    this.#keeper.keep({ day: { ...headOf(this.#day, name), ...grounds, id }, bytes: file.bytes, timeline, isRiders })
    const { choice, plan } = present
    const step = { choice, plan: textOf(plan) }
    this.#windows.tell({
      ...{ day: id, name: this.#day.name, step, beside: this.#day.beside },
      ...groundsFor([choice], file.grounds),
    })
    if (past.length > 0) this.#askToPersist()
  }

  /** Heights of the land that were brought for the route on screen, for choices to name. */
  addGrounds(grounds: Grounds): void {
    if (this.#day === undefined) return
    const { file } = this.#day
    this.#day = { ...this.#day, file: { ...file, grounds: { ...file.grounds, ...grounds } } }
  }

  /** Keeps plans beside that on screen. */
  setBeside(beside: Beside): void {
    this.#change({ beside })
  }

  /** Keeps rides to learn from with the day on screen. */
  setRides(rides: readonly KeptRide[]): void {
    this.#change({ rides })
  }

  /** Names the day on screen. */
  rename(name: string): void {
    this.#change({ name })
  }

  #change(change: Partial<OpenDay>): void {
    if (this.#day === undefined || this.isFollowing) return
    this.#day = { ...this.#day, ...change }
    this.#last = undefined
    this.place.rest()
  }

  /** Asks the other window for the day on screen, which this one has from then on where that answers. */
  async takeOver(): Promise<void> {
    this.#say('kept')
    if (!(await this.#windows.takeOver())) this.#say('kept', { code: 'notHandedOver' })
  }

  /** Does something to a day of the list. @returns false where another window has it */
  alone(id: string, work: () => Promise<void>): Promise<boolean> {
    return this.#windows.alone(id, work)
  }

  async #settle(): Promise<boolean> {
    this.place.commit()
    await this.#keeper.settled()
    // What was changed meanwhile is on its way before the other window reads.
    this.#keeper.flush()
    return this.#fault === undefined
  }

  async #reopen(id: string): Promise<void> {
    // It may come later than it was waited for.
    this.#say('kept')
    try {
      await this.openDay(id)
    } catch (error) {
      this.#trouble(error)
    }
  }

  async #follow({ name, step: told, beside, grounds }: Changed): Promise<void> {
    const step = readStep(told)
    if (this.#day !== undefined) this.#day = { ...this.#day, name, beside: readBeside(beside) }
    if (grounds !== undefined) this.addGrounds(grounds)
    if (step !== undefined) await this.place.follow(step)
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

  /** What was said of the subject is over where nothing is. */
  #say(subject: Message['subject'], said?: Said): void {
    this.place.say(subject, said && { subject, kind: 'fault', said })
  }

  /** What is kept of the rider's own bike; undefined where nothing can be read. */
  async #rider(): Promise<string | undefined> {
    if (this.#fault !== undefined) return undefined
    try {
      return await this.store.rider()
    } catch (error) {
      this.#trouble(error)
      return undefined
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
