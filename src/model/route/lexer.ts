import { SaxesParser } from 'saxes'
import { Refusal } from './fault'

/** What hears of a document, in its order. Names are without prefix. */
export interface Listener {
  /** @param depth 1 for the root */
  opened(name: string, attributes: Record<string, string>, depth: number): void
  closed(name: string, depth: number): void
  /** A text may come in pieces. */
  said(text: string): void
  /** An end tag behind which the listener may read on by itself. */
  ownEnd?: string
  /**
   * Asked right behind an element that was closed by that tag, so never in a comment.
   *
   * @returns the place behind the last whole element that it has read
   */
  readOn?(text: string, from: number): number
}

const CHUNK = 1 << 20
/** As much is read before it is known who listens. */
const HEAD = 1000

/** Faults of an XML document that leave its structure certain: read over. */
const HARMLESS = new RegExp(
  [
    'disallowed character\\.|undefined entity|empty entity name|malformed (character entity|comment)|in char data|outside of root',
    'duplicate attribute|attribute without value|unquoted attribute|whitespace|located doctype|invalid attempt',
    // In the XML declaration and other processing instructions.
    'XML declaration|processing instruction|expected the name|expected one of|any more name|value (required|must)|number must',
  ].join('|'),
)

/**
 * Tells a listener the elements and texts of an XML document (W3C, XML 1.0, fifth edition), with or without namespaces. Reads over faults
 * that leave the structure certain.
 *
 * @param text the document
 * @param listenerFor gives the listener for a document whose root has a local name
 * @param progress called with the share read, 0 to 1, about every million characters
 * @returns the listener
 * @throws Refusal if there is no element, if it is not well-formed, or defines entities of its own
 */
export function lex<L extends Listener>(
  text: string,
  listenerFor: (root: string) => L,
  progress: (share: number) => void,
): L {
  return new Lexer(text, listenerFor).read(progress)
}

class Lexer<L extends Listener> {
  private readonly parser = new SaxesParser()
  private listener: L | undefined
  /** Elements that are open, by their tags, and where each was opened. */
  private readonly open: { tag: string; at: number }[] = []
  private lastClosed = { tag: '', at: 0 }
  /** Where the parser last closed an element, in its own count. */
  private closedAt = -1
  /** How much of the text was not given to the parser. */
  private skipped = 0
  private nextOwnEnd = -1
  private rootClosed = false
  private ending = false

  constructor(
    private readonly text: string,
    private readonly listenerFor: (root: string) => L,
  ) {
    this.parser.on('doctype', (doctype) => this.checkDoctype(doctype))
    this.parser.on('opentag', ({ name, attributes }) => this.opened(name, attributes as Record<string, string>))
    this.parser.on('closetag', () => this.closed())
    const said = (text: string) => this.listener?.said(text)
    this.parser.on('text', said)
    this.parser.on('cdata', said)
    // Not by its event: an error with its trace takes longer than all else where there is a fault at each tag.
    this.parser.fail = (message) => {
      this.failed(message)
      return this.parser
    }
  }

  read(progress: (share: number) => void): L {
    const { text, parser } = this
    for (let at = 0; at < text.length;) {
      const stop = this.stopAfter(at)
      parser.write(text.slice(at, stop))
      let next = stop
      if (this.closedAt + this.skipped === stop && stop === this.nextOwnEnd) {
        next = this.listener!.readOn!(text, stop)
        this.skipped += next - stop
      }
      if (Math.floor(next / CHUNK) > Math.floor(at / CHUNK)) progress(next / text.length)
      at = next
    }
    this.ending = true
    parser.close()
    if (this.listener === undefined) throw new Refusal({ code: 'noRoot' })
    return this.listener
  }

  /** Behind the listener's own end tag, or after a chunk. */
  private stopAfter(at: number): number {
    const { text, listener } = this
    const ownEnd = listener?.ownEnd
    if (ownEnd !== undefined && this.nextOwnEnd <= at) {
      const found = text.indexOf(ownEnd, at)
      this.nextOwnEnd = found < 0 ? Infinity : found + ownEnd.length
    }
    const chunk = at + (listener === undefined ? HEAD : CHUNK)
    return Math.min(chunk, ownEnd === undefined ? Infinity : this.nextOwnEnd, text.length)
  }

  /** Where in the text the parser stands. */
  private get place(): number {
    return this.parser.position + this.skipped
  }

  private lineAt(place: number): number {
    return this.text.slice(0, place).split(/\r\n?|\n/).length
  }

  private checkDoctype(doctype: string): void {
    if (!/<!ENTITY/i.test(doctype)) return
    throw new Refusal({ code: 'entities', line: this.lineAt(this.place) })
  }

  private opened(tag: string, attributes: Record<string, string>): void {
    this.open.push({ tag, at: this.place })
    const name = withoutPrefix(tag)
    this.listener ??= this.listenerFor(name)
    this.listener.opened(name, attributes, this.open.length)
  }

  private closed(): void {
    this.lastClosed = this.open.pop()!
    this.closedAt = this.parser.position
    this.rootClosed ||= this.open.length === 0
    this.listener!.closed(withoutPrefix(this.lastClosed.tag), this.open.length + 1)
  }

  private failed(message: string): void {
    if (this.rootClosed || HARMLESS.test(message)) return
    const line = this.lineAt(this.place)
    const last = this.open[this.open.length - 1]
    if (this.ending) {
      if (last === undefined) return
      throw new Refusal({ code: 'cutOff', line })
    }
    if (/unexpected close tag/.test(message)) {
      const { tag, at } = this.lastClosed
      throw new Refusal({ code: 'notClosed', tag: tag.slice(0, 40), opened: this.lineAt(at), line })
    }
    throw new Refusal({ code: 'notWellFormed', line })
  }
}

function withoutPrefix(tag: string): string {
  return tag.slice(tag.indexOf(':') + 1)
}
