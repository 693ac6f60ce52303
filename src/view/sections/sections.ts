import type { Component } from 'svelte'
import type { Workbench } from '../../state/workbench.svelte'
import type { Words } from '../words/words'

/** What a part of the page is called in its address, `#day`; its name stands in the words. */
export type Address = keyof Words['sections']['names']

interface Section {
  address: Address
  load: () => Promise<{ default: Component<{ bench: Workbench }> }>
}

/** The parts of the plan: beside the story on a wide screen, else among the sections. */
export const halves = ['plan', 'bike'] as const satisfies Address[]
export type Half = (typeof halves)[number]

/** One at a time stands below the story; the first where none is asked for. A further one is a line here and its name in the words. */
export const sections: readonly Section[] = [
  { address: 'ride', load: () => import('../ride/Ride.svelte') },
  { address: 'day', load: () => import('../day/Day.svelte') },
  { address: 'charging', load: () => import('../bench/Bench.svelte') },
  { address: 'kit', load: () => import('../kit/Kit.svelte') },
  { address: 'choices', load: () => import('../choices/Choices.svelte') },
  { address: 'last', load: () => import('../last/Last.svelte') },
  { address: 'road', load: () => import('../road/Road.svelte') },
  { address: 'compare', load: () => import('../compare/Compare.svelte') },
]
