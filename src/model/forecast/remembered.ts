import type { Route } from '../route/route'

interface Kept {
  keys: readonly unknown[]
  value: unknown
}

const kept = new WeakMap<Route, Map<string, Kept>>()

/**
 * What depends on a route and a few parts of the plan, worked out anew only where one of them is another: in a drag most are the same from frame to
 * frame. A value is that of `make`, whoever asked before.
 *
 * @param what names the value, one for each place of use
 * @param keys compared one by one with ===
 */
export function remembered<T>(route: Route, what: string, keys: readonly unknown[], make: () => T): T {
  const ofRoute = kept.get(route) ?? new Map<string, Kept>()
  kept.set(route, ofRoute)
  const last = ofRoute.get(what)
  if (last !== undefined && keys.every((key, i) => key === last.keys[i])) return last.value as T
  const value = make()
  ofRoute.set(what, { keys, value })
  return value
}
