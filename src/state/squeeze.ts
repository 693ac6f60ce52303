import type { RouteFile } from './store'

/**
 * Holds the bytes of a file compressed, gzip (RFC 1952), as readRoute takes them too: for files that the history alone needs, should undo
 * come back to them. A GPX file shrinks to a fifth or less.
 */
export async function squeeze(file: RouteFile): Promise<void> {
  if (isGzip(file.bytes)) return
  const body = new Blob([file.bytes as Uint8Array<ArrayBuffer>]).stream()
  const buffer = await new Response(body.pipeThrough(new CompressionStream('gzip'))).arrayBuffer()
  file.bytes = new Uint8Array(buffer)
}

const isGzip = (bytes: Uint8Array): boolean => bytes[0] === 0x1f && bytes[1] === 0x8b
