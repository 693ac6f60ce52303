import type { Plan } from '../plan/schema'
import { roadOf } from '../ride/road'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { rollingFactor } from '../plan/stretches'
import { remembered } from './remembered'

/** What plan and stretches say of each step, one entry a station, for the step from it to the next. */
export interface Along {
  /** Multiplies rolling: by the surface of a stretch, else the bike's factor. */
  surface: Float64Array
  /** Share of the wind in the open that is there. */
  wind: Float64Array
  /** Motor power for each watt of the rider. */
  assist: Float64Array
}

/** What plan and stretches say along a route; worked out anew only where they change. */
export function alongRoute(route: Route, { stretches, bike, assist }: Plan): Along {
  const keys = [stretches, bike.surfaceFactor, assist.ratio, assist.climbRatio]
  return remembered(route, 'along', keys, () => {
    const { climb } = roadOf(route)
    const along: Along = {
      surface: new Float64Array(climb.length).fill(bike.surfaceFactor),
      wind: new Float64Array(climb.length).fill(1),
      assist: climb.map((share) => assist.ratio + (assist.climbRatio - assist.ratio) * share),
    }
    for (const stretch of stretches) {
      const { start, end, shelter, assistRatio } = stretch
      const from = stationNear(route, start)
      const to = stationNear(route, end)
      along.surface.fill(rollingFactor(bike, stretch), from, to)
      if (shelter !== null) along.wind.fill(shelter, from, to)
      if (assistRatio !== null) along.assist.fill(assistRatio, from, to)
    }
    return along
  })
}
