import type { Heading } from '../../../docs/places'

/** What is known of how a figure comes about, whatever its values. */
export interface FormulaWords {
  title: string
  /** In words; `{name}` stands for a value of the words' `names`. Of such values and signs alone, the values are put in below it. */
  formula: string
  /** The figure is the sum of values that have names of their own. */
  adds?: true
  source: string
  heading: Heading
}

/** By the name of the figure. */
export type Formulas = Record<string, FormulaWords>
