import type { Way } from '../../model/decide/assist'
import { landmarksAt } from '../../model/decide/landmarks'
import type { Plan } from '../../model/plan/schema'
import type { Route } from '../../model/route/route'
import type { ChoicesWords } from '../words/choices'

/** How the assist is to be set on the way, in words. */
export function ruleOf(way: Way, route: Route, plan: Plan, { rule }: ChoicesWords): string {
  const text = settingOf(plan, rule)
  switch (way.by) {
    case 'constant':
      return rule.constant(text(way.ratio))
    case 'pair':
      return rule.pair(text(way.flat), text(way.climb))
    default: {
      const ends = way.places.map(({ end }) => end)
      const until = landmarksAt(route, plan, ends)
      return rule.places(way.places.map(({ ratio }, k) => ({ ratio: text(ratio), until: until[k]! })))
    }
  }
}

/** What is set for a ratio: the step of the plan's display that has it, the motor off, or the ratio itself. */
export function settingOf({ steps }: Pick<Plan, 'steps'>, rule: ChoicesWords['rule']): (ratio: number) => string {
  return (ratio) => {
    const at = steps.findIndex((step) => step.ratio === ratio)
    return at >= 0 ? rule.step(at + 1, steps[at]!) : steps.length > 0 && ratio === 0 ? rule.off : rule.ratio(ratio)
  }
}
