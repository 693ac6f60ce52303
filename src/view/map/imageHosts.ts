/** A server by its name, without a sign that would mean something in a policy. */
export const isOrigin = /^https:\/\/[a-z\d.-]+(:\d+)?$/

let allowed: readonly string[] | undefined

/**
 * Lets the page show images of its own and of some servers, and none else, for as long as it is open: a policy can be added to, not taken back.
 *
 * @param origins `https://` and host
 */
export function confineImages(origins: readonly string[]): void {
  allowed = origins
  const meta = document.createElement('meta')
  meta.httpEquiv = 'Content-Security-Policy'
  meta.content = ["img-src 'self' data: blob:", ...origins.filter((origin) => isOrigin.test(origin))].join(' ')
  document.head.append(meta)
}

/** Whether images of all these servers may be shown before the page is loaded anew. */
export const mayShow = (origins: readonly string[]): boolean =>
  allowed === undefined || origins.every((origin) => allowed!.includes(origin))
