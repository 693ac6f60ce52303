import { untrack } from 'svelte'
import { legsOf, type Leg } from '../model/readings/legs'
import type { Outcome } from '../model/forecast/outcome'
import { crossFieldFault } from '../model/plan/check'
import type { Names } from '../model/plan/names'
import type { Plan } from '../model/plan/schema'
import { keepPlaces } from '../model/plan/keep-places'
import type { GroundChoice, RouteChoice } from '../model/route/reading'
import type { Route } from '../model/route/route'
import type { FileFault } from '../work/jobs'
import { Beside } from './beside.svelte'
import { Days } from './days.svelte'
import { Forecaster, type Forecast } from './forecaster'
import { History } from './history'
import { Messages, type Message } from './messages.svelte'
import type { Desk } from './desk'
import type { Beginning } from './open-day'
import { Places } from './places.svelte'
import { PlanFile } from './plan-file.svelte'
import { Reading, type OpenRoute } from './reading.svelte'
import type { Step } from './steps'
import type { RouteFile, Store } from './store'
import { keepView, restoreView, type ViewState } from './survives'

/** What is edited and undone: what is chosen about the file, and the plan. */
interface DeskStep extends Step {
  /** Undefined for a step of an earlier visit with other choices, until it is come back to. */
  open: OpenRoute | undefined
}

/** So long, ms, stay figures and shades in a gesture, and what takes longer to read, such as charts with their sentences. */
const readWithin = 200
const studiedWithin = 400
const settlesAfter = 150 // ms

/** The one owner of route, plan and view state. Views read it and call its operations; the outcome is derived. */
export class Workbench implements Desk {
  #history: History<DeskStep> | undefined
  /** Apart from the plan, so that an edit of the plan asks nothing of what hangs on the route alone. */
  #open = $state.raw<OpenRoute | undefined>()
  #plan = $state.raw<Plan | undefined>()
  #canUndo = $state(false)
  #canRedo = $state(false)
  readonly #restored = restoreView(storage())
  #view = $state.raw<ViewState>(this.#restored.view)
  readonly #forecaster = new Forecaster()
  #settling: ReturnType<typeof setTimeout> | undefined
  #settled = $state.raw<Outcome | undefined>()
  readonly #makeRoom: (() => void)[] = []
  readonly #shown = { told: undefined as Outcome | undefined, studied: undefined as Outcome | undefined }

  /** Ridden distance under the pointer or the keyboard's cursor, m. */
  cursor = $state<number | undefined>()
  /** Number of the leg under the pointer. */
  hoveredLeg = $state<number | undefined>()
  /** Leg that the map was asked to show whole. */
  shownLeg = $state.raw<Leg | undefined>()
  readonly messages = new Messages()
  readonly reading = new Reading()
  readonly planFile = new PlanFile(this)
  readonly places: Places
  readonly days: Days
  readonly beside: Beside

