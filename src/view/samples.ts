import type { Workbench } from '../state/workbench.svelte'

export interface Sample {
  title: string
  about: string
  address: string
  fileName: string
}

const addresses = import.meta.glob<string>('../../sample-routes/*.gpx', {
  query: '?url',
  import: 'default',
  eager: true,
})

const sample = (fileName: string, title: string, about: string): Sample => {
  const address = addresses[`../../sample-routes/${fileName}`]
  if (address === undefined) throw new Error(`The sample ${fileName} is missing.`)
  return { title, about, address, fileName }
}

export const samples: readonly Sample[] = [
  sample('two-islands-165km.gpx', 'Two islands', 'A long day with a ferry in the middle, 165 km'),
  sample('two-passes-62km.gpx', 'Two passes', 'A mountain ride, 62 km and 1,500 m up'),
  sample('into-town-18km.gpx', 'Into town', 'A short flat ride, 18 km'),
]

/** Fetches a bundled sample and opens it like any file. */
export async function openSample(bench: Workbench, { address, fileName }: Sample): Promise<void> {
  const response = await fetch(address)
  await bench.openFile(new Uint8Array(await response.arrayBuffer()), fileName)
}
