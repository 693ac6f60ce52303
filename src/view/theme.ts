import type { ViewState } from '../state/survives'

/** The theme as shown: 'auto' follows the system. */
export function shownTheme(theme: ViewState['theme'], systemDark: boolean): 'light' | 'dark' {
  return theme === 'auto' ? (systemDark ? 'dark' : 'light') : theme
}

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
