import { inject, vi } from 'vitest'

declare module 'vitest' {
  interface ProvidedContext {
    mutantActivation?: 'static' | 'runtime'
    activeMutant?: string
  }
}

/**
 * Test files of one worker share their modules, but what a module works out on loading must be worked out with the mutant of now, and never with the
 * one before.
 */
const worker = globalThis as { loadedWith?: string | undefined }
const mutant = inject('mutantActivation') === 'static' ? inject('activeMutant') : undefined
if (worker.loadedWith !== mutant) vi.resetModules()
worker.loadedWith = mutant
