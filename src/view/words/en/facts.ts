import type { CleaningCounts, Route } from '../../../model/route/route'
import type { Format } from '../../format'
import { climbsOf } from './climbs'

/** Of what the file of the route said. */
export const factsIn = ({ distance, duration, height, number }: Format) => ({
  line: 'Line',
  allJoined: 'All joined in order',
  asChosen: 'As chosen',
  ride: (name: string, length: number) => `${name}: ${distance(length)}`,
  lineOf: (name: string, points: number, length: number) => `${name}: ${number(points)} points, ${distance(length)}`,
  title: 'What the file said',
  file: 'File',
  points: 'Points',
  used: (points: number) => `${number(points)} used`,
  ascent: 'Ascent',
  upAndDown: (route: Route) =>
    route.elevationKnown === 'none'
      ? climbsOf(route, { height })
      : `${climbsOf(route, { height })}, ${height(route.descent)} down`,
  smoothing: 'Smoothing',
  smoothed: ({ smoothingWavelength, ascentSpread }: Route) =>
    `humps ${height(smoothingWavelength)} long keep half their height, shorter ones less; half or twice as much smoothing moves the ascent by ${height(ascentSpread)}`,
  recorded: 'Recorded',
  recordedTime: (time: number) => `${duration(time)} from first to last point`,
  mended: 'Mended',
  nothing: 'nothing',
  counted: (what: string, count: number) => `${what}: ${number(count)}`,
  counts: {
    repeatedPoints: 'Repeated points left out',
    zeroPoints: 'Points at latitude 0, longitude 0 left out',
    outOfRangePoints: 'Points with impossible coordinates left out',
    jumps: 'Jumps left out',
    unknownElevations: 'Unknown elevations filled in or ignored',
    elevationSpikes: 'Spikes of elevation smoothed over',
    impossibleTimes: 'Times that can’t be left out',
    backwardTimes: 'Times that run backwards ignored',
  } satisfies Record<keyof CleaningCounts, string>,
})
