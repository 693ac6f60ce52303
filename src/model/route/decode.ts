import { Refusal } from './fault'

/** Most text that is read, bytes after decompression. */
const MOST_BYTES = 150_000_000

/**
 * The text of a route file: decompressed if it is gzip (RFC 1952), decoded by byte order mark, else as the XML declaration says
 * (XML 1.0, appendix F), else UTF-8, or Windows-1252 where it is not valid UTF-8.
 *
 * @param bytes the file as it lies on disk
 * @returns text without byte order mark
 * @throws Refusal if it is empty, over the size limit, damaged gzip, or in an unknown encoding
 */
export async function decode(bytes: Uint8Array): Promise<string> {
  if (bytes.length === 0) throw new Refusal({ code: 'empty' })
  const plain = bytes[0] === 0x1f && bytes[1] === 0x8b ? await gunzip(bytes) : bytes
  if (plain.length === 0) throw new Refusal({ code: 'empty' })
  if (plain.length > MOST_BYTES) throw tooLarge()
  if (plain[0] === 0x50 && plain[1] === 0x4b && plain[2] === 3 && plain[3] === 4) {
    throw new Refusal({ code: 'zip' })
  }
  return toText(plain)
}

function tooLarge(): Refusal {
  return new Refusal({ code: 'tooLarge', most: MOST_BYTES })
}

async function gunzip(bytes: Uint8Array): Promise<Uint8Array> {
  const body = new Blob([bytes as Uint8Array<ArrayBuffer>]).stream()
  const reader = body.pipeThrough(new DecompressionStream('gzip')).getReader()
  const chunks: Uint8Array[] = []
  let length = 0
  try {
    for (;;) {
      const { done, value } = await reader.read()
      if (done) break
      chunks.push(value)
      length += value.length
      if (length > MOST_BYTES) break
    }
  } catch {
    throw new Refusal({ code: 'damagedGzip' })
  }
  if (length > MOST_BYTES) {
    await reader.cancel()
    throw tooLarge()
  }
  const whole = new Uint8Array(length)
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.length
  }
  return whole
}

function toText(bytes: Uint8Array): string {
  const [a, b, c] = bytes
  if (a === 0xff && b === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (a === 0xfe && b === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  if (a === 0xef && b === 0xbb && c === 0xbf) return new TextDecoder('utf-8').decode(bytes)
  if (a === 0x3c && b === 0) return new TextDecoder('utf-16le').decode(bytes)
  if (a === 0 && b === 0x3c) return new TextDecoder('utf-16be').decode(bytes)
  const declared = declaredEncoding(bytes)
  // A declaration readable byte by byte is not UTF-16, whatever it says.
  if (declared !== undefined && !/^\s*utf[-_ ]?(8|16)/i.test(declared)) return decodeAs(declared, bytes)
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

function declaredEncoding(bytes: Uint8Array): string | undefined {
  const start = String.fromCharCode(...bytes.subarray(0, 200))
  return /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([^"']+)["']/.exec(start)?.[1]
}

function decodeAs(encoding: string, bytes: Uint8Array): string {
  let decoder: TextDecoder
  try {
    decoder = new TextDecoder(encoding)
  } catch {
    throw new Refusal({ code: 'encoding', encoding: encoding.slice(0, 40) })
  }
  return decoder.decode(bytes)
}
