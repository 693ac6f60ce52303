import { describe, expect, it } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Control } from '../../src/model/plan/day-schema'
import { simulate } from '../../src/model/forecast/simulate'
import { draggedTo } from '../../src/view/map/drag'
import { placeLabels, type Labelled } from '../../src/view/map/labels'
import { landNear } from '../../src/view/map/land'
import { Pointed } from '../../src/view/map/pointed'
import { controlSpots, listed, spotsOf, waypointSpots } from '../../src/view/map/spots'
import { firstView } from '../../src/state/survives'
import { originsOf, tileFault, tileSource } from '../../src/view/map/tiles'
import { near } from '../asserts'
import { courseRoute } from '../routes'

describe('draggedTo', () => {
  // Two loops that cross at the equator's 0°: a figure of eight lying on its side, 1 m a point, 111 m a thousandth of a degree.
  const points = 20_000
  const angle = (i: number) => (2 * Math.PI * i) / points + 0.5
  const latitude = Float64Array.from({ length: points + 1 }, (_, i) => 0.01 * Math.sin(2 * angle(i)))
  const longitude = Float64Array.from({ length: points + 1 }, (_, i) => 0.03 * Math.sin(angle(i)))
  const distance = new Float64Array(points + 1)
  for (let i = 1; i <= points; i++)
    distance[i] =
      distance[i - 1]! + 111_000 * Math.hypot(latitude[i]! - latitude[i - 1]!, longitude[i]! - longitude[i - 1]!)
  const route = {
    points: { latitude, longitude, distance },
    sections: [{ first: 0, last: points, firstPoint: 0, lastPoint: points }],
  }
  const crossing = Math.round(((Math.PI - 0.5) / (2 * Math.PI)) * points)

  it('stays on its pass through a crossing, where another pass is nearer to the pointer', () => {
    let at = distance[crossing - 1500]!
    let nearerElsewhere = 0
    for (let i = crossing - 1500; i <= crossing + 1500; i += 50) {
      // A pointer that strays from the road towards the other pass.
      const [north, east] = [latitude[i]! - 0.0012, longitude[i]!]
      at = draggedTo(route, at, north, east, 400, 10)
      near(at, distance[i]!, 600, `at point ${i}`)
      const own = Math.hypot(north - latitude[i]!, east - longitude[i]!)
      for (let j = 0; j <= points; j += 10)
        if (Math.abs(j - i) > 4000 && Math.hypot(north - latitude[j]!, east - longitude[j]!) < 0.5 * own) {
          nearerElsewhere++
          break
        }
    }
    expect(nearerElsewhere).toBeGreaterThan(0)
  })

  it('walks as far as the route leads nearer to the pointer, even beyond its reach at one step', () => {
    const to = 4000
    near(draggedTo(route, distance[1000]!, latitude[to]!, longitude[to]!, 200, 1), distance[to]!, 1)
  })

  it('takes another pass only when its own is left far behind and the other is under the pointer', () => {
    const other = Math.round(((2 * Math.PI + 0.01 - 0.5) / (2 * Math.PI)) * points) - 1200
    const from = distance[crossing - 1200]!
    const far = draggedTo(route, from, latitude[other]!, longitude[other]!, 100, 1)
    near(far, distance[other]!, 20)
    const near100px = draggedTo(route, from, latitude[other]!, longitude[other]!, 100, 100)
    expect(Math.abs(near100px - distance[other]!)).toBeGreaterThan(500)
  })
})

