import type { Route } from '../../../model/route/route'
import type { GroundFault } from '../../../work/ground'
import type { AreaFault } from '../../../work/area'
import type { Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'

const tiles = (count: number) => (count === 1 ? '1 tile' : `${count} tiles`)

/** Of elevation that a rider brings for a route whose file has none, or only part. */
export const groundIn = ({ distance, height }: Format) => ({
  title: 'Elevation',
  bring: 'Bring elevation',
  /** @param lacking m of the way */
  missing: (lacking: number) => `${distance(lacking)} of the route have no elevation.`,
  about:
    'Terrain tiles are pictures whose colours are heights. They are used only where the file has no elevation, and the heights along the route stay with this day, also without network.',
  written: 'How the heights are written',
  ways: 'Either as metres = −10,000 + (R × 65,536 + G × 256 + B) × 0.1, or as metres = R × 256 + G + B / 256 − 32,768, with red, green and blue from 0 to 255. Which of the two it is shows in the tiles themselves.',

  file: {
    title: 'From a file',
    about: 'A PMTiles file of terrain tiles is kept in this browser and needs no network.',
    open: 'Open an elevation file',
    input: 'Elevation file',
    use: (name: string) => `Use ${cut(name)}`,
    useShort: 'Use it',
    notKept: 'The file is not kept for the next visit, for the browser’s storage is full or forbidden.',
    fault: worded<AreaFault>({
      notPmtiles: () => 'This is not a PMTiles file.',
      otherVersion: ({ version }) => `This is PMTiles of version ${version}, and only version 3 is read; convert it.`,
      damaged: () => 'The file is damaged or cut off; fetch or copy it again.',
      otherTiles: () => 'Its tiles are no pictures, so they hold no heights.',
    }),
  },

  server: {
    title: 'From a server',
    address: 'Terrain tiles from',
    attribution: 'Their attribution',
    /** @param width of a pixel, m */
    asks: (host: string, count: number, width: number) =>
      `${host} is asked for ${tiles(count)} along the route, with ${height(width)} to a pixel, and so sees where it goes. Nothing is asked before you press.`,
    ask: (host: string, count: number) => `Ask ${host} for ${tiles(count)}`,
    again: 'This server can be asked once the page is loaded anew; your plan stays.',
    /** @param address that is in force */
    until: (address: string) =>
      address === '' ? 'until then there are no tiles.' : `until then tiles come from ${address}.`,
  },

  progress: (done: number, count: number) => `${done} of ${tiles(count)}`,
  cancel: 'Cancel',
  fault: worded<GroundFault>({
    noPicture: () => 'A tile is no picture that this browser can read.',
    noHeights: () =>
      'The tiles are pictures, but their colours are no heights in either of the two ways that are read; nothing was changed.',
    altered: () =>
      'This browser changes what pages read from pictures, so heights would be wrong. Allow this page to read them (canvas data), or take another browser.',
    noTiles: ({ tiles: count }) =>
      `None of the ${tiles(count)} along the route is there; take a file or a server that covers it.`,
    unreachable: () =>
      'The server does not answer, or does not let pages of others read its tiles (CORS); nothing was changed.',
    refused: ({ status }) => `The server refuses its tiles (HTTP status ${status}); nothing was changed.`,
    notStarted: () => 'The part of the program that reads heights did not start; load the page again.',
  }),

  /** What came of it. */
  brought: (from: string, { ascent, fromGround }: Pick<Route, 'ascent' | 'fromGround'>, missing: number) =>
    fromGround === 0
      ? `“${cut(from)}” has no heights where the route lies.`
      : `Elevation of ${distance(fromGround)} comes from “${cut(from)}”: ${height(ascent)} of ascent on the route.${missing === 0 ? '' : ` ${tiles(missing)} ${missing === 1 ? 'is' : 'are'} missing; there it is drawn straight.`}`,

  /** Beside the profile. */
  source: (from: string, attribution: string, length: number, whole: number) =>
    `Elevation${length < 0.999 * whole ? ` on ${distance(length)}` : ''} from ${cut(from)}${attribution === '' ? '' : `, ${cut(attribution, 121)}`}.`,
  remove: 'Do without',
})
