/** Mutants that no test can notice, because the model does the same with and without them; each with the reason. */
export interface Equivalent {
  file: string
  /** What stands there, and instead. */
  from: string
  to: string
  why: string
}

export const equivalent: Equivalent[] = []
