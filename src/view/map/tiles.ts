import type { ViewState } from '../../state/survives'

import { isOrigin } from './hosts'

/** Where map tiles come from. */
export interface TileSource {
  address: string
  /** Markup, safe to show. */
  attribution: string
}

export const defaultTiles: TileSource = {
  address: 'https://tile.openstreetmap.org/{z}/{x}/{y}.png',
  attribution: '© <a href="https://www.openstreetmap.org/copyright">OpenStreetMap</a> contributors',
}

/** Why an address can't be one of tiles. */
export type TileFault = { code: 'notHttps' | 'noAddress' } | { code: 'lacks' | 'unknown'; field: string }

const needed = ['z', 'x', 'y'] as const
/** Servers that {s} stands for. */
const servers = ['a', 'b', 'c']

/**
 * The tiles to use; undefined where they are switched off, or where the address can't be one of tiles.
 *
 * @param view address with {z}, {x} and {y}, and {s} or {r} if wished, empty for the default; attribution as plain text
 */
export function tileSource({ tiles, tileAddress, tileAttribution }: ViewState): TileSource | undefined {
  if (!tiles) return undefined
  if (tileAddress.trim() === '') return defaultTiles
  return tileFault(tileAddress) === undefined
    ? { address: tileAddress.trim(), attribution: escaped(tileAttribution) }
    : undefined
}

/** What is wrong with an address of tiles over https; undefined where nothing is. */
export function tileFault(address: string): TileFault | undefined {
  const text = address.trim()
  if (!text.startsWith('https://')) return { code: 'notHttps' }
  const fields = [...text.matchAll(/\{([^{}]*)\}/g)].map(([, name]) => name!)
  const field = needed.find((name) => !fields.includes(name))
  if (field !== undefined) return { code: 'lacks', field }
  const unknown = fields.find((name) => ![...needed, 's', 'r'].includes(name))
  if (unknown !== undefined) return { code: 'unknown', field: unknown }
  const isServer = /^https:\/\/(\{s\}|[^/{}])+\//.test(text) && originsOf(text).every((origin) => isOrigin.test(origin))
  return isServer ? undefined : { code: 'noAddress' }
}

/** The servers that an address of tiles asks, `https://` and host; none where it is no address. */
export function originsOf(address: string): string[] {
  const text = address.trim()
  const each = text.includes('{s}') ? servers.map((server) => text.replaceAll('{s}', server)) : [text]
  return each.map((one) => {
    const filled = one.replace(/\{[^{}]*\}/g, '1')
    return URL.canParse(filled) ? new URL(filled).origin : ''
  })
}

/** The servers of the tiles that are set, switched on or not. */
export const tileOrigins = ({ tileAddress }: ViewState): string[] =>
  originsOf(tileAddress.trim() === '' ? defaultTiles.address : tileAddress)

/** The servers of the terrain tiles that are set; none where none are. */
export const heightOrigins = ({ groundAddress }: ViewState): string[] =>
  groundAddress === '' ? [] : originsOf(groundAddress)

/** The address of a tile. @param address that `tileFault` finds nothing wrong with */
export function addressOf(address: string, z: number, x: number, y: number): string {
  const values: Record<string, string | number> = { z, x, y, s: servers[(x + y) % servers.length]!, r: '' }
  return address.trim().replace(/\{([^{}]*)\}/g, (_, name: string) => String(values[name]))
}

const signs: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }
/** A text as markup that shows it as it is. */
export const escaped = (text: string) => text.replace(/[&<>"']/g, (sign) => signs[sign]!)
