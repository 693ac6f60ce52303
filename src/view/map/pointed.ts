import type { Workbench } from '../../state/workbench.svelte'

/** The workbench's cursor as the map moves it. What another view has put there since is left alone. */
export class Pointed {
  #at: number | undefined

  constructor(private readonly bench: Pick<Workbench, 'cursor'>) {}

  /** @param distance ridden distance, m */
  set(distance: number): void {
    this.#at = distance
    this.bench.cursor = distance
  }

  clear(): void {
    if (this.#at !== undefined && this.bench.cursor === this.#at) this.bench.cursor = undefined
    this.#at = undefined
  }
}
