import { readFileSync } from 'node:fs'
import { bbox, booleanPointInPolygon, distance as turfDistance, kinks, polygonToLine } from '@turf/turf'
import geodesic from 'geographiclib-geodesic'
import type { Feature, FeatureCollection, MultiPolygon, Point, Polygon, Position } from 'geojson'
import { SaxesParser } from 'saxes'
import { describe, expect, it } from 'vitest'
import { sampleFiles } from '../../sample-routes/make'
import { land } from '../../sample-routes/make-land'
import { learnFor, type LearnReport } from '../../src/cli/learn'
import { defaultPack } from '../../src/model/plan/defaults'
import { readRecording } from '../../src/model/recording/read'
import { near, within } from '../asserts'

interface Truth {
  seed: number
  length: number
  ascent: number
  descent: number
  steepestClimbOver50m: number
  steepestDescentOver50m: number
  crossings: { distance: number; gap: number }[]
  noise: {
    elevation: {
      drift: { deviation: number }
      correlated: { deviation: number }
      white: number
      spikes: { share: number }
      step: number
    }
  }
  profile: { distance: number; elevation: number; gradient: number }[]
}

interface TrackPoint {
  place: Position
  elevation: number
  time: number | undefined
}

const samples = new URL('../../sample-routes/', import.meta.url)
const committed = (name: string) => readFileSync(new URL(name, samples), 'utf8')
const coast: FeatureCollection<Polygon | Point> = JSON.parse(committed('coast.geojson'))
const islands = coast.features.filter((one): one is Feature<Polygon> => one.geometry.type === 'Polygon')
const places = coast.features.filter((one): one is Feature<Point> => one.geometry.type === 'Point')
const onLand = (place: Position) => islands.some((island) => booleanPointInPolygon(place, island))
const geodesicLength = ([lon1, lat1]: Position, [lon2, lat2]: Position) =>
  geodesic.Geodesic.WGS84.Inverse(lat1!, lon1!, lat2!, lon2!).s12!

/** Children in the order of the GPX 1.1 schema (topografix.com/GPX/1/1/gpx.xsd), as far as the samples use them. */
const order: Record<string, string[]> = {
  gpx: ['metadata', 'wpt', 'rte', 'trk', 'extensions'],
  metadata: ['name', 'desc', 'author', 'copyright', 'link', 'time', 'keywords', 'bounds', 'extensions'],
  wpt: ['ele', 'time', 'magvar', 'geoidheight', 'name', 'cmt', 'desc', 'src', 'link', 'sym', 'type', 'extensions'],
  trk: ['name', 'cmt', 'desc', 'src', 'link', 'number', 'type', 'extensions', 'trkseg'],
  trkseg: ['trkpt', 'extensions'],
}
order.trkpt = order.wpt!
const repeatable = new Set(['wpt', 'trk', 'trkseg', 'trkpt'])

/** What in a text breaks the GPX 1.1 schema; nothing when it holds. */
function faults(text: string): string[] {
  const found: string[] = []
  const open: { name: string; children: string[] }[] = []
  const parser = new SaxesParser({ xmlns: true })
  parser.on('error', (error) => found.push(error.message))
  parser.on('opentag', ({ name, uri, attributes }) => {
    const parent = open.at(-1)
    if (uri !== 'http://www.topografix.com/GPX/1/1') found.push(`${name} is not of GPX 1.1`)
    if (!parent && (name !== 'gpx' || attributes.version?.value !== '1.1' || !attributes.creator)) {
      found.push('the root is not gpx with version 1.1 and a creator')
    }
    if (parent) {
      const allowed = order[parent.name] ?? []
      const last = parent.children.at(-1)
      if (!allowed.includes(name)) found.push(`${name} in ${parent.name}`)
      else if (last !== undefined && allowed.indexOf(name) < allowed.indexOf(last)) found.push(`${name} after ${last}`)
      else if (last === name && !repeatable.has(name)) found.push(`${name} twice`)
      parent.children.push(name)
    }
    if (name === 'wpt' || name === 'trkpt') {
      const [latitude, longitude] = [Number(attributes.lat?.value), Number(attributes.lon?.value)]
      if (!(Math.abs(latitude) <= 90 && longitude >= -180 && longitude < 180)) found.push(`${name} is out of bounds`)
    }
    open.push({ name, children: [] })
  })
  parser.on('closetag', () => open.pop())
  parser.write(text).close()
  return found
}

/** Track points of each segment, read without any reader of ours. */
function segments(gpx: string): TrackPoint[][] {
  return gpx
    .split('<trkseg>')
    .slice(1)
    .map((segment) =>
      [...segment.matchAll(/<trkpt lat="(.+?)" lon="(.+?)"><ele>(.+?)<\/ele>(?:<time>(.+?)<\/time>)?/g)].map(
        ([, lat, lon, elevation, time]) => ({
          place: [Number(lon), Number(lat)],
          elevation: Number(elevation),
          time: time === undefined ? undefined : Date.parse(time) / 1000,
        }),
      ),
    )
}

