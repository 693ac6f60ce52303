import type { Attachment } from 'svelte/attachments'
import { why, type Ask } from './why.svelte'

const controls = ['a', 'button', 'input', 'label', 'select', 'summary', 'textarea'].join()

/**
 * Cells of a table whose figures say why when they are pressed: those with the name of their figure in `data-figure`. By the keyboard a button in each row does it.
 *
 * @param askOf by the numbers of row and cell, from 0
 */
export const pressed =
  (askOf: (row: number, figure: string, cell: number) => Ask | undefined): Attachment<HTMLTableSectionElement> =>
  (body) => {
    const press = ({ target }: MouseEvent) => {
      if (!(target instanceof Element) || target.closest(controls) !== null || getSelection()?.type === 'Range') return
      const at = target.closest<HTMLTableCellElement>('[data-figure]')
      const row = at?.closest('tr') ?? undefined
      const of =
        at === null || row === undefined
          ? undefined
          : askOf([...body.rows].indexOf(row), at.dataset.figure!, at.cellIndex)
      if (at !== null && of !== undefined) why.asked = { at, of }
    }
    body.addEventListener('click', press)
    return () => body.removeEventListener('click', press)
  }
