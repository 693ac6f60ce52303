/** What the rider looks at and how; no part of the plan. */
export interface ViewState {
  shade: 'drain' | 'charge'
  showSpeed: boolean
  units: 'metric' | 'imperial'
  theme: 'auto' | 'light' | 'dark'
  sheetOpen: boolean
  /** Whether tiles of the map are asked for. */
  tiles: boolean
  /** Address of map tiles with {z}, {x}, {y}; empty for the default. */
  tileAddress: string
  /** Shown with tiles of another address. */
  tileAttribution: string
  /** Address of terrain tiles, as that of map tiles; empty for none. */
  groundAddress: string
  /** Shown with what comes from there. */
  groundAttribution: string
  /** Address of the tiles whose server the rider has been told of. */
  tilesTold: string
  /** Whether the rider has been told how the map is moved. */
  mapTold: boolean
}

export const firstView: ViewState = {
  shade: 'drain',
  showSpeed: false,
  units: 'metric',
  theme: 'auto',
  sheetOpen: true,
  tiles: true,
  tileAddress: '',
  tileAttribution: '',
  groundAddress: '',
  groundAttribution: '',
  tilesTold: '',
  mapTold: false,
}

/** Whether a key outlives a reload. A new key does not compile until it stands here. */
const survivesReload: Record<keyof ViewState, boolean> = {
  shade: true,
  showSpeed: true,
  units: true,
  theme: true,
  sheetOpen: true,
  tiles: true,
  tileAddress: true,
  tileAttribution: true,
  groundAddress: true,
  groundAttribution: true,
  tilesTold: true,
  mapTold: true,
}

const choices: Partial<Record<keyof ViewState, readonly unknown[]>> = {
  shade: ['drain', 'charge'],
  units: ['metric', 'imperial'],
  theme: ['auto', 'light', 'dark'],
}

const key = 'wattfare-view'

/** View state of the last visit; what is missing or unknown is as at first. */
export function restoreView(storage: Pick<Storage, 'getItem'> | undefined): ViewState {
  let stored: unknown
  try {
    stored = JSON.parse(storage?.getItem(key) ?? '{}')
  } catch {
    return firstView
  }
  if (typeof stored !== 'object' || stored === null) return firstView
  const kept = Object.entries(stored).filter(([name, value]) => {
    const known = name as keyof ViewState
    return (
      name in firstView &&
      survivesReload[known] &&
      typeof value === typeof firstView[known] &&
      (choices[known]?.includes(value) ?? true)
    )
  })
  return { ...firstView, ...Object.fromEntries(kept) }
}

/** Keeps what survives a reload; a browser that forbids storage is no error. */
export function keepView(storage: Pick<Storage, 'setItem'> | undefined, view: ViewState): void {
  const kept = Object.entries(view).filter(([name]) => survivesReload[name as keyof ViewState])
  try {
    storage?.setItem(key, JSON.stringify(Object.fromEntries(kept)))
  } catch {
    // Storage full or forbidden: the view is as at first on the next visit.
  }
}
