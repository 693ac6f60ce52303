import type { LegNote } from '../../../model/readings/leg-notes'
import type { FootCause } from '../../../model/readings/on-foot'
import type { SheetRow } from '../../../model/readings/sheet'
import { joulesPerWattHour } from '../../../model/units'
import type { Format } from '../../format'
import { worded } from '../worded'
import { batteryIn } from './battery'
import { rideIn } from './ride'
import { times, type Clock } from './times'

/** Of rows of the leg table and of the day sheet, in one line each. */
export const rowsIn = (format: Format) => {
  const { energy, measure, percent } = format
  const { place } = rideIn(format)
  const { refusal: refused } = batteryIn(format)
  const minutes = (time: number) => measure(time, 'duration')
  /** Whole watt-hours that a halt charges, if there are any. */
  const charged = (added: number) => (added < joulesPerWattHour / 2 ? '' : `, ${energy(added)} charged`)
  const walkingNotes: Record<FootCause, string> = {
    tooSteep: 'walking where it is too steep',
    noCharge: 'walking for want of charge',
    weakPack: 'walking where the pack gives the motor too little',
  }
  const legNote = worded<LegNote>({
    reserveReached: ({ at }) => `reserve reached at ${format.place(at)}`,
    motorOff: ({ at }) => `motor off from ${format.place(at)}`,
    walking: ({ cause }) => walkingNotes[cause],
    nextPack: ({ at }) => `next pack at ${format.place(at)}`,
    crossing: ({ time, added }) => `crossing ${minutes(time)}${charged(added)}`,
    untilOpen: ({ control, time }) => `${control}: ${minutes(time)} until it opens`,
    stop: ({ stop, time, added }) => `${stop}: ${minutes(time)}${charged(added)}`,
    notCharged: ({ refusal }) => `not charged: ${refused(refusal)}`,
  })

  return {
    place,

    /** What is worth saying of a leg, empty if nothing is. */
    legNotes: (notes: readonly LegNote[]) => notes.map(legNote).join('; '),

    /** What a calendar calls a row of the day sheet. */
    eventTitle: ({ kind, name, sailing }: SheetRow, clock: Clock) =>
      kind === 'crossing' && sailing !== undefined ? `${place(name)}, ${times.sailing(sailing, clock)}` : place(name),

    /** What a row of the day sheet says in one line. */
    rowLine: ({ distance, arrive, depart, charge, sailing, passage }: SheetRow, clock: Clock) =>
      [
        format.place(distance),
        depart > arrive ? `${clock(arrive)} to ${clock(depart)}` : clock(arrive),
        `charge ${percent(charge)}`,
        ...(sailing === undefined ? [] : [times.sailing(sailing, clock)]),
        ...(passage?.opens === undefined ? [] : [`opens ${clock(passage.opens)}`]),
        ...(passage?.closes === undefined ? [] : [`closes ${clock(passage.closes)}`]),
      ].join(', '),
  }
}