/** Distances between successive points of each segment, m. */
function steps(track: readonly TrackPoint[][]): number[] {
  return track.flatMap((part) => part.slice(1).map(({ place }, i) => geodesicLength(part[i]!.place, place)))
}

const pack = (id: string) => defaultPack(id, id)
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

describe('sampleFiles', () => {
  const files = sampleFiles()

  it.each([...files.keys()])('makes %s as it is committed, byte by byte', (name) => {
    expect(files.get(name)).toBe(committed(name))
  })

  it('stays within the sizes agreed for the bundle', () => {
    expect(Buffer.byteLength(files.get('coast.geojson')!)).toBeLessThan(60_000)
    expect(sum([...files.values()].map((text) => Buffer.byteLength(text)))).toBeLessThan(2_500_000)
  })
})

describe('last year’s ride', async () => {
  const told = JSON.parse(committed('last-year/two-islands-last-year.truth.json'))
  const file = Buffer.from(committed('last-year/two-islands-last-year.gpx'))
  const reading = await readRecording(new Uint8Array(file), 'last-year.gpx')
  if (!reading.ok) throw new Error(reading.fault.code)
  const { recording } = reading
  const settings = Object.entries({
    ...told.stated,
    'battery.packs.2': pack('pack-3'),
    'battery.packs.3': pack('pack-4'),
  })
  const words = settings.flatMap(([path, value]) => ['--set', `${path}=${JSON.stringify(value).replace(/^"|"$/g, '')}`])
  const { startPercent, endPercent } = told.charge
  const charge = ['--charge-start', `${startPercent}`, '--charge-end', `${endPercent}`]
  const report = JSON.parse(
    await learnFor(['last-year.gpx', ...words, ...charge, '--json'], () => new Uint8Array(file)),
  ) as LearnReport

  it('has the halts and the ferry of its truth', () => {
    expect(recording.faults).toEqual([])
    expect(recording.halts.length).toBe(told.halts.length)
    told.halts.forEach(({ arrive, time }: { arrive: number; time: number }, k: number) => {
      near(recording.halts[k]!.arrive - recording.start, arrive, 30, `halt ${k}`)
      near(recording.halts[k]!.time, time, 30, `length of halt ${k}`)
    })
    expect(recording.crossings.length).toBe(1)
    near(recording.crossings[0]!.time, told.crossing.lands - told.crossing.leaves, 60, 'on board')
    near(report.facts.elapsed_s, told.elapsed, 15)
  })

  it('tells the figures that it was ridden with, though it was not ridden by the forecast', () => {
    const { rider, bike, assist } = told.truth
    const held = {
      'rider.power': rider.power,
      'assist.ratio': assist.ratio,
      'bike.dragArea': bike.dragArea,
      'bike.rolling': bike.rolling,
    }
    for (const [path, value] of Object.entries(held)) {
      const { low80, middle, high80 } = report.beliefs[path]!
      // Within the span that holds 98 %.
      expect(value, path).toBeGreaterThan(middle - (middle - low80) * 1.82)
      expect(value, path).toBeLessThan(middle + (high80 - middle) * 1.82)
    }
    expect(report.beliefs['rider.power']!.verdict).toBe('learnt')
    expect(report.beliefs['assist.ratio']!.verdict).toBe('learnt')
  })
})

describe('faults, the checker of GPX structure', () => {
  const gpx = (inner: string) =>
    `<gpx version="1.1" creator="a" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${inner}</trkseg></trk></gpx>`

  it.each([
    ['<trkpt lat="1" lon="2"><time>2026-01-01T00:00:00Z</time><ele>1</ele></trkpt>', 'ele after time'],
    ['<trkpt lat="1" lon="180"></trkpt>', 'trkpt is out of bounds'],
    ['<trkpt lat="1" lon="2"><speed>1</speed></trkpt>', 'speed in trkpt'],
    ['<trkpt lat="1" lon="2"><ele>1</ele><ele>1</ele></trkpt>', 'ele twice'],
  ])('finds what is wrong in %s', (inner, fault) => {
    expect(faults(gpx(inner))).toEqual([fault])
  })
})

