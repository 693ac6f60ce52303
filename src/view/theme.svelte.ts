import { MediaQuery } from 'svelte/reactivity'
import type { ViewState } from '../state/survives'

export type Theme = 'light' | 'dark'

const systemDark = new MediaQuery('(prefers-color-scheme: dark)')
const forced = new MediaQuery('(forced-colors: active)')

/** The theme as shown: 'auto' follows the system, and where the system sets the colours of all pages each does. */
export const shownTheme = (theme: ViewState['theme']): Theme =>
  theme !== 'auto' && !forced.current ? theme : systemDark.current ? 'dark' : 'light'

/** A colour token of the theme, as the canvas needs it. */
export const token = (name: string): string =>
  getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim()

/** The colours of charts. */
export const chartColours = () => ({
  ink: token('ink'),
  inkSoft: token('ink-soft'),
  line: token('line'),
  paper: token('paper'),
  charge: token('charge'),
  rest: token('rest'),
})

export type ChartColours = ReturnType<typeof chartColours>
