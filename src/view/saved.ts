/** Hands a text, or bytes, to the browser as a file. */
export function saveText(text: string | Uint8Array<ArrayBuffer>, fileName: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = fileName
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}

/** A route's name as part of a file name: letters, digits, spaces and a few signs only. */
export const fileNameOf = (name: string): string =>
  name
    .normalize('NFC')
    .replace(/[^\p{L}\p{N} ._-]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[.\s]+|[.\s]+$/g, '')
    .slice(0, 80) || 'route'
