/** What was typed or pasted, or one sentence that says what is wrong and where. */
export type Reading<T> = { ok: true; value: T } | { ok: false; sentence: string }

/** Thrown inside a reader, caught at its door: its message is the sentence for the rider. */
export class Unreadable extends Error {}

/**
 * Runs a reader, with what it throws as `Unreadable` given back as a sentence.
 *
 * @throws whatever else the reader throws
 */
export function reading<T>(read: () => T): Reading<T> {
  try {
    return { ok: true, value: read() }
  } catch (error) {
    if (error instanceof Unreadable) return { ok: false, sentence: error.message }
    throw error
  }
}
