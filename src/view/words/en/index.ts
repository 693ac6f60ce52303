import type { FillFirst } from '../../../model/battery/fill-order'
import type { Brought } from '../../../model/studies/fill-choices'
import type { DayFault } from '../../../state/day'
import type { Said } from '../../../state/said'
import type { Format } from '../../format'
import { answerIn } from './answer'
import { fillOrders } from './fillOrders'
import { mapIn } from './map'
import { pageIn } from './page'
import { namesIn, plan } from './plan'
import { profileIn } from './profile'
import { rideIn } from './ride'
import { riderIn } from './rider'
import { routeIn } from './route'
import { compass } from './compass'
import { choice, draggedPlace, shownFields } from './shownFields'
import { stretchesIn } from './stretches'
import { times } from './times'
import { cut } from '../cut'
import { worded } from '../worded'

/**
 * English: every text that stands for a code of the model. Another language is another folder of the same types.
 *
 * @param format numbers in the rider's units
 */
export const en = (format: Format) => {
  const { duration, energy } = format
  const ride = rideIn(format)
  const route = routeIn(format)
  const stretches = stretchesIn(format, ride.place)
  const unread = (fault: DayFault) => (fault.code === 'damaged' ? 'This day is damaged.' : plan(fault))

  return {
    ...ride,
    ...pageIn(format),
    answer: answerIn(format),
    compass,
    map: mapIn(format),
    profile: profileIn(format),
    route,
    stretches,
    times,
    rider: riderIn(format, ride.onFoot),

    /** Of the fields that the first view shows; the others come with the groups of the sheet that are folded at first. */
    fields: {
      ...shownFields,
      /** Not in the catalogue, for its bounds are those of the route. */
      stopPlace: { ...choice, label: 'Place', meaning: draggedPlace },
    },

    /** What things of a plan are called until the rider names them. */
    names: namesIn(format),

    /** Why a document is not taken as a plan. */
    plan,

    /** Why a day of the list can’t be opened. */
    unread,

    /** What the desk has to say. */
    said: worded<Said>({
      planRefused: ({ fault }) => plan(fault),
      planUnread: ({ fault, file }) => `“${cut(file)}”: ${plan(fault)}`,
      dayUnread: ({ name, fault }) => `“${cut(name)}” can’t be opened, and stays as it is under Days: ${unread(fault)}`,
      dayRouteUnread: ({ name, fault }) =>
        `The route of “${cut(name)}” can’t be opened, and the day stays as it is under Days: ${route.fault(fault)}`,
      notHandedOver: () =>
        'The other window does not answer. Close it, and the day is this one’s; or duplicate the day.',
      routeUnread: ({ fault, file }) => `“${cut(file)}”: ${route.fault(fault)}`,
      stretchRemoved: ({ stretch }) => `${stretches.title(stretch)}: the stretch is removed; Undo brings it back.`,
      viewSpoilt: () => 'What was set for the view (units, theme, map) can’t be read and is as at first.',
      stopsBeyond: ({ stops }) => `${stops} of the plan’s stops lie beyond this route; they stand at its finish.`,
    }),

    /** Which pack a stop fills first. */
    fillFirst: {
      label: 'Packs are filled',
      orders: fillOrders,
      /** @param timed whether the orders take other times */
      brings: (order: FillFirst, { energy: added, time }: Brought, timed: boolean) =>
        `${fillOrders[order]}: ${energy(added)}${timed ? ` in ${duration(time)}` : ''}`,
    },
  }
}

export type Words = ReturnType<typeof en>
