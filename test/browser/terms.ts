import type { Page } from '@playwright/test'
import { terms } from '../../src/view/words/en/terms'

/** What is no running text, or has a help of its own: fields, things to press, what is drawn or printed. */
const elsewhere = 'a, button:not([data-term]), select, input, textarea, label, summary, svg, .paper, .visually-hidden'

/** Terms of the trade that stand in a section, and of them those whose first place there is no help. */
export const termsIn = (page: Page, section: string): Promise<{ found: string[]; bare: string[] }> =>
  page.locator(section).evaluate(
    (root, { patterns, elsewhere }) => {
      const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT)
      const texts: { text: string; at: Element }[] = []
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const at = node.parentElement!
        if (at.closest(elsewhere) === null && at.checkVisibility()) texts.push({ text: node.textContent ?? '', at })
      }
      const places = patterns.map(({ term, source, flags }) => ({
        term,
        place: texts.find(({ text }) => new RegExp(source, flags).test(text)),
      }))
      const found = places.filter(({ place }) => place !== undefined)
      return {
        found: found.map(({ term }) => term),
        bare: found
          .filter(({ term, place }) => place!.at.closest(`[data-term="${term}"]`) === null)
          .map(({ term, place }) => `${term}: ${place!.text.trim().slice(0, 90)}`),
      }
    },
    {
      elsewhere,
      patterns: Object.entries(terms).map(([term, { source, flags }]) => ({ term, source, flags })),
    },
  )
