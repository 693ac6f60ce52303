import type { LoadOut } from '../../model/decide/load-outs'
import type { Plan } from '../../model/plan/schema'
import type { ChoicesWords } from '../words/choices'

/** What a load-out of a plan is called: of several carried packs the one that is rewired by its name, and the thing that stays at home. */
export function loadOutName(loadOut: LoadOut, { sources, kit }: Plan, { name }: ChoicesWords['loadOuts']): string {
  const { carried } = loadOut
  const several = sources.filter(({ kind }) => kind === 'carried').length > 1
  const rewired = typeof carried === 'object' && several ? carried.source : undefined
  const left = typeof loadOut.kit === 'object' ? loadOut.kit.without : undefined
  return name(loadOut, sources.find(({ id }) => id === rewired)?.name, kit.find(({ id }) => id === left)?.name)
}
