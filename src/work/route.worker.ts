import { expose, transfer } from 'comlink'
import { readRoute } from '../model/route/read'
import type { RouteWorker } from './jobs'

const api: RouteWorker = {
  async read(bytes, fileName, choice, onProgress, ground) {
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

expose(api)
