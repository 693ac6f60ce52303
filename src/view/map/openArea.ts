import { areas } from '../../state/areas.svelte'
import type { Workbench } from '../../state/workbench.svelte'
import { readArea } from '../../work/area'
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
  bench.messages.say({
    subject: 'file',
    kind: 'news',
    text: `${words.named(file.name)}: ${isKept ? words.kept : words.notKept}`,
  })
  return true
}