describe('placeLabels', () => {
  const frame = { left: 0, top: 0, right: 400, bottom: 300 }
  const at = (x: number, y: number, change: Partial<Labelled> = {}): Labelled => ({
    body: { left: x - 8, right: x + 8, top: y - 8, bottom: y + 8 },
    width: 80,
    sides: ['right', 'left', 'above', 'below'],
    on: 'others',
    now: undefined,
    ...change,
  })
  const none = { x: [], y: [] }

  it('takes the first side, and another where the frame ends or a mark stands', () => {
    expect(placeLabels([at(100, 100)], frame, none)).toEqual(['right'])
    expect(placeLabels([at(380, 100)], frame, none)).toEqual(['left'])
    expect(placeLabels([at(100, 100), at(125, 100)], frame, none)).toEqual(['left', 'right'])
  })

  it('leaves the route in sight', () => {
    const x = Array.from({ length: 300 }, (_, i) => 110 + i / 3)
    expect(placeLabels([at(100, 100)], frame, { x, y: x.map(() => 100) })).toEqual(['left'])
  })

  it('leaves out what may be left out, and never what may not', () => {
    const narrow = { left: 90, top: 90, right: 110, bottom: 110 }
    expect(placeLabels([at(100, 100, { on: 'nothing' }), at(100, 100)], narrow, none)).toEqual([undefined, 'right'])
  })

  it('lies on the route rather than not at all, and on no other label', () => {
    const x = Array.from({ length: 400 }, (_, i) => i)
    const route = { x: [...x, ...x, ...x], y: [...x.map(() => 85), ...x.map(() => 100), ...x.map(() => 115)] }
    expect(placeLabels([at(100, 100, { on: 'route' })], frame, route)).not.toEqual([undefined])
    expect(placeLabels([at(100, 100, { on: 'nothing' })], frame, route)).toEqual([undefined])
    const crowd = Array.from({ length: 30 }, (_, i) => at(100 + 4 * i, 100, { on: 'route' }))
    const sides = placeLabels(crowd, frame, none)
    expect(sides.filter((side) => side !== undefined).length).toBeLessThan(10)
    expect(sides).toContain('left')
  })

  it('stays on its side for a while', () => {
    const x = [120, 130, 140, 150, 160, 170].flatMap((x) => [x, x, x, x]).slice(0, 8)
    const route = { x, y: x.map(() => 100) }
    expect(placeLabels([at(100, 100)], frame, route)).toEqual(['left'])
    expect(placeLabels([at(100, 100, { now: 'right' })], frame, route)).toEqual(['right'])
  })
})

describe('tileSource', () => {
  it.each([
    ['http://tiles.example/{z}/{x}/{y}.png', { code: 'notHttps' }],
    ['javascript:alert(1)//{z}{x}{y}', { code: 'notHttps' }],
    ['https://tiles.example/{z}/{x}.png', { code: 'lacks', field: 'y' }],
    ['https://tiles.example/{z}/{x}/{y}.png?key={key}', { code: 'unknown', field: 'key' }],
    ['https:// bad host/{z}/{x}/{y}', { code: 'noAddress' }],
    ['https:///{z}/{x}/{y}', { code: 'noAddress' }],
    ['https://a;script-src/{z}/{x}/{y}', { code: 'noAddress' }],
  ])('takes no tiles from %j, and says why', (tileAddress, fault) => {
    expect(tileFault(tileAddress)).toEqual(fault)
    expect(tileSource({ ...firstView, tileAddress })).toBeUndefined()
  })

  it('takes the default where none is set, and none where tiles are off', () => {
    expect(tileSource(firstView)?.address).toContain('https://tile.openstreetmap.org/')
    expect(tileSource({ ...firstView, tiles: false })).toBeUndefined()
  })

  it('takes an address of tiles, with its attribution as text', () => {
    const tileAddress = ' https://{s}.tiles.example:8443/{z}/{x}/{y}{r}.png '
    expect(tileFault(tileAddress)).toBeUndefined()
    expect(tileSource({ ...firstView, tileAddress, tileAttribution: '<img src=x onerror="1"> & \'co\'' })).toEqual({
      address: tileAddress.trim(),
      attribution: '&lt;img src=x onerror=&quot;1&quot;&gt; &amp; &#39;co&#39;',
    })
    expect(originsOf(tileAddress)).toEqual(['a', 'b', 'c'].map((s) => `https://${s}.tiles.example:8443`))
  })
})

describe('landNear', () => {
  it('moves each part by whole turns to where it is nearest', () => {
    const square = (west: number, width: number) => [
      [
        [west, 0],
        [west + width, 0],
        [west + width, 1],
        [west, 0],
      ],
    ]
    const land = {
      type: 'Feature' as const,
      properties: {},
      geometry: { type: 'MultiPolygon' as const, coordinates: [square(170, 10), square(-180, 5), square(-10, 190)] },
    }
    const wests = (centre: number) => landNear(land, centre).geometry.coordinates.map((rings) => rings[0]![0]![0])
    expect(wests(179.9)).toEqual([170, 180, -10])
    expect(wests(-179.9)).toEqual([-190, -180, -370])
    expect(wests(10)).toEqual([170, 180, -10])
    expect(wests(-10)).toEqual([-190, -180, -10])
  })
})

