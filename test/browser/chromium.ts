import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { chromium } from 'playwright-core'

const places = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
]

function find(): string | undefined {
  const named = process.env.CHROMIUM
  if (named !== undefined && named !== '') return named
  return [...places, chromium.executablePath()].find((path) => existsSync(path))
}

/** Path of a Chromium, installed if there is none: the Debian package as root, else the test driver's own. Throws if neither can be had. */
export function chromiumPath(): string {
  const found = find()
  if (found !== undefined) return found
  console.log('No Chromium found, installing one.')
  const inherit = { stdio: 'inherit' } as const
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    execFileSync('apt-get', ['update', '-qq'], inherit)
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], inherit)
  } else execFileSync('npx', ['playwright', 'install', 'chromium'], inherit)
  const installed = find()
  if (installed === undefined) throw new Error('No Chromium: set CHROMIUM to the path of one.')
  return installed
}

/** What the test driver leaves out itself: of several such lists the last is the one that counts. */
const leftOutByDriver = [
  'AimEnabled',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsFirstBalancedModeAutoEnable',
  'HttpsUpgrades',
  'LensOverlay',
  'MediaRouter',
  'NetworkTimeServiceQuerying',
  'OptimizationHints',
  'PaintHolding',
  'PreconnectToSearch',
  'ThirdPartyStoragePartitioning',
]
/** Suggestions below the address bar, which in each window are a page and a process of their own. */
const suggestions = ['WebUIOmniboxAimPopup', 'WebUIOmniboxFullPopup', 'WebUIOmniboxPopup']

/** Flags for a quiet Chromium in a container, for which there is no host but this one. */
export const chromiumFlags = [
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost',
  `--disable-features=${[...leftOutByDriver, ...suggestions].join(',')}`,
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]
