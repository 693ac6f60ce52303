import type { Component } from 'svelte'
import type { Workbench } from '../../state/workbench.svelte'
import type { Section } from './sections'

/** What fetches a section when it is asked for. */
export const parts: Record<Section, () => Promise<{ default: Component<{ bench: Workbench }> }>> = {
  ride: () => import('../ride/Ride.svelte'),
  day: () => import('../day/Day.svelte'),
  charging: () => import('../bench/Bench.svelte'),
  kit: () => import('../kit/Kit.svelte'),
  choices: () => import('../choices/Choices.svelte'),
  last: () => import('../last/Last.svelte'),
  road: () => import('../road/Road.svelte'),
  compare: () => import('../compare/Compare.svelte'),
}
