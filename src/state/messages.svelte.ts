import type { Said } from './said'

/**
 * What a message is about, which tells when it is over: the file that was last to be opened, until another is; what the last step did or could not do,
 * until the next; a day of the list that can’t be opened; the view, until it is changed.
 */
export type Subject = 'file' | 'step' | 'kept' | 'view'

/** Said by a view in its words, or by the desk as a code. */
export type Message = { subject: Subject; kind: 'fault' | 'news' } & ({ text: string } | { said: Said })

/** What there is to say now, one message a subject, the oldest first. */
export class Messages {
  #all = $state.raw<readonly Message[]>([])

  get all(): readonly Message[] {
    return this.#all
  }

  /** Takes the place of what was said of the same subject. */
  say(message: Message): void {
    this.#all = [...this.#all.filter(({ subject }) => subject !== message.subject), message]
  }

  /** What is said of a subject is over, or was read. */
  end(subject: Subject): void {
    if (this.#all.some((message) => message.subject === subject))
      this.#all = this.#all.filter((message) => message.subject !== subject)
  }
}
