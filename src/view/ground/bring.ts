import { writeGround } from '../../model/route/ground'
import { areas, type Area } from '../../state/areas.svelte'
import { routeKey } from '../../state/day'
import type { Workbench } from '../../state/workbench.svelte'
import { readArea, type AreaFault } from '../../work/area'
import {
  bringGround,
  GroundError,
  tilesOfFile,
  tilesOfServer,
  type GroundFault,
  type TileStore,
} from '../../work/ground'
import { addressOf, originsOf } from '../map/tiles'
import { groundWordsIn } from '../words/ground'

/** What elevation is taken from. */
export interface Source {
  /** Plain text. */
  from: string
  attribution: string
  store: TileStore
}

export const sourceOfArea = ({ name, file, facts }: Area): Source => ({
  from: name,
  attribution: facts.attribution,
  store: tilesOfFile(file, facts),
})

export const sourceOfServer = (address: string, attribution: string): Source => ({
  from: new URL(originsOf(address)[0]!).host,
  attribution,
  store: tilesOfServer((z, x, y) => addressOf(address, z, x, y)),
})

/** Keeps a file as one of heights; a fault where it can't be one. */
export async function addHeights(file: File): Promise<{ area: Area; isKept: boolean } | AreaFault> {
  const facts = await readArea(file)
  if ('code' in facts) return facts
  if (facts.kind === 'vector') return { code: 'otherTiles' }
  const isKept = await areas.add(file.name, file, { ...facts, kind: 'heights' })
  return { area: areas.heights.at(-1)!, isKept }
}

/**
 * Takes elevation from a source where the file on screen has none, and says what came of it.
 *
 * @returns a fault; undefined where it was taken, or left off
 */
export async function bring(
  bench: Workbench,
  { from, attribution, store }: Source,
  signal: AbortSignal,
  progress: (done: number, tiles: number) => void,
): Promise<GroundFault | undefined> {
  const { route, open } = bench
  if (route === undefined || open === undefined) return undefined
  try {
    const { ground, missing } = await bringGround(route, store, signal, progress)
    const bytes = writeGround(ground)
    const key = await routeKey(bytes)
    if (signal.aborted || bench.open !== open) return undefined
    const isTaken = await bench.takeGround({
      ground: { key, from: from.slice(0, 200), attribution: attribution.slice(0, 500) },
      bytes,
    })
    if (isTaken && bench.route !== undefined)
      bench.messages.say({
        ...{ subject: 'step', kind: 'news' },
        text: groundWordsIn(bench.view.units).brought(from, bench.route, missing),
      })
    return undefined
  } catch (error) {
    if (error instanceof GroundError) return error.fault
    if (signal.aborted) return undefined
    console.error(error)
    return { code: 'notStarted' }
  }
}
