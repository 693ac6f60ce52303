import { mostText } from '../../model/plan/check'
import { fetched } from '../../state/parts.svelte'
import type { Workbench } from '../../state/workbench.svelte'

export const routeTypes =
  '.wattfare,.gpx,.kml,.gz,application/zip,application/gpx+xml,application/vnd.google-earth.kml+xml,application/gzip'
export const planTypes = '.json,application/json'
/** Bytes that hold more than the most that is read as a plan, whatever its letters. */
const enough = 3 * mostText + 3

/**
 * Opens a dropped or chosen file: a plan if it is JSON by name, an area of a map if it is PMTiles, days if it is a zip of them, otherwise a route. False
 * where it could not be.
 */
export async function openFile(bench: Workbench, file: File): Promise<boolean> {
  if (file.name.toLowerCase().endsWith('.pmtiles')) return openAreaFile(bench, file)
  if (file.name.toLowerCase().endsWith('.json'))
    return bench.planFile.open(await file.slice(0, enough).text(), file.name)
  bench.messages.end('file')
  const opening = bench.reading.announce(file.name)
  try {
    const bytes = new Uint8Array(await file.arrayBuffer())
    const isZip = bytes[0] === 0x50 && bytes[1] === 0x4b
    const days = isZip ? await fetched(() => import('../days/files')) : undefined
    if (!opening.isWanted() || (isZip && days === undefined)) return false
    const isOpen = await days?.openDayFile(bench, bytes, file.name)
    return isOpen ?? (await bench.days.openFile(bytes, file.name))
  } finally {
    opening.end()
  }
}

/** Takes a file as an area of the map; what reads it is fetched only now. False where it could not be. */
export async function openAreaFile(bench: Workbench, file: File): Promise<boolean> {
  const part = await fetched(() => import('../map/openArea'))
  return part !== undefined && part.openArea(bench, file)
}
