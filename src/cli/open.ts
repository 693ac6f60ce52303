import type { Plan } from '../model/plan/schema'
import { readRoute } from '../model/route/read'
import type { ReadRoute } from '../model/route/reading'
import { wordsIn } from '../view/words/words'
import { Fault, type Request } from './arguments'
import { planWith } from './settings'

/** Bytes of a file; throws a Fault if it can't be read. */
export type Read = (file: string) => Uint8Array

/** Plan and route that are asked for. @throws Fault where one is refused */
export async function openAsked(
  { file, plan: planFile, settings }: Request,
  read: Read,
): Promise<{ plan: Plan; reading: ReadRoute }> {
  const readText = (name: string) => new TextDecoder().decode(read(name))
  const plan = planWith(planFile === undefined ? undefined : readText(planFile), settings, readText)
  const reading = await readRoute(read(file), file.replace(/^.*[/\\]/, ''))
  if (!reading.ok) throw new Fault(wordsIn('metric').route.fault(reading.fault))
  return { plan, reading }
}
