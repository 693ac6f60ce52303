import type { Attachment } from 'svelte/attachments'

const isList = ({ name, type }: File) => /\.(csv|tsv|txt)$/i.test(name) || type === 'text/csv'

/**
 * Takes a table that is dropped here, as a file or as a piece of text, before the page takes it for a route. Text that is dropped into a
 * field goes there, and other files are the page's.
 */
export const dropText =
  (
    takeFile: (file: File) => void,
    takeText: (text: string) => void,
    other: (file: File) => void,
  ): Attachment<HTMLElement> =>
  (place) => {
    const listening = new AbortController()
    const on = (type: string, listener: (event: DragEvent, data: DataTransfer) => void) =>
      place.addEventListener(
        type,
        (event) => {
          if (event instanceof DragEvent && event.dataTransfer !== null && isOurs(event))
            listener(event, event.dataTransfer)
        },
        { signal: listening.signal },
      )
    const stop = (event: DragEvent) => {
      event.preventDefault()
      event.stopPropagation()
    }
    on('dragenter', stop)
    on('dragover', stop)
    on('dragleave', (event) => event.stopPropagation())
    on('drop', (event, data) => {
      stop(event)
      const file = data.files[0]
      if (file === undefined) takeText(data.getData('text/plain'))
      else if (isList(file)) takeFile(file)
      else other(file)
    })
    return () => listening.abort()
  }

function isOurs({ dataTransfer, target }: DragEvent): boolean {
  const types = dataTransfer?.types ?? []
  if (types.includes('Files')) return true
  return types.includes('text/plain') && !(target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)
}
