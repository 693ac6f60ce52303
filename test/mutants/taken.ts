import { createHash } from 'node:crypto'
import type { Stryker } from '@stryker-mutator/core'

/** Stryker tells of all mutants of a room: this takes some, in an order that a seed decides, and leaves the others untried. */

export type MutantResult = Awaited<ReturnType<Stryker['runMutationTest']>>[number]
type Mutant = Omit<MutantResult, 'status'>

interface Take {
  /** null for all. */
  count: number | null
  seed: number
  /** Those by their keys, where they are known. */
  only: string[] | null
}

/** Lines and columns count from 1 in Stryker's results, from 0 where it asks whether to run. */
type Counted = 0 | 1

const variable = 'MUTANTS_TAKEN'

/** What the processes that Stryker starts will take. */
export function setTake(take: Take): void {
  process.env[variable] = JSON.stringify(take)
}

/** A hash of the seed and of what a mutant is. */
export function keyOf(
  { fileName, location: { start, end }, mutatorName, replacement }: Mutant,
  seed: number,
  from: Counted = 1,
): string {
  const file = fileName.slice(fileName.indexOf('src/model/'))
  const places = [start.line, start.column, end.line, end.column].map((place) => place - from)
  return createHash('sha256')
    .update([seed, file, ...places, mutatorName, replacement].join('|'))
    .digest('hex')
}

/**
 * The first of the mutants in the order of their keys: the same seed takes the same ones, and what it takes from a part of them holds at least what
 * it takes of that part from all.
 */
export function taken<M extends Mutant>(mutants: readonly M[], { count, seed, only }: Take, from: Counted = 1): M[] {
  const keyed = mutants.map((mutant) => ({ mutant, key: keyOf(mutant, seed, from) }))
  if (only !== null) return keyed.filter(({ key }) => only.includes(key)).map(({ mutant }) => mutant)
  return keyed
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .slice(0, count ?? Infinity)
    .map(({ mutant }) => mutant)
}

/** Stryker's place for saying that a mutant is not worth a run; here, that it is not in the sample. */
export const strykerPlugins = [
  {
    kind: 'Checker',
    name: 'taken',
    value: {
      init: async () => {},
      group: async (mutants: Mutant[]) => [mutants.map(({ id }) => id)],
      check: async (mutants: Mutant[]) => {
        const ids = new Set(taken(mutants, JSON.parse(process.env[variable]!) as Take, 0).map(({ id }) => id))
        return Object.fromEntries(
          mutants.map(({ id }) => [
            id,
            ids.has(id) ? { status: 'passed' } : { status: 'compileError', reason: 'not taken' },
          ]),
        )
      },
    },
  },
]
