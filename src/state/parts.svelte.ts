/** Whether a part of the page that is fetched when it is needed could not be had: the page is of an older version than its server, or there is no network. */
export const parts = $state({ missing: false })

/**
 * What is fetched when it is needed.
 *
 * @returns undefined where it can't be had, and the page says so
 */
export async function fetched<T>(load: () => Promise<T>): Promise<T | undefined> {
  try {
    return await load()
  } catch (error) {
    console.warn(error)
    parts.missing = true
    return undefined
  }
}
