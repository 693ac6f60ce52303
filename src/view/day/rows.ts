import type { SheetRow } from '../../model/readings/sheet'
import { distance, duration, height, hoursAndMinutes, number, percent, type Units } from '../format'
import type { Words } from '../words/words'
import { delayText, marginText, openText, spareTime } from '../words'

type Clock = (instant: number) => string

const tied = (text: string): string => text.replaceAll(' ', '\u00a0')

/** `08:12` or `08:12 to 08:52`; in a narrow column it breaks before the `to` alone. */
export const clockText = ({ arrive, depart }: SheetRow, clock: Clock): string =>
  depart > arrive ? `${tied(clock(arrive))} ${tied(`to ${clock(depart)}`)}` : tied(clock(arrive))

/** `41 %` or `41 to 78 %`. */
export const chargeText = ({ charge, chargeOnDeparture }: SheetRow): string => {
  const [arriving, leaving] = [number(100 * charge), number(100 * chargeOnDeparture)]
  return arriving === leaving ? `${arriving} %` : `${arriving} to ${leaving} %`
}

/** What must be left here to reach the finish at the reserve by the plan's charging. */
export const leastText = ({ least }: SheetRow): string =>
  least > 1 ? 'no charge is enough' : percent(Math.ceil(100 * least - 1e-6) / 100)

/** What happens at a row beside its times: a swap of packs, the sailing, when a control is open. */
export function happening(
  { kind, sailing, passage, packIn, arrive, depart }: SheetRow,
  clock: Clock,
  words: Words,
): string[] {
  const said: string[] = []
  if (packIn !== undefined) said.push(`put in ${packIn}`)
  if (sailing !== undefined)
    said.push(`leaves ${clock(sailing.depart)}, ${duration(sailing.wait)} to wait`, delayText(sailing))
  if (passage !== undefined && kind !== 'finish') {
    const open = openText(passage, clock)
    const name = words.place(passage.name)
    if (open !== '') said.push(kind === 'stop' ? `${name}: ${open}` : open)
    else if (kind === 'stop') said.push(name)
  }
  if (kind === 'control' && depart > arrive) said.push(`${duration(depart - arrive)} until it opens`)
  if (kind === 'finish' && passage?.closes !== undefined) said.push(`goal ${clock(passage.closes)}`)
  return said
}

/** Time in hand at a row: to the sailing, to closing, to the goal. */
export const rowMargin = ({ sailing, passage }: SheetRow): string =>
  sailing?.margin !== undefined ? `${spareTime(sailing.margin)} to spare` : marginText(passage?.margin)

export const isMissed = ({ passage }: SheetRow): boolean => passage?.met === false

/** `22.4 km, 310 m up, 1:02`; empty where nothing is ridden. */
export function onwardText({ onward }: SheetRow, units: Units): string {
  if (onward === undefined || onward.length === 0) return ''
  return `${distance(onward.length, units)}, ${height(onward.ascent, units)} up, ${hoursAndMinutes(onward.ridingTime)}`
}
