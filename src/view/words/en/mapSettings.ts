import type { TileFault } from '../../map/tiles'
import type { Format } from '../../format'
import { worded } from '../worded'

/** Of the settings of the map, which come when the menu is opened. */
export const mapSettingsIn = (_: Format) => ({
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
  otherServer: 'This server is asked once the page is loaded anew; your plan stays.',
})
