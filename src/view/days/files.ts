import { dayEnding, writeDay } from '../../state/day-file'
import { openDays, type Filed } from '../../state/day-list.svelte'
import type { Workbench } from '../../state/workbench.svelte'
import { fileNameOf, saveText } from '../saved'
import { daysWordsIn } from '../words/days'

const type = 'application/zip'

/** Hands a day to the browser as a file. */
export const saveFiled = ({ name, bytes }: Filed): void => saveText(bytes, `${fileNameOf(name)}${dayEnding}`, type)

/** Saves the day on screen, kept or not. */
export function saveShown(bench: Workbench): void {
  const filed = bench.filed()
  if (filed !== undefined) saveFiled({ name: filed.day.name, bytes: writeDay(filed.day, filed.bytes) })
}

const asFile = ({ name, bytes }: Filed) => new File([bytes], `${fileNameOf(name)}${dayEnding}`, { type })

/** Whether the system's share sheet takes a day. */
export function canShare(): boolean {
  const { canShare } = navigator as Partial<Navigator>
  return canShare?.call(navigator, { files: [asFile({ name: 'a', bytes: new Uint8Array(1) })] }) === true
}

/** Hands a day to the system's share sheet; that it is closed there is no fault. */
export async function shareFiled(filed: Filed): Promise<void> {
  try {
    await navigator.share({ files: [asFile(filed)], title: filed.name })
  } catch (error) {
    if ((error as Partial<DOMException>).name !== 'AbortError') saveFiled(filed)
  }
}

/** Opens what a file holds of days, and says what could not be. Undefined where it is a file of another kind. */
export async function openDayFile(bench: Workbench, bytes: Uint8Array, fileName: string): Promise<boolean | undefined> {
  const reading = await openDays(bench, bytes, fileName)
  if (reading === undefined) return undefined
  const words = daysWordsIn(bench.view.units)
  const [first] = reading.faults
  const { days } = reading
  if (first !== undefined)
    bench.messages.say({ subject: 'file', kind: 'fault', text: words.file(first.fileName, first.fault) })
  else if (days.length > 1) bench.messages.say({ subject: 'file', kind: 'news', text: words.files(days.length) })
  return days.length > 0
}