describe('coast.geojson', () => {
  it('has two islands as anticlockwise rings that do not cross themselves', () => {
    expect(islands.map((island) => island.properties?.name)).toEqual(['Tarrovay', 'Linnovay'])
    for (const island of islands) {
      const ring = island.geometry.coordinates[0]!
      const area = sum(ring.slice(1).map(([x, y], i) => ring[i]![0]! * y! - x! * ring[i]![1]!))
      expect(area).toBeGreaterThan(0)
      expect(ring.at(-1)).toEqual(ring[0])
      const line = polygonToLine(island)
      expect(kinks(line as Feature<never>).features).toEqual([])
    }
  })

  it('is about 75 km wide and 45 km high', () => {
    const [west, south, east, north] = bbox(coast)
    within(geodesicLength([west, 41], [east, 41]), 75_000, 0.05, 'width')
    within(geodesicLength([-151.5, south], [-151.5, north]), 45_000, 0.1, 'height')
  })

  it('has all its named places on land', () => {
    expect(places.length).toBeGreaterThan(8)
    for (const { geometry, properties } of places) expect(onLand(geometry.coordinates), properties?.name).toBe(true)
  })

  it('lies more than 1,000 km from the real land of the base map', () => {
    const { geometry }: Feature<MultiPolygon> = JSON.parse(land())
    const corners = islands.map((island) => island.geometry.coordinates[0]![0]!)
    const distances = geometry.coordinates.flat(2).map((place) => turfDistance(place, corners[0]!))
    expect(Math.min(...distances)).toBeGreaterThan(1000)
  })
})

describe('land.geojson', () => {
  const text = readFileSync(new URL('../../static/land.geojson', import.meta.url), 'utf8')
  const base: Feature<MultiPolygon> = JSON.parse(text)

  it('is what the script makes of the atlas, under 700 kB', () => {
    expect(text).toBe(land())
    expect(Buffer.byteLength(text)).toBeLessThan(700_000)
  })

  it('has land and sea where an atlas has them (common knowledge, no source)', () => {
    const at = (longitude: number, latitude: number) => booleanPointInPolygon([longitude, latitude], base)
    expect([at(8.5, 47), at(-100, 40), at(135, -25), at(100, 65), at(0, -85), at(-175, 67), at(47, -19)]).toEqual(
      Array(7).fill(true),
    )
    expect([at(-30, 40), at(-151.5, 41), at(80, -20), at(179, 60), at(-30, 65), at(51, 42)]).toEqual(
      Array(6).fill(false),
    )
  })

  it('has no edge across the map but the one along the South Pole', () => {
    for (const ring of base.geometry.coordinates.flat()) {
      ring.slice(1).forEach(([longitude, latitude], i) => {
        const [before, beforeLatitude] = ring[i]!
        if (latitude !== -90 || beforeLatitude !== -90) expect(Math.abs(longitude! - before!)).toBeLessThan(20)
      })
    }
  })
})

