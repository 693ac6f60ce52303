import { nearestPlace, type Placed } from '../../model/route/place'

/** Beyond this offset a drag has left its pass, if another is right under the pointer; both in pixels. */
const leftBehind = 100
const underPointer = 14

/**
 * Where a stop comes to lie when it is dragged. It follows its own pass of the route as far as that leads nearer to the pointer;
 * only when that is left far behind does it take another pass that lies under the pointer.
 *
 * @param route points and sections
 * @param from ridden distance where it lies, m
 * @param latitude of the pointer, degrees
 * @param longitude of the pointer, degrees
 * @param reach ridden distance to look ahead and back at a time, m
 * @param metresPerPixel of the map here
 * @returns ridden distance, m
 */
export function draggedTo(
  route: Placed,
  from: number,
  latitude: number,
  longitude: number,
  reach: number,
  metresPerPixel: number,
): number {
  let place = nearestPlace(route, latitude, longitude, { around: from, reach })
  for (let around = from; Math.abs(place.distance - around) > 0.9 * reach;) {
    around = place.distance
    const next = nearestPlace(route, latitude, longitude, { around, reach })
    if (next.offset >= place.offset) break
    place = next
  }
  if (place.offset < leftBehind * metresPerPixel) return place.distance
  const nearest = nearestPlace(route, latitude, longitude)
  return nearest.offset < underPointer * metresPerPixel ? nearest.distance : place.distance
}
