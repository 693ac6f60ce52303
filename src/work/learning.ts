import { proxy, wrap, type Remote } from 'comlink'
import type { Lesson } from '../model/learn/learn'
import type { Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'
import type { LearnWorker, RideAsked, RideReading } from './learn.worker'

export type LessonReading = { ok: true; lesson: Lesson } | { ok: false; why: 'superseded' | 'failed' | 'notStarted' }

const openLearnWorker = () => new Worker(new URL('./learn.worker.ts', import.meta.url), { type: 'module' })

/** Reads recordings and learns from them in a worker of its own. A newer lesson ends an older one, with the worker if that is still at it. */
export class Learner {
  private hand:
    | {
        worker: Worker
        remote: Remote<LearnWorker>
        lost: Promise<'lost'>
        closed: Promise<'closed'>
        tellClosed(): void
      }
    | undefined
  private supersede: (() => void) | undefined

  private open() {
    if (this.hand !== undefined) return this.hand
    const worker = openLearnWorker()
    const lost = new Promise<'lost'>((resolve) => worker.addEventListener('error', () => resolve('lost')))
    const { promise: closed, resolve } = Promise.withResolvers<'closed'>()
    return (this.hand = {
      worker,
      remote: wrap<LearnWorker>(worker),
      lost,
      closed,
      tellClosed: () => resolve('closed'),
    })
  }

  /** What a recording says at a glance; never rejects. */
  async read(id: string, bytes: Uint8Array, fileName: string): Promise<RideReading> {
    const { remote, lost, closed } = this.open()
    try {
      const reading = await Promise.race([remote.read(id, bytes, fileName), lost, closed])
      // Its worker was ended with a lesson: another reads it.
      if (reading === 'closed') return await this.read(id, bytes, fileName)
      if (reading !== 'lost') return reading
      this.close()
      return { ok: false, fault: { code: 'notStarted' } }
    } catch (error) {
      console.error(error)
      return { ok: false, fault: { code: 'failed' } }
    }
  }

  /**
   * What rides told.
   *
   * @param onProgress takes the share done, 0 to 1
   * @returns never rejects
   */
  async learn(
    route: Route,
    plan: Plan,
    rides: readonly RideAsked[],
    onProgress: (share: number) => void,
  ): Promise<LessonReading> {
    this.cancel()
    const { remote, lost } = this.open()
    let isCurrent = true
    const superseded = new Promise<'superseded'>((resolve) => {
      this.supersede = () => {
        isCurrent = false
        this.close()
        resolve('superseded')
      }
    })
    const tell = proxy((share: number) => {
      if (isCurrent) onProgress(share)
    })
    try {
      const answer = await Promise.race([remote.learn(route, plan, rides, tell), superseded, lost])
      if (answer === 'superseded') return { ok: false, why: answer }
      this.supersede = undefined
      if (answer !== 'lost') return { ok: true, lesson: answer }
      this.close()
      return { ok: false, why: 'notStarted' }
    } catch (error) {
      console.error(error)
      this.supersede = undefined
      return { ok: false, why: 'failed' }
    } finally {
      // Progress comes through a channel of its own and may be late.
      isCurrent = false
    }
  }

  /** Ends the lesson that it is at. */
  cancel(): void {
    this.supersede?.()
    this.supersede = undefined
  }

  /** Ends the worker, with all that it has read. */
  close(): void {
    this.hand?.worker.terminate()
    this.hand?.tellClosed()
    this.hand = undefined
  }
}
