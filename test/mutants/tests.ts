const variable = 'MUTANTS_TESTS'

/** Where built tests lie: as deep as they were, for what they read beside themselves. */
export const built = 'test/built'

/** What the processes that Stryker starts will run, in this order. */
export function setTests(names: readonly string[]): void {
  process.env[variable] = names.join()
}

export const testsOf = (): string[] => process.env[variable]!.split(',')
