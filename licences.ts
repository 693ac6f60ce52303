import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Plugin, Rolldown } from 'vite'

/** What of it is put together after the build, by the maker of the service worker. */
const inServiceWorker = ['workbox-core', 'workbox-precaching', 'workbox-routing', 'workbox-strategies']

const data = `Typeface Overpass: SIL Open Font License 1.1, see @fontsource-variable/overpass below.
Coarse land: Natural Earth, public domain.
Time zones: a table under CC0, made from OpenStreetMap's boundaries, see @photostructure/tz-lookup below.
`

/** Come as one file, in which those that they need are put together already. */
const holdsOthers = ['linkedom', 'rbush']

/** Folders of packages of which something ships, in the page and its workers. */
const folders = new Set<string>()

function collect(bundle: Rolldown.OutputBundle, ids: Iterable<string>): void {
  const inBundle = Object.values(bundle).flatMap((part) =>
    part.type === 'chunk' ? Object.entries(part.modules).flatMap(([id, { code }]) => (code ? [id] : [])) : [],
  )
  // Style sheets leave the modules behind.
  for (const id of [...inBundle, ...[...ids].filter((id) => /\.css\b/.test(id))]) {
    const inside = /^\0?(.*\/node_modules\/(?:@[^/]+\/)?[^/@]+)\//.exec(id)?.[1]
    if (inside !== undefined) folders.add(inside)
  }
}

/** In workers, which are built by themselves: what ships is noted. */
export const licencesOfWorker = (): Plugin => ({
  name: 'licences-of-worker',
  apply: 'build',
  generateBundle(_, bundle) {
    collect(bundle, this.getModuleIds())
  },
})

/** All that a package needs, and what that needs. */
function neededBy(root: string, name: string, found = new Set<string>()): Set<string> {
  const folder = join(root, 'node_modules', name)
  if (found.has(folder)) return found
  found.add(folder)
  for (const needed of Object.keys(described(folder).dependencies ?? {})) neededBy(root, needed, found)
  return found
}

/** Writes licences.txt: each package that ships, with its version and the text of its licence. */
export const licences = (root: string): Plugin => ({
  name: 'licences',
  apply: 'build',
  generateBundle(_, bundle) {
    collect(bundle, this.getModuleIds())
    for (const name of inServiceWorker) folders.add(join(root, 'node_modules', name))
    for (const name of holdsOthers) for (const folder of neededBy(root, name)) folders.add(folder)
    const texts = [...folders].map(licenceOf).sort()
    const own = readFileSync(join(root, 'LICENSE'), 'utf8')
    const rule = '\n' + '-'.repeat(78) + '\n\n'
    this.emitFile({
      type: 'asset',
      fileName: 'licences.txt',
      source: ['Wattfare\n\n' + own, data, ...new Set(texts)].join(rule),
    })
  },
})

function licenceOf(folder: string): string {
  const { name, version, license = 'see below' } = described(folder)
  const file = readdirSync(folder).find((name) => /^(un)?licen[cs]e/i.test(name))
  const text = file === undefined ? '' : '\n\n' + readFileSync(join(folder, file), 'utf8').trim()
  if (license === 'see below' && text === '') throw new Error(`${folder} has no licence.`)
  return `${name} ${version}: ${license}${text}\n`
}

interface Described {
  name: string
  version: string
  license?: string
  dependencies?: Record<string, string>
}

const described = (folder: string) => JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Described