  readonly route: Route | undefined = $derived(this.open?.route)
  readonly #forecast: Forecast = $derived.by(() => {
    if (this.#open === undefined || this.#plan === undefined) return { outcome: undefined }
    if (this.#unshown?.fault?.plan === this.#plan) return this.#unshown
    const kept = [...untrack(() => [this.#settled, this.#before]), this.#restedBefore, ...Object.values(this.#shown)]
    return this.#forecaster.make(this.#open.route, this.#plan, this.isUnderway, kept)
  })
  readonly outcome: Outcome | undefined = $derived(this.#forecast.outcome)
  /** The plan that a view could not show by a fault of the model in a reading, with what was on screen before. */
  #unshown = $state.raw<Forecast | undefined>()
  /** What was on screen at rest before. */
  #restedBefore: Outcome | undefined
  /** A fault of the model in a reading or a study of the plan on the desk. */
  #partFault = $state.raw<Forecast['fault']>()
  /** A fault of the model with what is on the desk; what is shown is then the last good outcome, or of a part its last good answer. */
  readonly fault = $derived.by(() => this.#forecast.fault ?? this.partFault)
  readonly partFault = $derived.by(() => this.#legs.fault ?? this.#partFault)
  /**
   * The outcome for what need not follow each frame, such as long tables: in a gesture that of its last rest, of the same route; else the outcome.
   * Derived, so that what reads it is at rest as long as it is.
   */
  readonly settled: Outcome | undefined = $derived(this.#settled?.route === this.route ? this.#settled : this.outcome)
  /** What there was before the gesture that is going on. */
  #before = $state.raw<Outcome | undefined>()
  /** What figures are measured against: the held plan, in a gesture without one what was before it. */
  readonly against: Outcome | undefined = $derived.by(() => this.beside.held ?? this.#before)
  /** The outcome for figures and shades: in a gesture a new one every few frames, for no one reads faster; else the outcome. */
  readonly told: Outcome | undefined = $derived.by(this.#every(readWithin, 'told'))
  /** The place under pointer or cursor of what is told, m. */
  readonly toldCursor: number | undefined = $derived.by(() =>
    this.isInGesture && this.told !== undefined ? untrack(() => this.cursor) : this.cursor,
  )
  /** The same as told for what takes longer to read. */
  readonly studied: Outcome | undefined = $derived.by(this.#every(studiedWithin, 'studied'))
  #goodLegs: Leg[] = []
  readonly #legs: { list: Leg[]; fault?: Forecast['fault'] } = $derived.by(() => {
    const { settled } = this
    if (settled === undefined) return { list: [] }
    try {
      return { list: (this.#goodLegs = legsOf(settled)) }
    } catch (error) {
      return { list: this.#goodLegs, fault: { error, route: settled.route, plan: settled.plan } }
    }
  })
  readonly legs: Leg[] = $derived(this.#legs.list)

  /** @param names of what the desk adds to a plan */
  constructor(store: Store, names: Names) {
    if (this.#restored.isSpoilt) this.messages.say({ subject: 'view', kind: 'news', said: { code: 'viewSpoilt' } })
    this.days = new Days(store, this, names)
    this.beside = new Beside(this)
    this.places = new Places(this, names)
  }

  get open(): OpenRoute | undefined {
    return this.#open
  }
  get plan(): Plan | undefined {
    return this.#plan
  }
  get view(): ViewState {
    return this.#view
  }
  get canUndo(): boolean {
    return this.#canUndo
  }
  get canRedo(): boolean {
    return this.#canRedo
  }

  /** Whether an edit is under way that is not done yet. */
  get isInGesture(): boolean {
    return this.#before !== undefined
  }

  /** What runs unasked is told before another plan is worked out, to make room for it. */
  makesRoom(stop: () => void): void {
    this.#makeRoom.push(stop)
  }

  setView(change: Partial<ViewState>): void {
    this.messages.end('view')
    this.#view = { ...this.#view, ...change }
    keepView(storage(), this.#view)
  }

  /** Reads a route file and puts up the day that begins with it, in place of the one on screen. */
  async begin(
    file: RouteFile,
    choice: RouteChoice,
    beginning: () => Promise<Beginning>,
  ): Promise<'open' | 'superseded' | FileFault> {
    const reading = this.reading.read(file, choice, file.fileName)
    const isWanted = this.reading.watch()
    const [open, begun] = await Promise.all([reading, beginning()])
    if (open === 'superseded' || !isWanted()) return 'superseded'
    if ('code' in open) return open
    const { past, present, future, at } = begun
    if (!this.#forecaster.can(open.route, present.plan)) return { code: 'noForecast' }
    this.commit()
    const chosen = JSON.stringify(choice)
    const desk = (step: Step): DeskStep => ({
      ...step,
      open: JSON.stringify(step.choice) === chosen ? open : undefined,
    })
    const history = new History(desk(present), at)
    history.recall(past.map(desk), future.map(desk))
    this.#history = history
    this.days.begun(begun, history.timeline)
    this.#lookAway()
    this.#show()
    return 'open'
  }

  say(subject: Message['subject'], message: Message | undefined): void {
    if (message === undefined) this.messages.end(subject)
    else this.messages.say(message)
  }

  /**
   * Reads the file on screen again, with other choices, as one step. On the same lines all places of the plan stay where they are on the road;
   * on others, stops stay at their distance.
   */
  async choose(choice: RouteChoice): Promise<boolean> {
    const { ground } = this.open?.choice ?? {}
    return this.#choose(ground === undefined ? choice : { ...choice, ground })
  }

  /** Takes elevation from heights of the land where the file on screen has none, as one step; from nowhere where undefined. */
  async takeGround(brought: { ground: GroundChoice; bytes: Uint8Array } | undefined): Promise<boolean> {
    if (this.open === undefined || this.days.isFollowing) return false
    const { ground, ...choice } = this.open.choice
    if (brought === undefined) return ground !== undefined && this.#choose(choice)
    this.days.addGrounds({ [brought.ground.key]: brought.bytes })
    return this.#choose({ ...choice, ground: brought.ground })
  }

  async #choose(choice: RouteChoice): Promise<boolean> {
    const [before, file] = [this.open, this.days.day?.file]
    if (before === undefined || file === undefined || this.days.isFollowing) return false
    this.messages.end('file')
    const open = await this.reading.read(file, choice)
    if (open === 'superseded' || this.plan === undefined) return false
    if ('code' in open) {
      this.#sayUnread(open)
      return false
    }
    const isSameTrack = String(open.used) === String(before.used)
    const plan = isSameTrack ? keepPlaces(this.plan, before, open) : { ...this.plan, crossings: [] }
    if (!this.#forecaster.can(open.route, plan)) {
      this.#sayUnread({ code: 'noForecast' })
      return false
    }
    this.#history?.edit({ choice, plan, open })
    this.#lookAway()
    this.#show()
    return true
  }

  /** Shows what another window made of the day. */
  async follow({ choice, plan }: Step): Promise<void> {
    const before = this.open
    if (before === undefined) return
    const isSame = JSON.stringify(choice) === JSON.stringify(before.choice)
    const open = isSame ? before : await this.reading.read(this.days.day?.file ?? before.file, choice)
    if (open === 'superseded' || 'code' in open || !this.days.isFollowing) return
    this.#history = new History({ choice, plan, open })
    this.#show()
  }

  #sayUnread(fault: FileFault): void {
    const said = { code: 'routeUnread', fault, file: this.open?.file.fileName ?? '' } as const
    this.messages.say({ subject: 'file', kind: 'fault', said })
  }

  /** From what was looked at of a route that is on screen no more. */
  #lookAway(): void {
    this.planFile.asked = undefined
    this.cursor = undefined
    this.hoveredLeg = undefined
    this.shownLeg = undefined
    this.places.selectedStop = undefined
    this.places.selectedStretch = undefined
  }

  /** Reads the outcome: in a gesture the one that is held for so long, ms. */
  #every(span: number, what: 'told' | 'studied'): () => Outcome | undefined {
    let since = 0
    return () => {
      const now = this.outcome
      const isStill = !this.isUnderway || now === this.#settled || now?.route !== this.#shown[what]?.route
      if (isStill || performance.now() - since >= span) {
        this.#shown[what] = now
        since = performance.now()
      }
      return this.#shown[what]
    }
  }

  /** Whether a gesture is. */
  get isUnderway(): boolean {
    return this.#history?.isUnderway === true
  }

  /** One step of the history: the plan after a pure change. */
  edit(change: (plan: Plan) => Plan): void {
    this.#change(change, (desk) => this.#history?.edit(desk))
  }

  /** Shows the plan after a change, as part of a gesture that `commit` or `cancel` ends. */
  preview(change: (plan: Plan) => Plan): void {
    this.#change(change, (desk) => this.#history?.preview(desk))
  }

  #change(change: (plan: Plan) => Plan, how: (desk: DeskStep) => void): void {
    const desk = this.#history?.present
    if (desk === undefined || this.days.isFollowing) return
    const plan = change(desk.plan)
    if (plan === desk.plan) return
    const fault = crossFieldFault(plan)
    if (fault !== undefined) {
      this.messages.say({ subject: 'step', kind: 'fault', said: { code: 'planRefused', fault } })
      return
    }
    how({ ...desk, plan })
    this.#show()
  }

  commit(): void {
    this.#history?.commit()
    this.#show()
  }

  cancel(): void {
    this.#history?.cancel()
    this.#show()
  }

  undo(): void {
    this.#step('undo')
  }

  redo(): void {
    this.#step('redo')
  }

  #step(way: 'undo' | 'redo'): void {
    const history = this.#history
    const to = history?.next(way)
    if (history === undefined || to === undefined || this.days.isFollowing) return
    if (to.open === undefined) {
      void this.#readFor(to, way)
      return
    }
    history[way]()
    this.#show()
  }

  /** A step of an earlier visit with other choices about the file takes its place when the file has been read so. */
  async #readFor(to: DeskStep, way: 'undo' | 'redo'): Promise<void> {
    const file = this.days.day?.file
    const open = file === undefined ? 'superseded' : await this.reading.read(file, to.choice)
    if (open === 'superseded') return
    if ('code' in open) {
      this.#sayUnread(open)
      return
    }
    to.open = open
    if (this.#history?.next(way) === to) this.#step(way)
  }

  /** The day as one that can be written to a file. */
  filed() {
    const { history, route } = { history: this.#history, route: this.route }
    return history && route && this.days.filed(history.present, route.name)
  }

  /** Does what asks more of the model than the outcome, such as a study: what it throws is told as a fault, until the plan is another. */
  attempt(work: () => void): void {
    try {
      work()
    } catch (error) {
      const { route, plan } = this
      if (route !== undefined && plan !== undefined) this.#partFault = { error, route, plan }
    }
  }

  /** A view could not show what is on the desk: what was on screen before takes its place. @returns whether there is any of this route */
  fallBack(error: unknown): boolean {
    const { route, plan } = this
    if (route === undefined || plan === undefined) return false
    if (this.#unshown?.fault?.plan === plan) return true
    const outcome = this.#settled?.plan === plan ? this.#restedBefore : this.#settled
    const fault = { error, route, plan }
    if (outcome?.route !== route) {
      this.#partFault = fault
      return false
    }
    this.#unshown = { outcome, fault }
    this.#settled = outcome
    return true
  }

  #show(): void {
    const history = this.#history
    const open = history?.present.open
    if (history === undefined || open === undefined) return
    if (this.#open !== open || this.#plan !== history.present.plan) {
      for (const stop of this.#makeRoom) stop()
      this.#partFault = undefined
      this.messages.end('step')
    }
    this.#open = open
    this.#plan = history.present.plan
    this.#canUndo = history.canUndo
    this.#canRedo = history.canRedo
    clearTimeout(this.#settling)
    this.#before = history.isUnderway ? (this.#before ?? this.#settled) : undefined
    if (history.isUnderway) this.#settling = setTimeout(() => this.rest(), settlesAfter)
    else this.rest()
  }

  /** At the end of an edit, and in a gesture where it rests: what is on screen is kept. */
  rest(): void {
    if (this.outcome !== this.#settled) this.#restedBefore = this.#settled
    this.#settled = this.outcome
    if (this.#history !== undefined && this.route !== undefined) this.days.keep(this.#history.timeline, this.route.name)
  }
}

function storage(): Storage | undefined {
  try {
    return globalThis.localStorage
  } catch {
    return undefined
  }
}
