import truth from '../../../sample-routes/last-year/two-islands-last-year.truth.json'
import address from '../../../sample-routes/last-year/two-islands-last-year.gpx?url'
import type { RideNotes } from '../../model/learn/notes'
import { fetched } from '../../state/parts.svelte'
import type { LastTime } from '../../state/last-time.svelte'

export const fileName = 'two-islands-last-year.gpx'

/** What the rider of the sample weighed and guessed that day; what was read of the charge is left to be typed. */
const said: Partial<RideNotes> = {
  packs: truth.packs.count,
  riderMass: truth.stated['rider.mass'],
  bikeMass: truth.stated['bike.mass'],
  luggage: truth.stated['bike.luggage'],
  ratio: truth.stated['assist.ratio'],
  climbRatio: truth.stated['assist.climbRatio'],
  windSpeed: truth.stated['weather.windSpeed'],
  windFromDegrees: truth.stated['weather.windFromDegrees'],
  temperatureCelsius: truth.stated['weather.temperatureCelsius'],
}

/** What that rider noted of the charge, 0 to 1. */
export const notedCharge = { start: truth.charge.startPercent / 100, end: truth.charge.endPercent / 100 }

/** Fetches last year's ride of the first sample and adds it to the day on screen. */
export async function addSample(last: LastTime): Promise<void> {
  const bytes = await fetched(async () => {
    const response = await fetch(address)
    if (!response.ok) throw new Error(`${fileName}: ${response.status}`)
    return response.arrayBuffer()
  })
  if (bytes !== undefined) await last.add(new Uint8Array(bytes), fileName, said)
}
