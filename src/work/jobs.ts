import { proxy, wrap, type Remote } from 'comlink'
import type { Doing, RouteChoice, RouteReading } from '../model/route/reading'
import type { RouteFault } from '../model/route/fault'

/** Why a file gives no route: also the program's own faults, the last where there is a route but no forecast. */
export type FileFault = RouteFault | { code: 'failed' | 'notStarted' | 'noForecast' }

export type FileReading = Extract<RouteReading, { ok: true }> | { ok: false; fault: FileFault }

/** A file as it was opened, and heights of the land that were brought for it, by the keys that choices name. */
interface Opened {
  bytes: Uint8Array
  fileName: string
  grounds?: Readonly<Record<string, Uint8Array>>
}

/** What the worker does: reads the bytes of a file by what was chosen about it, with heights of the land where they were brought. */
export interface RouteWorker {
  read(
    bytes: Uint8Array,
    fileName: string,
    choice: RouteChoice,
    onProgress: (share: number, doing: Doing) => void,
    ground?: Uint8Array,
  ): Promise<FileReading>
}

const openRouteWorker = () => new Worker(new URL('./route.worker.ts', import.meta.url), { type: 'module' })

/** Reads route files in a worker, one at a time: a newer file ends the reading of an older one. */
export class RouteReader {
  private worker: Worker | undefined
  /** Kept as long as the worker: a remote that is garbage-collected closes the worker's end. */
  private remote: Remote<RouteWorker> | undefined
  private supersede: (() => void) | undefined

  /** @param openWorker makes the worker; replaced in tests */
  constructor(private readonly openWorker: () => Worker = openRouteWorker) {}

  /**
   * As readRoute, in the worker.
   *
   * @returns the reading, or 'superseded' as soon as a newer call has begun; never rejects
   */
  async read(
    { bytes, fileName, grounds }: Opened,
    choice: RouteChoice,
    onProgress: (share: number, doing: Doing) => void,
  ): Promise<FileReading | 'superseded'> {
    this.supersede?.()
    const worker = (this.worker ??= this.openWorker())
    const remote = (this.remote ??= wrap<RouteWorker>(worker))
    let isCurrent = true
    const superseded = new Promise<'superseded'>((resolve) => {
      this.supersede = () => {
        isCurrent = false
        this.end()
        resolve('superseded')
      }
    })
    const { supersede } = this
    const notStarted = new Promise<FileReading>((resolve) => {
      worker.addEventListener('error', () => {
        if (isCurrent) this.end()
        resolve({ ok: false, fault: { code: 'notStarted' } })
      })
    })
    try {
      const reading = remote.read(
        bytes,
        fileName,
        choice,
        proxy((share: number, doing: Doing) => {
          if (isCurrent) onProgress(share, doing)
        }),
        choice.ground && grounds?.[choice.ground.key],
      )
      return await Promise.race([reading, superseded, notStarted])
    } catch (error) {
      console.error(error)
      if (isCurrent) this.end()
      return { ok: false, fault: { code: 'failed' } }
    } finally {
      // Progress comes through a channel of its own and may be late.
      isCurrent = false
      if (this.supersede === supersede) this.supersede = undefined
    }
  }

  /** Ends the reading that is going on, if any, as a newer one does. */
  cancel(): void {
    this.supersede?.()
  }

  /** Ends the worker, as on leaving the page. */
  private end(): void {
    this.worker?.terminate()
    this.worker = undefined
    this.remote = undefined
  }
}
