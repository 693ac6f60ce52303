import { formatIn, type Units } from '../format'
import { whyWordsIn } from '../words/why'
import type { ValueName } from '../words/en/why'
import type { FigureName } from '../words/en/formulas'
import type { Reason } from './why.svelte'

/** What is put into a formula: values by the names of the words, values that have names of their own, and what comes out. */
export interface PutIn {
  values?: Partial<Record<ValueName, string>>
  each?: readonly (readonly [name: string, value: string])[]
  result: string
  title?: string
}

/** Nothing but signs is left of it when the names are taken out, so it can be reckoned by hand. */
const isSum = /^[\s+−×/()]*$/
const token = /\{(\w+)\}/g

/** `+19 min` and `−2 min` as `19 min − 2 min`. */
const added = (values: readonly string[]) =>
  values.join(' + ').replaceAll('+ −', '− ').replaceAll('+ +', '+ ').replace(/^\+/, '')

/** A name within a formula: `Mean speed` as `mean speed`, but `C_rr` as it is. */
const within = (name: string) => (/^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name)

/** A formula with the names of its values in it. @param names what stands for a value, by its name in the formula */
export const formulaInWords = (formula: string, names: Readonly<Record<string, string>>): string =>
  formula.replace(token, (_, name: string) => within(names[name]!))

/** Reasons by figure, in the rider's units. */
export function explainIn(units: Units) {
  const { figures, names } = whyWordsIn(units)
  return (figure: FigureName, { values = {}, each = [], result, title }: PutIn): Reason => {
    const words = figures[figure]
    const { formula } = words
    const given: Readonly<Partial<Record<string, string>>> = values
    const isKnown = [...formula.matchAll(token)].every(([, name]) => given[name!] !== undefined)
    const putIn =
      words.adds && each.length > 1
        ? added(each.map(([, value]) => value))
        : formula.includes('{') && isSum.test(formula.replace(token, '')) && isKnown
          ? formula.replace(token, (_, name: string) => given[name]!)
          : undefined
    return {
      ...words,
      ...(title === undefined ? {} : { title }),
      figure,
      formula: formulaInWords(formula, names),
      putIn,
      values: [
        ...Object.entries(values).map(([name, value]): [string, string] => [names[name as ValueName], value]),
        ...each.map(([name, value]): [string, string] => [name, value]),
      ],
      result,
    }
  }
}

/** Times and energies so fine that the difference of two whole rides can be read from them. */
export function exactIn(units: Units) {
  const { number } = formatIn(units)
  return {
    /** `6 h 12 min 14.3 s`. */
    time: (seconds: number): string => {
      const tenths = Math.round(10 * seconds)
      const minutes = Math.floor(tenths / 600)
      const rest = `${number((tenths - 600 * minutes) / 10, 1)} s`
      return minutes < 60 ? `${minutes} min ${rest}` : `${Math.floor(minutes / 60)} h ${minutes % 60} min ${rest}`
    },
    /** `812.3 Wh`, from J. */
    energy: (joules: number): string => `${number(joules / 3600, 1)} Wh`,
  }
}
