import { proxy, wrap, type Remote } from 'comlink'
import type { Route } from '../model/route/route'
import type { JobDesk, Jobs } from './job-desk'

/**
 * Results of a batch in the order of its inputs, or why there are none: a newer one of the same queue began or it was cancelled, a job threw, or a worker could
 * not be started.
 */
export type Results<Result> =
  { ok: true; results: Result[] } | { ok: false; why: 'superseded' | 'failed' | 'notStarted' }

type Input<Job> = Job extends (route: Route, input: infer In, tell: never) => unknown ? In : never
type Result<Job> = Job extends (...args: never[]) => infer Out ? Out : never

/** A worker that is still at something that nobody waits for any more is ended after this time, ms; most are done sooner. */
const patience = 250
/** Inputs that go to a worker at once: what several of them share is then copied once. */
const mostAtOnce = 64

/** What is to be done, and what of it is. */
interface Batch {
  job: string
  route: Route
  inputs: readonly unknown[]
  results: unknown[]
  /** Index of the next input to be given out. */
  next: number
  done: number
  /** How many workers may be at it. */
  most: number
  /** Inputs done of those that a worker is at, parts of one included. */
  underway: Map<Hand, number>
  tell(): void
  /** Nothing where it came to its end. */
  end(why?: Extract<Results<never>, { ok: false }>['why']): void
}

/** A worker of the pool. */
interface Hand {
  worker: Worker
  /** Kept as long as the worker: a remote that is garbage-collected closes the worker's end. */
  remote: Remote<JobDesk>
  route?: Route
  isBusy: boolean
}

/**
 * Workers that share batches of jobs. The results do not depend on how many there are. Each is opened when it is first needed, and holds the route that it last
 * worked at.
 */
export class Pool<Known extends Jobs> {
  private readonly hands = new Set<Hand>()
  /** Those of which not all is done, the one that was longest without a worker first. */
  private batches: Batch[] = []

  /**
   * @param open makes a worker that answers to a `JobDesk`
   * @param size how many at most
   */
  constructor(
    private readonly open: () => Worker,
    private readonly size: number,
  ) {}

  /**
   * A place to ask from, for one purpose: a newer batch ends the older one of the same queue, and leaves those of others.
   *
   * @param leaves workers that it does without, where there are more: what runs unasked leaves a core to the page
   */
  queue(leaves = 0): Queue<Known> {
    return new Queue(
      Math.max(1, this.size - leaves),
      (batch) => {
        this.batches.unshift(batch)
        this.giveOut()
      },
      (batch) => this.takeBack(batch),
    )
  }

  private takeBack(batch: Batch): void {
    this.batches = this.batches.filter((other) => other !== batch)
    for (const { remote } of batch.underway.keys()) void remote.drop()
    setTimeout(() => {
      for (const hand of batch.underway.keys()) this.dismiss(hand)
    }, patience)
  }

  /** A part of each batch in turn, as long as there are workers. */
  private giveOut(): void {
    for (;;) {
      const batch = this.batches.find(
        ({ next, inputs, underway, most }) => next < inputs.length && underway.size < most,
      )
      const hand = batch && this.idleHand()
      if (batch === undefined || hand === undefined) return
      this.batches = [...this.batches.filter((other) => other !== batch), batch]
      void this.work(hand, batch)
    }
  }

  private idleHand(): Hand | undefined {
    for (const hand of this.hands) if (!hand.isBusy) return hand
    if (this.hands.size >= this.size) return undefined
    const worker = this.open()
    const hand: Hand = { worker, remote: wrap<JobDesk>(worker), isBusy: false }
    this.hands.add(hand)
    worker.addEventListener('error', () => {
      for (const batch of this.batches) if (batch.underway.has(hand)) batch.end('notStarted')
      this.dismiss(hand)
    })
    return hand
  }

  private async work(hand: Hand, batch: Batch): Promise<void> {
    const { route, job, inputs, underway } = batch
    const first = batch.next
    const part = inputs.slice(first, first + Math.min(mostAtOnce, Math.ceil(inputs.length / (2 * this.size))))
    batch.next += part.length
    hand.isBusy = true
    underway.set(hand, 0)
    // Through a channel of its own: it may come late.
    const tell = proxy((done: number) => {
      if (underway.has(hand)) underway.set(hand, done)
      batch.tell()
    })
    try {
      if (hand.route !== route) await hand.remote.hold(route)
      hand.route = route
      const results = await hand.remote.work(job, part, tell)
      for (const [i, result] of results.entries()) batch.results[first + i] = result
      batch.done += results.length
    } catch (error) {
      console.error(error)
      batch.end('failed')
    }
    underway.delete(hand)
    hand.isBusy = false
    batch.tell()
    if (batch.done === inputs.length) batch.end()
    this.giveOut()
  }

  /** Ends a worker; another takes its place when one is needed. */
  private dismiss(hand: Hand): void {
    hand.worker.terminate()
    this.hands.delete(hand)
    this.giveOut()
  }
}

/** Asks the workers for one batch at a time. */
export class Queue<Known extends Jobs> {
  private current: Batch | undefined

  constructor(
    private readonly most: number,
    private readonly give: (batch: Batch) => void,
    private readonly takeBack: (batch: Batch) => void,
  ) {}

  /**
   * Does a job for each of some inputs, in place of what this queue was at.
   *
   * @param job its name
   * @param inputs plain values; what they share is best the same object in all of them
   * @param onProgress takes the share done, 0 to 1, never less than before
   * @returns never rejects
   */
  run<Name extends keyof Known & string>(
    job: Name,
    route: Route,
    inputs: readonly Input<Known[Name]>[],
    onProgress: (share: number) => void = () => undefined,
  ): Promise<Results<Result<Known[Name]>>> {
    this.cancel()
    if (inputs.length === 0) return Promise.resolve({ ok: true, results: [] })
    return new Promise((resolve) => {
      let told = 0
      const batch: Batch = {
        ...{ job, route, inputs, results: [], next: 0, done: 0 },
        ...{ most: this.most, underway: new Map<Hand, number>() },
        tell: () => {
          let done = batch.done
          for (const part of batch.underway.values()) done += part
          if (batch !== this.current || done <= told) return
          told = done
          onProgress(done / inputs.length)
        },
        end: (why) => {
          if (batch !== this.current) return
          this.current = undefined
          this.takeBack(batch)
          resolve(
            why === undefined ? { ok: true, results: batch.results as Result<Known[Name]>[] } : { ok: false, why },
          )
        },
      }
      this.current = batch
      this.give(batch)
    })
  }

  /** Ends what it is at, as when nobody waits for it any more. */
  cancel(): void {
    this.current?.end('superseded')
  }
}
