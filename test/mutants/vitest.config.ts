import type { Reporter, Vitest } from 'vitest/node'
import { mergeConfig } from 'vitest/config'
import base from '../../vite.config'

/** A test file that can't be loaded runs no test, which Stryker takes for none that is red: here it is an error. */
class Unloadable implements Reporter {
  private vitest: Vitest | undefined
  onInit(vitest: Vitest): void {
    this.vitest = vitest
  }
  onTestModuleEnd(file: Parameters<NonNullable<Reporter['onTestModuleEnd']>>[0]): void {
    for (const error of file.errors()) this.vitest!.state.catchError(error, 'in loading')
  }
}

const config = mergeConfig(base, { test: { reporters: [new Unloadable()] } })
config.test.include = process.env.MUTANTS_TESTS!.split(',')
export default config
