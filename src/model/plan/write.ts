import type { Plan } from './schema'

/** Texts of a plan's parts, which stay the same objects in the plans that edits make of it. */
const texts = new WeakMap<object, string>()

/**
 * The plan as text for a file or storage; `readPlan` gives back an equal plan. A part that was written before is not written again.
 *
 * @returns what JSON.stringify gives with two spaces, and the end of its last line
 */
export function writePlan(plan: Plan): string {
  const parts = Object.entries(plan).filter(([, part]) => part !== undefined)
  return listed('{', parts, ([key, part]) => `${JSON.stringify(key)}: ${partText(part)}`, '}', '') + '\n'
}

function partText(part: Plan[keyof Plan]): string {
  if (!Array.isArray(part)) return typeof part === 'object' && part !== null ? textOf(part, '  ') : JSON.stringify(part)
  return once(part, () => listed('[', part as object[], (item) => textOf(item, '    '), ']', '  '))
}

const textOf = (part: object, indent: string) =>
  once(part, () => JSON.stringify(part, null, 2).replaceAll('\n', `\n${indent}`))

function once(part: object, work: () => string): string {
  let text = texts.get(part)
  if (text === undefined) texts.set(part, (text = work()))
  return text
}

function listed<T>(
  begin: string,
  items: readonly T[],
  write: (item: T) => string,
  end: string,
  indent: string,
): string {
  if (items.length === 0) return begin + end
  return `${begin}\n${items.map((item) => `${indent}  ${write(item)}`).join(',\n')}\n${indent}${end}`
}
