import { expose, transfer } from 'comlink'
import { readRoute } from '../model/route/read'
import type { Doing, RouteChoice } from '../model/route/reading'
import type { FileReading } from './jobs'

const api = {
  async read(
    bytes: Uint8Array,
    fileName: string,
    choice: RouteChoice,
    onProgress: (share: number, doing: Doing) => void,
    ground?: Uint8Array,
  ): Promise<FileReading> {
    try {
      const reading = await readRoute(bytes, fileName, choice, onProgress, ground)
      if (!reading.ok) return reading
      const { points, stations } = reading.route
      const columns: Float64Array[] = [...Object.values(points), ...Object.values(stations)]
      return transfer(
        reading,
        columns.map((column) => column.buffer),
      )
    } catch (error) {
      console.error(error)
      return { ok: false, fault: { code: 'failed' } }
    }
  },
}

export type RouteWorker = typeof api

expose(api)
