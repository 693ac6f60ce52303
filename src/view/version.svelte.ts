/// <reference types="vite-plugin-pwa/vanillajs" />
import { registerSW } from 'virtual:pwa-register'
import { parts } from '../state/parts.svelte'

/** The page's own files: whether all are kept in the browser, for use without network, and whether newer ones wait. */
export const version = $state({ isKept: false, isNewer: false, isPutOff: false })

/** Whether there is something to say of them. */
export const isVersionTold = (): boolean => parts.missing || (version.isNewer && !version.isPutOff)

/** No more is said until there is something else. */
export function putOffVersion(): void {
  version.isPutOff = true
  parts.missing = false
}

let isAsked = false
/** The newer files are in force already, since another window asked for them. */
let isTaken = false
let takeNewer: () => Promise<void>

/** Has the browser keep the page's files, and look for newer ones whenever the page comes to be seen again. */
export function keepPage(): void {
  takeNewer = registerSW({
    onOfflineReady: () => (version.isKept = true),
    onNeedRefresh: () => {
      version.isNewer = true
      version.isPutOff = false
    },
    onNeedReload: () => {
      isTaken = true
      if (isAsked) location.reload()
    },
    onRegisteredSW: (_, registration) => {
      if (registration === undefined) return
      version.isKept ||= registration.active !== null
      document.addEventListener('visibilitychange', () => {
        // Without network there is nothing newer.
        if (document.visibilityState === 'visible') registration.update().catch(() => undefined)
      })
    },
  })
}

/** Loads the page anew: newer where a newer version waits. */
export function loadAnew(): void {
  isAsked = true
  if (version.isNewer && !isTaken) void takeNewer()
  else location.reload()
}
