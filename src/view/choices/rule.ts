import type { Way } from '../../model/decide/assist'
import { landmarksAt } from '../../model/decide/landmarks'
import type { Plan } from '../../model/plan/schema'
import type { Route } from '../../model/route/route'
import type { ChoicesWords } from '../words/choices'

/** How the assist is to be set on the way, in words. */
export function ruleOf(way: Way, route: Route, plan: Plan, { rule }: ChoicesWords): string {
  switch (way.by) {
    case 'constant':
      return rule.constant(way.ratio)
    case 'pair':
      return rule.pair(way.flat, way.climb)
    default: {
      const ends = way.places.map(({ end }) => end)
      const until = landmarksAt(route, plan, ends)
      return rule.places(way.places.map(({ ratio }, k) => ({ ratio, until: until[k]! })))
    }
  }
}
