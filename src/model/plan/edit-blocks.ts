import { changeSource } from './edit'
import type { Plan, PlanBlock } from './schema'

const unmeasured: PlanBlock = { voltage: null, age: null }

/** Changes what was measured of a block of a carried pack. @param id of the source @param k number of the block, from 0 */
export function changeBlock(plan: Plan, id: string, k: number, change: Partial<PlanBlock>): Plan {
  const source = plan.sources.find((source) => source.id === id)
  if (source?.kind !== 'carried') return plan
  const blocks = Array.from({ length: Math.max(k + 1, source.blocks.length) }, (_, i) => {
    const block = source.blocks[i] ?? unmeasured
    return i === k ? { ...block, ...change } : block
  })
  return changeSource(plan, id, { blocks })
}
