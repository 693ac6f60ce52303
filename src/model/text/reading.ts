import type { Fault } from './fault'

/** What was typed or pasted, or what is wrong with it and where. */
export type Reading<T, F = Fault> = { ok: true; value: T } | { ok: false; fault: F }

/** Thrown inside a reader, caught at its door. */
export class Unreadable extends Error {
  constructor(readonly fault: Fault) {
    super(fault.code)
  }
}

/**
 * Runs a reader, with the fault that it throws as `Unreadable` given back.
 *
 * @throws whatever else the reader throws
 */
export function reading<T>(read: () => T): Reading<T> {
  try {
    return { ok: true, value: read() }
  } catch (error) {
    if (error instanceof Unreadable) return { ok: false, fault: error.fault }
    throw error
  }
}
