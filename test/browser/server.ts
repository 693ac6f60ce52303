import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'

const dist = fileURLToPath(new URL('../../dist', import.meta.url))

const types: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.json': 'application/json',
  '.geojson': 'application/geo+json',
  '.webmanifest': 'application/manifest+json',
}

/** A static host of the built page that a test can change and stop. */
export interface Host {
  address: string
  /** Bytes in place of what was built, or undefined where the file is gone. */
  instead: Map<string, string | Buffer | undefined>
  stop(): Promise<void>
}

export async function openHost(): Promise<Host> {
  const instead: Host['instead'] = new Map()
  const fileAt = (path: string): string | Buffer | undefined => {
    if (instead.has(path)) return instead.get(path)
    try {
      return readFileSync(join(dist, normalize(`/${path}`)))
    } catch {
      return undefined
    }
  }
  const server = createServer(({ url }, response) => {
    const path = decodeURIComponent(new URL(url!, 'http://localhost').pathname).replace(/\/$/, '/index.html').slice(1)
    const file = fileAt(path)
    const type = types[extname(path)] ?? 'application/octet-stream'
    response.writeHead(file === undefined ? 404 : 200, { 'content-type': type, 'cache-control': 'no-cache' })
    response.end(file)
  })
  await new Promise<void>((resolve) => server.listen(0, 'localhost', resolve))
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}/`,
    instead,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}
