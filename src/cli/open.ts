import type { Plan } from '../model/plan/schema'
import { readRoute } from '../model/route/read'
import type { ReadRoute } from '../model/route/reading'
import { wordsIn } from '../view/words/words'
import { Fault, type Request } from './arguments'
import { planWith } from './settings'

/** Bytes of a file; throws a Fault if it can't be read. */
export type Read = (file: string) => Uint8Array

/** The plan that is asked for. @throws Fault where it is refused */
export function planAsked({ plan, settings }: Request, read: Read): Plan {
  const readText = (name: string) => new TextDecoder().decode(read(name))
  return planWith(plan === undefined ? undefined : readText(plan), settings, readText)
}

/** Name of a file without its folders. */
export const nameOf = (file: string): string => file.replace(/^.*[/\\]/, '')

/** Plan and route that are asked for. @throws Fault where one is refused */
export async function openAsked(request: Request, read: Read): Promise<{ plan: Plan; reading: ReadRoute }> {
  const plan = planAsked(request, read)
  const [file] = request.files
  const reading = await readRoute(read(file), nameOf(file))
  if (!reading.ok) throw new Fault(wordsIn('metric').route.fault(reading.fault))
  return { plan, reading }
}