describe('spotsOf', () => {
  const plan = defaultPlan()
  const long = courseRoute({ length: 450_000 })

  it('marks start, finish, and where the charge ends', () => {
    const outcome = simulate(long, plan)
    const spots = spotsOf(outcome, 'metric')
    expect(spots.map(({ kind }) => kind)).toEqual(['start', 'finish', 'empty', 'reserve'])
    const [, finish, empty, reserve] = spots
    expect(finish!.distance).toBe(450_000)
    expect(empty!.distance).toBe(outcome.emptyAt)
    expect(reserve!.distance).toBe(outcome.reserveAt)
    near(empty!.latitude, 45 + outcome.emptyAt! / 111_000, 1e-6)
    expect(empty!.label).toBe(`Motor stops, km ${(outcome.emptyAt! / 1000).toFixed(1)}`)
    expect(spotsOf(outcome, 'imperial')[3]!.label).toBe(
      `Reserve reached, mile ${(outcome.reserveAt! / 1609.344).toFixed(1)}`,
    )
  })

  it('marks a round trip once, and no end of the charge where there is none', () => {
    const short = courseRoute({ length: 150 })
    expect(spotsOf(simulate(short, plan), 'metric').map(({ label }) => label)).toEqual(['Start and finish'])
  })

  it('puts waypoints on the turn of the globe on which the route lies', () => {
    const route = {
      ...courseRoute({ length: 1000 }),
      waypoints: [{ name: 'Inn', latitude: 45, longitude: 7.01 - 360, distance: undefined }],
    }
    const [spot] = waypointSpots(route)
    near(spot!.longitude, 7.01, 1e-9)
    expect(spot!.label).toBe('Inn')
  })
})

describe('controlSpots', () => {
  const at = (time: string) => ({ by: 'clock' as const, day: 0, time })
  const control = (id: string, km: number, change: Partial<Control> = {}): Control => ({
    id,
    name: `Gate ${id}`,
    distance: 1000 * km,
    opens: null,
    closes: null,
    ...change,
  })
  const route = courseRoute({ length: 60_000 })
  const spotsWith = (...controls: Control[]) =>
    controlSpots(simulate(route, { ...defaultPlan(), zone: 'Europe/Berlin', goal: 3600, controls }), 'metric')

  it('says what is in hand, what is missed and by how much, and when one opens that is waited for', () => {
    // The start is at 06:00; 20 km take at least 20 minutes and at most 4 hours.
    const spots = spotsWith(
      control('a', 20, { closes: at('23:00') }),
      control('b', 30, { closes: at('06:05') }),
      control('c', 40, { opens: at('11:30'), closes: at('12:00') }),
      control('d', 50),
    )
    expect(spots.map(({ label }) => label)).toEqual([
      expect.stringMatching(/^Gate a, 1[2-6] h \d\d min to spare$/),
      expect.stringMatching(/^Gate b, (\d h )?\d\d min too late$/),
      'Gate c, opens 11:30',
      'Gate d',
    ])
    expect(spots.map(({ missed }) => missed)).toEqual([false, true, false, false])
    expect(spots.map(({ more }) => more)).toEqual(['closes 23:00', 'closes 06:05', 'open 11:30 to 12:00', ''])
    near(spots[0]!.latitude, 45 + 20_000 / 111_000, 1e-6)
  })

  it('puts a control beyond the route at its finish, and keeps each apart by its id', () => {
    const [one, other] = spotsWith(control('a', 90), control('b', 90, { name: '' }))
    expect([one!.distance, other!.distance]).toEqual([60_000, 60_000])
    expect(one!.key).not.toBe(other!.key)
    expect(other!.label).toBe('')
  })

  it('leaves out empty texts between commas', () => {
    expect(listed('', 'km 3', '', 'closes 07:00')).toBe('km 3, closes 07:00')
  })
})

describe('Pointed', () => {
  it('clears its own cursor and leaves alone what another has put there', () => {
    const bench: { cursor: number | undefined } = { cursor: undefined }
    const pointed = new Pointed(bench)
    pointed.set(0)
    expect(bench.cursor).toBe(0)
    pointed.clear()
    expect(bench.cursor).toBeUndefined()
    pointed.set(500)
    bench.cursor = 700
    pointed.clear()
    expect(bench.cursor).toBe(700)
    bench.cursor = 500
    pointed.clear()
    expect(bench.cursor, 'its own was given up before').toBe(500)
  })
})