describe.each([
  {
    name: 'two-islands-165km',
    length: 165_000,
    ascent: [1100, 1400],
    crossings: 1,
    timed: false,
    steepest: [0.05, 0.09],
  },
  { name: 'two-passes-62km', length: 62_000, ascent: [1485, 1515], crossings: 0, timed: true, steepest: [0.1, 0.12] },
  { name: 'into-town-18km', length: 18_000, ascent: [40, 70], crossings: 0, timed: true, steepest: [0.04, 0.06] },
])('$name', ({ name, length, ascent, crossings, timed, steepest }) => {
  const text = committed(`${name}.gpx`)
  const truth: Truth = JSON.parse(committed(`${name}.truth.json`))
  const track = segments(text)
  const rises = truth.profile.slice(1).map(({ elevation }, i) => elevation - truth.profile[i]!.elevation)

  it('is a valid GPX 1.1 document', () => {
    expect(faults(text)).toEqual([])
    expect(text).toContain('creator="Wattfare sample maker"')
    expect(sum(track.map((part) => part.length))).toBe(text.split('<trkpt').length - 1)
    expect(track.length).toBe(crossings + 1)
  })

  it('is as long and as hilly as it says', () => {
    within(truth.length, length, 0.005, 'length')
    expect(truth.ascent).toBeGreaterThanOrEqual(ascent[0]!)
    expect(truth.ascent).toBeLessThanOrEqual(ascent[1]!)
    expect(truth.steepestClimbOver50m).toBeGreaterThanOrEqual(steepest[0]!)
    expect(truth.steepestClimbOver50m).toBeLessThanOrEqual(steepest[1]!)
  })

  it('has a true profile that adds up to the true ascent and descent', () => {
    // Steps of 100 m cut the crests a little, so the sums come out low, by less than two percent.
    const climbed = sum(rises.map((rise) => Math.max(rise, 0)))
    const descended = sum(rises.map((rise) => Math.max(-rise, 0)))
    expect(climbed).toBeLessThanOrEqual(truth.ascent + 0.01 * rises.length)
    within(climbed, truth.ascent, 0.02, 'ascent')
    within(descended, truth.descent, 0.02, 'descent')
    near(truth.profile.at(-1)!.distance, truth.length - 50, 50, 'end of the profile')
    near(truth.profile[0]!.elevation + truth.ascent - truth.descent, truth.profile.at(-1)!.elevation, 2, 'end')
  })

  it('has true gradients that are the slope of the true profile', () => {
    // Simpson's rule gives the rise over 200 m from three gradients; it is exact where the profile is one cubic throughout.
    const errors = truth.profile.slice(1, -1).map(({ gradient }, i) => {
      const [before, after] = [truth.profile[i]!, truth.profile[i + 2]!]
      return (before.gradient + 4 * gradient + after.gradient) / 6 - (after.elevation - before.elevation) / 200
    })
    expect(Math.sqrt(sum(errors.map((error) => error * error)) / errors.length)).toBeLessThan(0.003)
    expect(Math.max(...truth.profile.map(({ gradient }) => gradient))).toBeLessThan(truth.steepestClimbOver50m + 0.02)
    expect(Math.min(...truth.profile.map(({ gradient }) => gradient))).toBeGreaterThan(
      truth.steepestDescentOver50m - 0.02,
    )
  })

  it('is recorded on land everywhere', () => {
    expect(track.flat().filter(({ place }) => !onLand(place))).toEqual([])
  })

  it('is recorded within 0.3 percent of its true length', () => {
    within(sum(steps(track)), truth.length, 0.003, 'length')
  })

  it('has points some 8 to 25 m apart, irregularly', () => {
    const apart = steps(track)
    expect(apart.filter((step) => step < 8 || step > 25).length / apart.length).toBeLessThan(0.02)
    expect(Math.max(...apart)).toBeLessThan(30)
    expect(Math.min(...apart)).toBeGreaterThan(2)
    expect(new Set(apart.map((step) => Math.round(step))).size).toBeGreaterThan(8)
  })

  it('has elevations that scatter about the truth as its noise settings say', () => {
    const { drift, correlated, white, spikes, step } = truth.noise.elevation
    const deviation = Math.hypot(drift.deviation, correlated.deviation, white, step / Math.sqrt(12))
    const stretch = truth.length / sum(steps(track))
    let ridden = 0
    const errors = track.flatMap((part) =>
      part.map(({ place, elevation }, i) => {
        if (i > 0) ridden += geodesicLength(part[i - 1]!.place, place) * stretch
        const at = Math.min(ridden / 100, truth.profile.length - 1.001)
        const [from, to] = [truth.profile[Math.floor(at)]!, truth.profile[Math.floor(at) + 1]!]
        return Math.abs(elevation - from.elevation - (to.elevation - from.elevation) * (at % 1))
      }),
    )
    const usual = errors.filter((error) => error < 4 * deviation)
    const measured = Math.sqrt(sum(usual.map((error) => error * error)) / usual.length)
    expect(measured).toBeGreaterThan(0.4 * deviation)
    expect(measured).toBeLessThan(1.6 * deviation)
    const far = errors.filter((error) => error >= 4 * deviation).length
    if (spikes.share === 0) expect(far).toBe(0)
    else expect(far).toBeGreaterThan(0)
    for (const { elevation } of track.flat()) near(elevation / step, Math.round(elevation / step), 1e-6, 'whole steps')
  })

  it(timed ? 'runs forward in time at the pace of an e-bike' : 'is a plan without times', () => {
    const points = track.flat()
    const times = points.map(({ time }) => time)
    if (!timed) return expect(times.every((time) => time === undefined)).toBe(true)
    const waits = points.slice(1).map(({ time }, i) => time! - points[i]!.time!)
    expect(Math.min(...waits)).toBeGreaterThan(0)
    const riding = sum(waits.filter((wait) => wait < 60))
    const speedKmh = (truth.length / riding) * 3.6
    expect(speedKmh).toBeGreaterThan(17)
    expect(speedKmh).toBeLessThan(25)
  })

  it('crosses only water between its parts', () => {
    expect(truth.crossings.length).toBe(crossings)
    truth.crossings.forEach(({ distance, gap }, i) => {
      const [from, to] = [track[i]!.at(-1)!, track[i + 1]![0]!]
      within(gap, 12_000, 0.05, 'gap')
      near(geodesicLength(from.place, to.place), gap, 20, 'gap in the file')
      within(sum(steps(track.slice(0, i + 1))), distance, 0.003, 'distance of the crossing')
      for (let share = 0.03; share < 0.97; share += 0.005) {
        const place = [0, 1].map((k) => from.place[k]! * (1 - share) + to.place[k]! * share)
        expect(onLand(place), `land ${(share * gap).toFixed(0)} m into the crossing`).toBe(false)
      }
    })
  })
})
