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

/**
 * The tiles to use; the default where the rider's address can't be one of tiles.
 *
 * @param address with {z}, {x} and {y}, and {s} or {r} if wished; empty for the default
 * @param attribution plain text
 */
export function tileSource(address: string, attribution: string): TileSource {
  return isTileAddress(address) ? { address: address.trim(), attribution: escaped(attribution) } : defaultTiles
}

/** Whether an address is one of tiles over https. */
export function isTileAddress(address: string): boolean {
  const text = address.trim()
  const fields = [...text.matchAll(/\{([^{}]*)\}/g)].map(([, name]) => name!)
  return (
    text.startsWith('https://') &&
    URL.canParse(text.replace(/\{[^{}]*\}/g, '1')) &&
    ['z', 'x', 'y'].every((name) => fields.includes(name)) &&
    fields.every((name) => ['z', 'x', 'y', 's', 'r'].includes(name))
  )
}

const signs: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }
const escaped = (text: string) => text.replace(/[&<>"']/g, (sign) => signs[sign]!)
