import type { Attachment } from 'svelte/attachments'

/** A4 and Letter have room for this height between margins of 10 mm, CSS pixels. */
const roomHeight = (255 / 25.4) * 96
const sizes = { largest: 11, smallest: 5.5, step: 0.25 } // pt

/** Sets the type of an element as large as lets it stand on one page. */
export const fitted: Attachment<HTMLElement> = (element) => {
  const fit = () => {
    for (let size = sizes.largest; size >= sizes.smallest; size -= sizes.step) {
      element.style.fontSize = `${size}pt`
      if (element.offsetHeight <= roomHeight) return
    }
  }
  const watch = new ResizeObserver(fit)
  watch.observe(element)
  fit()
  return () => watch.disconnect()
}
