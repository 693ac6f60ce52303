import type { Format } from '../../format'
import type { Ride } from '../../../model/route/arrange'
import type { LineSummary } from '../../../model/route/survey'
import type { RouteNote } from '../../../model/route/note'
import type { Doing } from '../../../model/route/reading'
import type { FileFault } from '../../../work/jobs'
import { cut } from '../cut'
import { worded } from '../worded'

export const nothingRidden = 'The part is the whole route; something of it must be ridden.'

/** Of the file of a route and what is made of it. */
export const routeIn = (format: Format) => {
  const { distance, energy, height, measure, number } = format
  /** A line of the file, by its number from 0 where it has no name. */
  const lineName = ({ name, kind }: LineSummary, index: number) => name || `${lineKinds[kind]} ${index + 1}`
  const lineKinds: Record<LineSummary['kind'], string> = { track: 'Track', route: 'Route', line: 'Line' }

  /** Why a file gives no route. */
  const routeFault = worded<FileFault>({
    empty: () => 'The file is empty; export the route again as GPX.',
    tooLarge: ({ most }) =>
      `The file holds more than ${number(most / 1e6)} MB of text, which is the most that is read; export the route with fewer points.`,
    tooManyPoints: ({ most }) =>
      `The file has more than ${number(most)} points, which is the most that is read; export the route with fewer points.`,
    zip: () => 'This is a zip archive; unpack it and open the GPX or KML file inside.',
    damagedGzip: () => 'The file is compressed, but damaged or cut off; export the route again as GPX.',
    encoding: ({ encoding }) =>
      `The letters of the file are encoded as “${cut(encoding)}”, which is not known here; export the route again as GPX.`,
    notXml: () => 'This is not a GPX or KML file; export the route as GPX and open that.',
    otherRoot: ({ root }) =>
      `This is not a GPX or KML file, but one of another kind, “${cut(root)}”; export the route as GPX and open that.`,
    noRoot: () => 'There is nothing in the file; export the route again as GPX.',
    entities: ({ line }) =>
      `The file defines entities of its own at line ${line}, which a route has no need of and which are not read for safety; export the route again as GPX.`,
    cutOff: ({ line }) => `The file is cut off: it ends at line ${line} in the middle; export the route again as GPX.`,
    notClosed: ({ tag, opened, line }) =>
      `The file is damaged at line ${line}, for “${cut(tag)}” of line ${opened} is not closed; export the route again as GPX.`,
    notWellFormed: ({ line }) => `The file is damaged at line ${line}; export the route again as GPX.`,
    noPoints: ({ places }) =>
      places === 0
        ? 'The file has no track, route or line to ride; export the route again as GPX.'
        : `The file has no track, route or line to ride: only ${places === 1 ? 'a single place' : `${number(places)} single places`}; export the route between them as GPX.`,
    onlyZeros: ({ points }) =>
      `All ${number(points)} points of the file lie at latitude 0, longitude 0, which stands for no position; export the route again as GPX.`,
    noCoordinates: ({ points }) =>
      `None of the ${number(points)} points of the file has usable coordinates: latitude must be a number from -90 to 90, longitude from -180 to 180; export the route again as GPX.`,
    onePlace: ({ points }) =>
      points === 1
        ? 'The file has only one point, and a route needs at least two; export the whole route as GPX.'
        : `The file has ${number(points)} points, but they are all at one place or are errors; export a route of at least two places as GPX.`,
    noOrder: ({ length }) =>
      `The points of the file make a way of ${distance(length, 0)}, longer than once around the Earth; they are not in the order of a ride; export the route itself as GPX.`,
    noSuchLine: ({ lines, asked }) => `The file has ${number(lines)} lines; line ${number(asked)} was asked for.`,
    nothingRidden: () => nothingRidden,
    failed: () =>
      'The file could not be read, by a fault of this program; export the route in another way and try that.',
    programMissing: () => 'The part of the program that reads such files could not be fetched; load the page anew.',
    noForecast: () =>
      'The ride could not be forecast, by a fault of this program; what was on screen stays. Try the route with another plan.',
    notStarted: () => 'The part of the program that reads routes did not start; load the page again.',
  })
  return {
    fault: routeFault,
    /** Of a file that a day is to begin with. */
    opening: {
      label: 'Opening a file',
      file: (name: string) => `Opening “${cut(name)}”`,
      stays: 'Cancel, and all is as it was.',
      cancel: 'Cancel',
    },
    doing: {
      opening: 'Opening the file',
      reading: 'Reading points',
      cleaning: 'Cleaning',
      smoothing: 'Smoothing',
    } satisfies Record<Doing, string>,
    note: worded<RouteNote>({
      noElevation: ({ climb, mass, energy: work }) =>
        `The file has no elevation, so the forecast assumes flat ground; each ${height(climb)} of climbing takes about ${energy(work)} more at the wheel for bike, rider and load of ${measure(mass, 'mass', 0)}.`,
      elevationMissing: ({ unknown, points, longest }) =>
        `Elevation is missing at ${number(unknown)} of ${number(points)} points, for up to ${distance(longest)} at a stretch; it is drawn straight there, so climbs in between are not in the forecast.`,
      ground: ({ length, from, attribution }) =>
        `On ${distance(length)} without elevation in the file it is taken from “${cut(from)}”${attribution === '' ? '' : ` (${cut(attribution)})`}: heights of the land, which know no bridge, tunnel or cutting.`,
      groundLost: ({ from }) =>
        `The elevation brought from “${cut(from)}” is not in this day any more; bring it again.`,
      farApart: ({ length, ridden, longest }) =>
        `On ${distance(length)} of ${distance(ridden)} the points of the file lie more than ${distance(1000, 0)} apart, up to ${distance(longest)}: straight lines, not a road. The forecast rides them as drawn, so it is too short and misses bends and climbs; a file with more points gives a truer one.`,
      gaps: ({ count, length }) =>
        count === 1
          ? `The track has a gap of ${distance(length)}, taken as a crossing that is not ridden.`
          : `The track has ${number(count)} gaps, ${distance(length)} together, taken as crossings that are not ridden.`,
      riddenGaps: ({ count, length }) =>
        count === 1
          ? `A gap of ${distance(length)} counts as ridden in a straight line.`
          : `${number(count)} gaps, ${distance(length)} together, count as ridden in straight lines.`,
      marked: ({ length, place }) =>
        `A marked part of ${distance(length)}${{ start: ' at the start', between: '', end: ' at the end' }[place]} is not ridden.`,
      joined: ({ kind, count, isReordered }) =>
        `${number(count)} ${kind === 'part' ? kind : lineKinds[kind].toLowerCase()}s of the file are joined${isReordered ? ', in the order in which one follows the other, not in that of the file' : ' in order'}.`,
      fromExtensions: ({ count }) =>
        `The way between the route’s points is taken from ${number(count)} points in their extensions.`,
      timesNotUsed: ({ count }) =>
        `${number(count)} times of the file can’t be of a ride, for they are too old or one would have gone too fast by them; they are not used.`,
      timesApart: ({ time }) =>
        `The times of the file lie ${number(time / 86_400)} days apart, too far to be of one ride; no time is given as recorded.`,
      linesLeft: ({ count }) =>
        count === 1
          ? 'The file has one more line, not used here.'
          : `The file has ${number(count)} more lines, not used here.`,
    }),
    line: lineName,
    /** One or several lines that make a ride. */
    ride: ({ lines: numbers }: Ride, lines: readonly LineSummary[]) => {
      const first = lineName(lines[numbers[0]!]!, numbers[0]!)
      return numbers.length === 1 ? first : `${first} and ${number(numbers.length - 1)} more`
    },
  }
}
