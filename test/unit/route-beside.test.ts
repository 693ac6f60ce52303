import { describe, expect, it } from 'vitest'
import { distancesBeside } from '../../src/model/route/beside'
import { nearestPlace, positionAt } from '../../src/model/route/place'
import { distance } from '../../src/model/geo/scale'
import { near } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { routeOf } from '../profiles'

/** A part of a wavy way from a place, degrees, to the east, a point about each 80 m. */
const part = (latitude: number, longitude: number, n: number) => ({
  latitude: Float64Array.from({ length: n }, (_, i) => latitude + 0.004 * Math.sin(i / 9)),
  longitude: Float64Array.from({ length: n }, (_, i) => ((longitude + i / 1000 + 540) % 360) - 180),
  elevation: new Float64Array(n),
  time: new Float64Array(n).fill(NaN),
})

describe('places beside a route', () => {
  // A long ride over the antimeridian, and two short ones far from it and from each other.
  const route = routeOf([part(45, 179.5, 900), part(46, 177, 4), part(-20, 10, 5)])

  it('have the same distance as the nearest place by a search of the whole', () => {
    const random = seeded(5)
    const places = Array.from({ length: 400 }, (_, k) => {
      const [latitude, longitude] = k % 4 < 2 ? [45, 179.5 + 0.9 * random()] : k % 4 === 2 ? [46, 177] : [-20, 10]
      return { latitude: latitude + 0.012 * (random() - 0.5), longitude: longitude! + 0.01 * random() }
    })
    const found = distancesBeside(route, places, 10)
    let beside = 0
    found.forEach((distance, i) => {
      const { latitude, longitude } = places[i]!
      const whole = nearestPlace(route, latitude, longitude)
      if (whole.offset < 500) {
        near(distance!, whole.distance, 1e-6, `${latitude} ${longitude}`)
        beside++
      } else expect(distance).toBeUndefined()
    })
    expect(beside).toBeGreaterThan(100)
  })

  it('inside a loop that is ridden again and again, ever narrower, are found to the width of its laps, mostly without a look at the last', () => {
    const laps = 40
    const steps = 200
    const around = (lap: number, step: number) => {
      const angle = (2 * Math.PI * step) / steps
      const radius = 600 - 0.01 * (lap + step / steps)
      return { latitude: (radius * Math.cos(angle)) / 111_200, longitude: 20 + (radius * Math.sin(angle)) / 111_300 }
    }
    const path = Array.from({ length: laps * steps + 1 }, (_, i) => around(Math.floor(i / steps), i % steps))
    const column = (key: 'latitude' | 'longitude') => Float64Array.from(path, (place) => place[key])
    const loop = routeOf([
      {
        latitude: column('latitude'),
        longitude: column('longitude'),
        elevation: new Float64Array(path.length),
        time: new Float64Array(path.length).fill(NaN),
      },
    ])
    const random = seeded(9)
    const places = Array.from({ length: 50 }, () => around(20_000 * random(), steps * random()))
    const found = distancesBeside(loop, places, 10)
    found.forEach((at, i) => {
      const { latitude, longitude } = places[i]!
      const there = positionAt(loop, at!)
      const offset = distance(latitude, longitude, there.latitude, there.longitude)
      near(offset, nearestPlace(loop, latitude, longitude).offset, 0.01 * laps + 0.1, 'offset')
    })
    const onLast = found.filter((at) => at! > ((laps - 1) * loop.length) / laps)
    expect(onLast.length).toBeLessThan(places.length / 5)
  })

  it('may be written any number of turns away', () => {
    const [here, turned] = distancesBeside(
      route,
      [0, -360].map((turn) => ({ latitude: 45 + 0.004 * Math.sin(600 / 9), longitude: 180.1 + turn })),
      10,
    )
    near(turned!, here!, 1e-6)
  })
})
