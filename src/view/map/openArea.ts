import { areas } from '../../state/areas.svelte'
import type { Workbench } from '../../state/workbench.svelte'
import { readArea } from '../../work/area'
import { bring, sourceOfArea } from '../ground/bring'
import { mapSettingsWordsIn } from '../words/mapSettings'

/** Takes a file as an area of the map, or says why it can't be one. False where it could not be. */
export async function openArea(bench: Workbench, file: File): Promise<boolean> {
  const { area: words } = mapSettingsWordsIn(bench.view.units)
  const read = await readArea(file)
  if ('code' in read) {
    bench.messages.say({ subject: 'file', kind: 'fault', text: `${words.named(file.name)}: ${words.fault(read)}` })
    return false
  }
  const isKept = await areas.add(file.name, file, read)
  if (read.kind === 'heights' && (await takeHeights(bench))) return true
  bench.messages.say({
    subject: 'file',
    kind: 'news',
    text: `${words.named(file.name)}: ${read.kind === 'heights' ? words.heights : isKept ? words.kept : words.notKept}`,
  })
  return true
}

/** Takes elevation from the heights that were opened last, where the route on screen has none. @returns whether it was taken, which is told there */
async function takeHeights(bench: Workbench): Promise<boolean> {
  const area = areas.heights.at(-1)
  const before = bench.open
  if (area === undefined || before === undefined || before.route.elevationKnown === 'all') return false
  await bring(bench, sourceOfArea(area), new AbortController().signal, () => undefined)
  return bench.open !== before
}
