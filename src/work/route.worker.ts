import { expose, transfer } from 'comlink'
import { readRoute } from '../model/route/read'
import type { RouteChoice, RouteReading } from '../model/route/reading'

const api = {
  async read(
    bytes: Uint8Array,
    fileName: string,
    choice: RouteChoice,
    onProgress: (share: number, doing: string) => void,
  ): Promise<RouteReading> {
    const reading = await readRoute(bytes, fileName, choice, onProgress)
    if (!reading.ok) return reading
    const { points, stations } = reading.route
    const columns: Float64Array[] = [...Object.values(points), ...Object.values(stations)]
    return transfer(
      reading,
      columns.map((column) => column.buffer),
    )
  },
}

export type RouteWorker = typeof api

expose(api)
