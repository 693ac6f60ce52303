import * as v from 'valibot'
import type { Lesson } from '../model/learn/learn'
import { rideNotesSchema, type RideNotes } from '../model/learn/notes'
import { isEqual } from '../model/plan/differences'
import { asStated, takeOver } from '../model/plan/learnt'
import { stepsLearnt } from '../model/plan/steps'
import type { Learnt, Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'
import type { RideReading, RideSeen } from '../work/learn.worker'
import { Learner } from '../work/learning'
import { newId, type KeptRide } from './day'
import { parts } from './parts.svelte'
import type { Workbench } from './workbench.svelte'

/** A ride of the day on screen that is learnt from. */
export interface Ride {
  id: string
  /** Undefined of one that is only remembered. */
  fileName: string | undefined
  notes: RideNotes
  /** Undefined until it is read. */
  reading: RideReading | undefined
}

/** What was asked of the worker, and what came of it. */
interface Found {
  route: Route
  rides: readonly Ride[]
  lesson: Lesson
}

/** How many rides a day keeps, and bytes of all their files, packed. */
const most = { rides: 8, bytes: 20_000_000 }
/** How long plan and notes rest before rides are looked at anew, and what takes no longer is not spoken of, ms. */
const settlesAfter = 400
const soon = 500

const none: readonly KeptRide[] = []
const noNotes: RideNotes = v.parse(rideNotesSchema, {})

function notesOf(text: string): RideNotes {
  try {
    const reading = v.safeParse(rideNotesSchema, JSON.parse(text))
    return reading.success ? reading.output : noNotes
  } catch {
    return noNotes
  }
}

/** What of a plan rides are looked at with, as text. */
function askedOf({ rider, needs, bike, assist, weather, wet, battery, kit, zone, steps }: Plan): string {
  return JSON.stringify({
    steps: steps.map(({ ratio, span }) => [ratio, span]),
    rider,
    needs,
    bike,
    assist,
    weather,
    wet,
    battery,
    kit,
    zone,
  })
}

/** Files are kept packed. */
async function packed(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) return bytes
  const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream('gzip'))
  return new Uint8Array(await new Response(stream).arrayBuffer())
}

