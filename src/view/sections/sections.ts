import type { Words } from '../words/words'

/** What a part of the page is called in its address, `#day`; its name stands in the words. */
export type Address = keyof Words['sections']['names']

/** The parts of the plan: beside the story on a wide screen, else among the sections. */
export const halves = ['plan', 'bike'] as const satisfies Address[]
export type Half = (typeof halves)[number]

/** One at a time stands below the story; the first where none is asked for. */
export const sections = [
  'ride',
  'day',
  'charging',
  'kit',
  'choices',
  'last',
  'road',
  'compare',
] as const satisfies Address[]
export type Section = (typeof sections)[number]
