import type { Route } from '../route/route'

/** Between stations, and what is ridden before the first run and behind the last, m. */
const spacing = 10
const about = 400
/** Where on earth hardly matters: at a height of 100 m, in middle latitudes. */
const elevation = 100
const place = { latitude: 45, longitude: 0 }

/** A level road, ridden there and back, and its stations where the runs begin, turn and end. */
export interface LevelRoad {
  route: Route
  begin: number
  turn: number
  end: number
}

/**
 * A level, straight road that is ridden there and back without a halt, with a run-up before it and some way behind.
 *
 * @param length of one way, m
 */
export function levelRoad(length: number): LevelRoad {
  const steps = Math.max(1, Math.round(length / spacing))
  const lead = Math.round(about / spacing)
  const count = 2 * (lead + steps) + 1
  const step = length / steps
  const column = (of: (station: number) => number) => Float64Array.from({ length: count }, (_, i) => of(i))
  const distance = column((i) => i * step)
  const [latitude, longitude] = [column(() => place.latitude), column(() => place.longitude)]
  const turn = lead + steps
  const zeros = () => column(() => 0)
  const route: Route = {
    name: '',
    points: { latitude, longitude, distance },
    stations: {
      ...{ distance, latitude, longitude, elevation: column(() => elevation), gradient: zeros(), curvature: zeros() },
      heading: column((i) => (i < turn ? 0 : Math.PI)),
    },
    sections: [{ first: 0, last: count - 1, firstPoint: 0, lastPoint: count - 1 }],
    crossings: [],
    waypoints: [],
    length: distance.at(-1)!,
    ...{ ascent: 0, descent: 0, ascentSpread: 0, elevationKnown: 'all', lacking: [], fromGround: 0 },
    recordedTime: undefined,
    counts: {
      ...{ repeatedPoints: 0, zeroPoints: 0, outOfRangePoints: 0, jumps: 0 },
      ...{ unknownElevations: 0, elevationSpikes: 0, impossibleTimes: 0, backwardTimes: 0 },
    },
    smoothingWavelength: 0,
    notes: [],
  }
  return { route, begin: lead, turn, end: turn + steps }
}
