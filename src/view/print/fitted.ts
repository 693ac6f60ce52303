import type { Attachment } from 'svelte/attachments'

/** A4 and Letter have room for this height between margins of 10 mm, CSS pixels. */
const roomHeight = (255 / 25.4) * 96
const largest = 11 // pt
const step = 0.25 // pt

/**
 * Sets the type of an element as large as lets it stand on one page. Where that would be too small to read, the element goes on over
 * several pages in a type of middling size, and has the class `spills`.
 *
 * @param smallest that can be read, pt
 * @param spilling size of the type where it spills, pt
 */
export const fitted =
  (smallest: number, spilling: number): Attachment<HTMLElement> =>
  (element) => {
    const fit = () => {
      element.classList.remove('spills')
      for (let size = largest; size >= smallest; size -= step) {
        element.style.fontSize = `${size}pt`
        if (element.offsetHeight <= roomHeight) return
      }
      element.style.fontSize = `${spilling}pt`
      element.classList.add('spills')
    }
    const watch = new ResizeObserver(fit)
    watch.observe(element)
    fit()
    return () => watch.disconnect()
  }
