/** A server by its name, without a sign that would mean something in a policy. */
export const isOrigin = /^https:\/\/[a-z\d.-]+(:\d+)?$/

let allowed: { images: readonly string[]; heights: readonly string[] } | undefined

/**
 * Lets the page show images of its own and of some servers, and ask itself and some servers for data, and none else, for as long as it is open: a policy
 * can be added to, not taken back.
 *
 * @param images servers of map tiles, `https://` and host
 * @param heights servers of terrain tiles
 */
export function confine(images: readonly string[], heights: readonly string[]): void {
  allowed = { images, heights }
  const named = (origins: readonly string[]) => origins.filter((origin) => isOrigin.test(origin)).join(' ')
  const meta = document.createElement('meta')
  meta.httpEquiv = 'Content-Security-Policy'
  meta.content = `img-src 'self' data: blob: ${named(images)}; connect-src 'self' ${named(heights)}`
  document.head.append(meta)
}

/** Whether images of all these servers may be shown before the page is loaded anew. */
export const mayShow = (origins: readonly string[]): boolean =>
  allowed === undefined || origins.every((origin) => allowed!.images.includes(origin))

/** Whether all these servers may be asked for terrain tiles before the page is loaded anew. */
export const mayAsk = (origins: readonly string[]): boolean =>
  allowed === undefined || origins.every((origin) => allowed!.heights.includes(origin))
