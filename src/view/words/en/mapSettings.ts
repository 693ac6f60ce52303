import type { TileFault } from '../../map/tiles'
import type { AreaFault } from '../../../work/area'
import type { Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'

/** Of the settings of the map, which come when the menu is opened. */
export const mapSettingsIn = ({ number }: Format) => ({
  title: 'Map',
  tiles: 'Map tiles from the network',
  address: 'Map tiles from',
  attribution: 'Their attribution',
  aboutTiles:
    'Empty for OpenStreetMap. The server of the tiles sees which part of the map you look at; nothing else leaves this page. It is asked only once you have opened a route of your own.',
  fault: worded<TileFault>({
    notHttps: () => 'An address of tiles begins with https://;',
    noAddress: () => 'This is no address of a server;',
    lacks: ({ field }) => `The address lacks {${field}};`,
    unknown: ({ field }) => `What {${field}} in the address stands for is not known;`,
  }),
  /** @param address that is in force */
  until: (address: string) => `until then tiles come from ${address === '' ? 'OpenStreetMap' : address}.`,
  untilNone: 'until then there are no tiles.',
  /** Of areas of maps that the rider brings as files. */
  area: {
    title: 'Maps to take along',
    about: 'A PMTiles file of an area is kept in this browser, drawn under the route, and needs no network.',
    open: 'Open a map file',
    input: 'Map file',
    size: (bytes: number) => (bytes < 1e6 ? `${number(bytes / 1000)} kB` : `${number(bytes / 1e6)} MB`),
    remove: (name: string) => `Remove ${cut(name)}`,
    removeShort: 'Remove',
    named: (name: string) => `“${cut(name)}”`,
    kept: 'the map is kept in this browser and drawn where it has something to show.',
    notKept: 'the map is drawn now, but not kept for the next visit, for the browser’s storage is full or forbidden.',
    heights:
      'these are heights, kept in this browser; a route without elevation takes it from them by “Bring elevation”.',
    fault: worded<AreaFault>({
      notPmtiles: () => 'this is not a PMTiles file; the map stays as it was.',
      otherVersion: ({ version }) => `this is PMTiles of version ${version}, and only version 3 is read; convert it.`,
      damaged: () => 'the file is damaged or cut off; fetch or copy it again.',
      otherTiles: () => 'its tiles are neither vector tiles nor PNG, JPEG, WebP or AVIF pictures, and can’t be drawn.',
    }),
  },
  otherServer: 'This server is asked once the page is loaded anew; your plan stays.',
})
