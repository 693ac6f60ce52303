import type { Edit, Seen, Told } from './edits'

/** What is seen of the day; undefined as long as there is none. Runs in the page. */
export function seen(): Seen | undefined {
  const file = document.querySelector<HTMLElement>('header .route')?.title ?? ''
  if (file === '' || document.querySelector('h1') === null) return undefined
  const pins = [...document.querySelectorAll('section[aria-label="Profile"] [role="slider"]')]
  return {
    file,
    stops: pins
      .filter((pin) => pin.getAttribute('aria-label') !== 'Place on the route')
      .map((pin) => [pin.getAttribute('aria-label') ?? '', Number(pin.getAttribute('aria-valuenow'))]),
  }
}

/** Makes edits one after the other as a rider's hand does, and tells the console of each. Runs in the page. */
export async function make(edits: readonly Edit[], look: () => Seen | undefined): Promise<void> {
  const rest = (time: number) => new Promise((resolve) => setTimeout(resolve, time))
  const tell = (told: Told) => console.debug(`kills ${JSON.stringify(told)}`)
  const until = async (isSo: () => boolean) => {
    if (isSo()) return
    await new Promise<void>((resolve) => {
      const observer = new MutationObserver(() => {
        if (!isSo()) return
        observer.disconnect()
        resolve()
      })
      observer.observe(document.body, { subtree: true, childList: true, attributes: true })
    })
  }
  const find = <T extends HTMLElement>(selector: string, isIt: (element: T) => boolean): T => {
    const found = [...document.querySelectorAll<T>(selector)].find(isIt)
    if (found === undefined) throw new Error(`There is no ${selector}.`)
    return found
  }
  const happens = (edit: Edit): boolean => {
    if (edit.kind === 'pin') find<HTMLButtonElement>('button', ({ innerText }) => innerText === 'Pin a stop').click()
    else if (edit.kind === 'nudge')
      find(
        'section[aria-label="Profile"] [role="slider"]',
        (pin) => pin.getAttribute('aria-label') !== 'Place on the route',
      ).dispatchEvent(new KeyboardEvent('keydown', { key: edit.key, bubbles: true, cancelable: true }))
    else if (edit.kind === 'rename') {
      const label = find<HTMLLabelElement>('aside label', ({ innerText }) => innerText.trim() === 'Name')
      const field = document.getElementById(label.htmlFor) as HTMLInputElement
      field.value = edit.name
      for (const type of ['input', 'change']) field.dispatchEvent(new Event(type, { bubbles: true }))
    } else {
      const dataTransfer = new DataTransfer()
      dataTransfer.items.add(new File([edit.text], edit.file))
      for (const type of ['dragenter', 'drop'])
        document.body.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }))
      return false
    }
    return true
  }
  for (const edit of edits) {
    await rest(edit.pause / 2)
    tell({ number: edit.number, began: Date.now() })
    await rest(edit.pause / 2)
    if (!happens(edit)) await until(() => edit.kind === 'open' && look()?.file === edit.file)
    const ended = Date.now()
    await rest(0)
    tell({ number: edit.number, ended, seen: look()! })
  }
}