/** Rides that were ridden and what they tell: kept with the day on screen, and looked at anew whenever rider, bike or what is said of them has rested. */
export class LastTime {
  #readings = $state.raw<Readonly<Record<string, RideReading>>>({})
  /** Ids of rides whose recordings are read, or being read. */
  readonly #underway: string[] = []
  #found = $state.raw<Found | undefined>()
  #removed = $state.raw<{ ride: KeptRide; at: number; day: string | undefined } | undefined>()
  /** Share of the lesson that is done, once it has taken a while. */
  progress = $state<number | undefined>()
  isFailed = $state(false)
  isCancelled = $state(false)
  isFull = $state(false)
  readonly #learner = new Learner()
  /** The plan as it was right after it took over what was learnt. */
  #taken: Plan | undefined
  readonly #stated = $derived.by(() => {
    const { plan } = this.bench
    return plan && asStated(plan)
  })
  /** Unlike the plan it is at rest while only stops and the like are edited. */
  readonly #asked = $derived(this.#stated && askedOf(this.#stated))

  /** Derived, so that it is at rest while the day changes in other ways. */
  readonly #kept: readonly KeptRide[] = $derived.by(() => this.bench.days.day?.rides ?? none)
  readonly rides: readonly Ride[] = $derived.by(() =>
    this.#kept.map(({ id, fileName, notes }) => ({
      ...{ id, fileName, notes: notesOf(notes) },
      reading: this.#readings[id],
    })),
  )

  constructor(private readonly bench: Workbench) {
    $effect.root(() => {
      $effect(() => this.#read())
      $effect(() => this.#follow())
    })
  }

  /** The plan as it was stated before anything was learnt. */
  get stated(): Plan | undefined {
    return this.#stated
  }

  /** What the rides told last, as long as they are on screen. */
  get lesson(): Lesson | undefined {
    const { rides } = this
    const found = this.#found
    const isOfThese = found?.route === this.bench.route && rides.length > 0
    return isOfThese && found?.rides.every((ride, k) => ride.id === rides[k]?.id) ? found.lesson : undefined
  }

  /** Whether it follows from what is on screen; else it is being worked out anew, or was cancelled. */
  get isCurrent(): boolean {
    return this.lesson !== undefined && this.#found?.rides === this.rides
  }

  /** Whether the plan on screen holds what was learnt. */
  get isTaken(): boolean {
    const { learnt } = this.bench.plan ?? {}
    return learnt !== null && learnt !== undefined && isEqual(learnt, this.lesson?.learnt)
  }

  /** What rides that are not here, or told otherwise now, were taken over into the plan on screen; undefined where none were. */
  get heldFrom(): Learnt['from'] | undefined {
    const { learnt } = this.bench.plan ?? {}
    return this.isTaken ? undefined : learnt?.from
  }

  /** The ride that was removed last, as long as its day is on screen. */
  get removed(): KeptRide | undefined {
    return this.#removed?.day === this.bench.days.day?.id ? this.#removed?.ride : undefined
  }

  /** Adds a recording. @param said of it already */
  async add(bytes: Uint8Array<ArrayBuffer>, fileName: string, said: Partial<RideNotes> = {}): Promise<void> {
    const day = this.bench.days.day
    const file = await packed(bytes)
    if (this.bench.days.day?.file !== day?.file) return
    this.#set([...this.#kept, { id: newId(), fileName, notes: textOf({ ...noNotes, ...said }), bytes: file }])
  }

  /** Adds a ride without a file. */
  remember(): void {
    this.#set([...this.#kept, { id: newId(), notes: textOf(noNotes) }])
  }

  note(id: string, change: Partial<RideNotes>): void {
    this.#set(
      this.#kept.map((ride) =>
        ride.id === id ? { ...ride, notes: textOf({ ...notesOf(ride.notes), ...change }) } : ride,
      ),
    )
  }

  remove(id: string): void {
    const at = this.#kept.findIndex((ride) => ride.id === id)
    const ride = this.#kept[at]
    if (ride === undefined) return
    this.#removed = { ride, at, day: this.bench.days.day?.id }
    this.#set(this.#kept.toSpliced(at, 1))
  }

  putBack(): void {
    const { ride, at } = this.#removed ?? {}
    if (ride === undefined || at === undefined || this.removed === undefined) return
    this.#removed = undefined
    this.#set(this.#kept.toSpliced(at, 0, ride))
  }

  /** Takes what was learnt into rider and bike, as one step. */
  take(): void {
    const { lesson } = this
    if (lesson === undefined) return
    const { learnt, steps = [] } = lesson
    this.bench.edit((plan) => stepsLearnt(takeOver(asStated(plan), learnt), steps))
    this.#taken = this.bench.plan
  }

  /** Undoes what was taken over: the step itself where it is the last, else a step that gives back what was stated before anything was learnt. */
  giveBack(): void {
    if (this.#taken === this.bench.plan && this.bench.canUndo) this.bench.undo()
    else this.bench.edit(asStated)
  }

  cancel(): void {
    this.#learner.cancel()
    this.isCancelled = true
    this.progress = undefined
  }

  again(): void {
    this.isCancelled = false
  }

  #set(rides: readonly KeptRide[]): void {
    const bytes = rides.reduce((sum, ride) => sum + (ride.bytes?.length ?? 0), 0)
    this.isFull = rides.length > most.rides || bytes > most.bytes
    if (this.isFull) return
    this.isCancelled = false
    this.bench.days.setRides(rides)
  }

  #read(): void {
    for (const { id, fileName, bytes } of this.#kept) {
      if (bytes === undefined || fileName === undefined || this.#underway.includes(id)) continue
      this.#underway.push(id)
      void this.#learner.read(id, bytes, fileName).then((reading) => {
        if (!reading.ok && reading.fault.code === 'notStarted') parts.missing = true
        this.#readings = { ...this.#readings, [id]: reading }
      })
    }
  }

  #follow() {
    const { route, isInGesture } = this.bench
    const { rides, isCancelled } = this
    if (this.#asked === undefined || route === undefined || isInGesture || isCancelled) return undefined
    const known = rides.filter((ride) => canTell(ride))
    const isRead = rides.every(({ fileName, reading }) => fileName === undefined || reading !== undefined)
    if (known.length === 0 || !isRead) return undefined
    const wait = setTimeout(() => void this.#learn(route, rides, known), settlesAfter)
    return () => {
      clearTimeout(wait)
      this.#learner.cancel()
      this.progress = undefined
    }
  }

  async #learn(route: Route, rides: readonly Ride[], known: readonly Ride[]) {
    const plan = this.#stated
    if (plan === undefined) return
    const began = performance.now()
    const asked = known.map(({ id, fileName, notes, reading }) => {
      const { bytes } = this.#kept.find((ride) => ride.id === id) ?? {}
      const file = bytes === undefined || fileName === undefined ? undefined : { bytes, fileName }
      return { id, name: reading?.ok === true ? reading.seen.name : '', file, notes }
    })
    const got = await this.#learner.learn(route, plan, asked, (share) => {
      if (performance.now() - began > soon) this.progress = share
    })
    if (!got.ok && got.why === 'superseded') return
    this.progress = undefined
    this.isFailed = !got.ok
    if (got.ok) this.#found = { route, rides, lesson: got.lesson }
    else if (got.why === 'notStarted') parts.missing = true
  }
}

/** Whether a ride tells anything: a recording with times that someone rode, or a time that is remembered. */
export const canTell = ({ fileName, reading, notes }: Ride): boolean =>
  fileName === undefined ? notes.ridingTime !== null : reading?.ok === true && isRidden(reading.seen)

const isRidden = ({ faults }: RideSeen) => !faults.some(({ code }) => code === 'madeUpTimes')

const textOf = (notes: RideNotes) => JSON.stringify(notes)

let ofPage: LastTime | undefined

/** The one of the page. */
export const lastTimeOf = (bench: Workbench): LastTime => (ofPage ??= new LastTime(bench))
