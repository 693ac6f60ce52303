import type { Route } from '../model/route/route'

/**
 * What workers of a pool do, by name: pure functions of a route and one input, either of which they leave as it is. A job that takes long may tell how far
 * it is, 0 to 1.
 */
export type Jobs = Record<string, (route: Route, input: never, tell: (share: number) => void) => unknown>

/** What a worker of a pool answers to. */
export interface JobDesk {
  /** The route of all jobs from now on. */
  hold(route: Route): void
  /** Does a job for each of some inputs, in order. @param tell takes how many are done, parts of one included, where the job tells that */
  work(job: string, inputs: readonly unknown[], tell: (done: number) => void): Promise<unknown[]>
  /** Nobody waits any more for what it is at: that ends after the input it is at, with what it has. */
  drop(): void
}

/** Lets in what was sent meanwhile. */
function breath(): Promise<void> {
  const { port1, port2 } = new MessageChannel()
  return new Promise((resolve) => {
    port1.onmessage = () => {
      port1.close()
      resolve()
    }
    port2.postMessage(undefined)
  })
}

/** The worker's end of a pool. */
export function jobDesk(jobs: Jobs): JobDesk {
  let held: Route | undefined
  let isDropped = false
  return {
    hold(route) {
      held = route
    },
    async work(name, inputs, tell) {
      const job = jobs[name]
      const route = held
      if (job === undefined || route === undefined) throw new RangeError(`Nothing to do ${name} with.`)
      isDropped = false
      const results: unknown[] = []
      for (const [i, input] of inputs.entries()) {
        if (isDropped) break
        results.push(job(route, input as never, (share) => tell(i + share)))
        await breath()
      }
      return results
    },
    drop() {
      isDropped = true
    },
  }
}
