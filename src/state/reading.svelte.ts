import type { Doing, ReadRoute, RouteChoice } from '../model/route/reading'
import { RouteReader, type FileFault } from '../work/jobs'
import { parts } from './parts.svelte'
import type { RouteFile } from './store'

/** A route as opened, with its file, what was chosen about it, and what else it holds. */
export interface OpenRoute extends ReadRoute {
  file: RouteFile
  choice: RouteChoice
}

/** Reads route files: the one that was asked for last, whatever else is under way. */
export class Reading {
  /** What is read now, and the file's name where a day is to begin with it. */
  busy = $state.raw<{ share: number; doing: Doing; fileName?: string } | undefined>()
  readonly #reader = new RouteReader()
  #asked = 0

  /**
   * @param beginning the file's name where a day is to begin with it
   * @returns 'superseded' where another was asked for meanwhile, or it was stopped
   */
  async read(file: RouteFile, choice: RouteChoice, beginning?: string): Promise<OpenRoute | 'superseded' | FileFault> {
    this.#asked++
    const named = beginning === undefined ? {} : { fileName: beginning }
    const tell = (share: number, doing: Doing) => (this.busy = { share, doing, ...named })
    tell(0, 'opening')
    const reading = await this.#reader.read(file, choice, tell)
    if (reading === 'superseded') return reading
    this.busy = undefined
    if (reading.ok) return { file, choice, ...reading }
    if (reading.fault.code === 'notStarted' || reading.fault.code === 'programMissing') parts.missing = true
    return reading.fault
  }

  /** A day is to begin with a file that is yet to be fetched: shown as what is read, until that begins, `end` is called or the rider cancels it. */
  announce(fileName: string): { isWanted: () => boolean; end: () => void } {
    this.stop()
    const isWanted = this.watch()
    this.busy = { share: 0, doing: 'opening', fileName }
    return { isWanted, end: () => isWanted() && (this.busy = undefined) }
  }

  /** Reads no further: the day on screen stays. */
  stop(): void {
    this.#asked++
    this.#reader.cancel()
    this.busy = undefined
  }

  /** @returns whether nothing was asked for since this call */
  watch(): () => boolean {
    const number = this.#asked
    return () => this.#asked === number
  }
}
