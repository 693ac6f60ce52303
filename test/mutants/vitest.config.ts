import { basename } from 'node:path'
import { BaseSequencer, type Reporter, type TestSpecification, type Vitest } from 'vitest/node'
import { mergeConfig } from 'vitest/config'
import base from '../../vite.config'
import { built, testsOf } from './tests'

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

const tests = testsOf().map((name) => `${built}/${basename(name, '.ts')}.js`)

/** The list's own order: what is quick and sees most stands first. */
class AsListed extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => tests.findIndex((name) => moduleId.endsWith(name))
    return [...files].sort((a, b) => place(a) - place(b))
  }
}

const config = mergeConfig(base, {
  // Instrumented, tests take many times as long.
  test: { reporters: [new Unloadable()], sequence: { sequencer: AsListed }, testTimeout: 600_000 },
})
config.test.include = tests
export default config
