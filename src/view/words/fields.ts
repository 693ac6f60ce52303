import type { Catalogue } from '../../model/plan/catalogue'
import type { Belief } from '../../model/plan/parameters'

/** What is said of one number. */
export interface FieldText {
  label: string
  /** One line: what it is. */
  meaning: string
  /** Where the number comes from. */
  source: string
}

/** Words for each number of the catalogue, with the source of its belief where it has one: a number without words does not compile. */
export type FieldWords = {
  [Group in keyof Catalogue]: {
    [Key in keyof Catalogue[Group]]: FieldText &
      (Catalogue[Group][Key] extends { belief: Belief } ? { belief: string } : unknown)
  }
}
