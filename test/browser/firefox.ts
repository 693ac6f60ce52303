import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const places = ['/usr/bin/firefox-esr', '/usr/bin/firefox', '/Applications/Firefox.app/Contents/MacOS/firefox']

function find(): string | undefined {
  const named = process.env.FIREFOX
  if (named !== undefined && named !== '') return named
  return places.find((path) => existsSync(path))
}

/** Path of a Firefox; as root its Debian package is installed if there is none. Throws if none can be had: the test driver has none of its own. */
export function firefoxPath(): string {
  const found = find()
  if (found !== undefined) return found
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log('No Firefox found, installing one.')
    const inherit = { stdio: 'inherit' } as const
    execFileSync('apt-get', ['update', '-qq'], inherit)
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'firefox-esr'], inherit)
  }
  const installed = find()
  if (installed === undefined) throw new Error('No Firefox: install one, or set FIREFOX to the path of one.')
  return installed
}

/** Downloads go to a folder without a question; what is not of this machine goes to a port where nobody answers, so that nothing but the page is reached. */
export const firefoxPreferences = (folder: string) => ({
  'browser.download.folderList': 2,
  'browser.download.dir': folder,
  'network.proxy.type': 1,
  'network.proxy.http': '127.0.0.1',
  'network.proxy.http_port': 9,
  'network.proxy.ssl': '127.0.0.1',
  'network.proxy.ssl_port': 9,
  'network.proxy.no_proxies_on': 'localhost',
})
