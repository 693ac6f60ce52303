import type { Feature, MultiPolygon, Position } from 'geojson'

/**
 * The land with each of its parts moved by whole turns to where it lies nearest to a longitude,
 * so that a route across the antimeridian has land on both sides.
 *
 * @param centre degrees
 */
export function landNear(land: Feature<MultiPolygon>, centre: number): Feature<MultiPolygon> {
  const coordinates = land.geometry.coordinates.map((rings) => {
    const turn = nearestTurn(rings[0] ?? [], centre)
    return turn === 0 ? rings : rings.map((ring) => ring.map(([x, y]): Position => [x! + turn, y!]))
  })
  return { ...land, geometry: { type: 'MultiPolygon', coordinates } }
}

function nearestTurn(ring: readonly Position[], centre: number): number {
  let west = Infinity
  let east = -Infinity
  for (const [x] of ring) {
    west = Math.min(west, x!)
    east = Math.max(east, x!)
  }
  const away = (turn: number) => Math.max(west + turn - centre, centre - east - turn, 0)
  return [0, -360, 360].reduce((best, turn) => (away(turn) < away(best) ? turn : best), 0)
}
