import { defaultTiles } from './map/tiles'

/** Of Trusted Types (W3C) what is used; where a browser has none, it is undefined. */
interface Policies {
  createPolicy(
    name: string,
    rules: { createHTML(markup: string): string | null; createScriptURL(address: string): string | null },
  ): unknown
}

/** What the map's library makes of its own: a probe of SVG, and what stands between two attributions. */
const ofTheMap = /<svg\/>| <span aria-hidden="true">\|<\/span> /g

/** Whether a text is taken as markup: without an element, save those of the map's library and the link of the default tiles. */
export const isHarmless = (markup: string): boolean =>
  !markup.replaceAll(defaultTiles.attribution, '').replaceAll(ofTheMap, '').includes('<')

/** Whether a program may be run from there as a worker: one that was built beside the page. @param page address of the page */
export function isOwnWorker(address: string, page: string): boolean {
  const folder = new URL('.', page).href
  const { href } = new URL(address, page)
  return href.startsWith(folder) && /^(sw|assets\/\w+\.worker-[\w-]+)\.js$/.test(href.slice(folder.length))
}

/*
 * The policy of the page takes no text as markup or as a program's address, in a browser that has Trusted Types: what libraries hand over as text comes
 * here, and what is not harmless is refused. Svelte's own templates have a policy of their own.
 */
;(globalThis as { trustedTypes?: Policies }).trustedTypes?.createPolicy('default', {
  createHTML: (markup) => (isHarmless(markup) ? markup : null),
  createScriptURL: (address) => (isOwnWorker(address, location.href) ? address : null),
})
