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

/** What of it can't be used lies here as it was found. */
const aside = 'wattfare-view-unread'

/** View state of the last visit: what is missing or unknown is as at first, and so is what is spoilt, which is set aside and told. */
export function restoreView(storage: Pick<Storage, 'getItem' | 'setItem'> | undefined): {
  view: ViewState
  isSpoilt: boolean
} {
  let text: string | undefined
  try {
    text = storage?.getItem(key) ?? undefined
    const stored: unknown = JSON.parse(text ?? '{}')
    if (typeof stored !== 'object' || stored === null || Array.isArray(stored)) throw new TypeError('no record')
    const known = Object.entries(stored).filter(
      ([name]) => name in firstView && survivesReload[name as keyof ViewState],
    )
    const kept = known.filter(([name, value]) => isOne(name as keyof ViewState, value))
    if (kept.length < known.length) setAside(storage, text)
    return { view: { ...firstView, ...Object.fromEntries(kept) }, isSpoilt: kept.length < known.length }
  } catch {
    setAside(storage, text)
    return { view: firstView, isSpoilt: text !== undefined }
  }
}

const isOne = (name: keyof ViewState, value: unknown): boolean =>
  typeof value === typeof firstView[name] && (choices[name]?.includes(value) ?? true)

function setAside(storage: Pick<Storage, 'setItem'> | undefined, text: string | undefined): void {
  if (text === undefined) return
  try {
    storage?.setItem(aside, text)
  } catch {
    // Storage full or forbidden: it stays where it is until the view is changed.
  }
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
