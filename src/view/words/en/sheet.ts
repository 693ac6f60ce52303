import type { Service } from '../../../model/plan/offered-stops'
import type { Route } from '../../../model/route/route'
import type { Plan, PlanStop } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { times } from './times'
import { climbsOf } from './climbs'

const counted = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`

/** Of the sheet on which the plan is written: its frame, the groups in short, and the groups that have no words of their own elsewhere. */
export const sheetIn = ({ distance, duration, energy, height, measure, number, percent, place }: Format) => ({
  title: 'Plan',
  show: 'Show the plan',
  fold: 'Fold the plan away',
  hint: 'Press a dotted name to see what it means.',
  groups: {
    rider: 'Rider',
    bike: 'Bike',
    batteries: 'Batteries',
    assist: 'Assist',
    weather: 'Weather',
    stops: 'Stops',
    stretches: 'Stretches',
    crossings: 'Crossings',
    controls: 'Controls',
    route: 'Route',
  },
  /** Of the name of a pack, a source, a stop. */
  name: 'Name',
  remove: 'Remove',

  start: { label: 'Start', meaning: 'Local date and time where the route starts.' },
  zone: {
    label: 'Time zone',
    found: (zone: string) => `${times.zone(zone)}, from the route`,
    skipped: 'The clock is put forward over this time: it is taken as an hour later.',
    twice: 'The clock is put back, so this time comes twice: the first is meant.',
  },

  /** A group in one line. */
  inShort: {
    rider: ({ mass, power }: Plan['rider']) => `${measure(mass, 'mass', 0)}, ${measure(power, 'power')}`,
    bike: (mass: number) => `${measure(mass, 'mass', 0)} with rider and load`,
    /** @param usableWh what can be taken from them today, of what they hold when new */
    batteries: (packs: number, usableWh: number, ratedWh: number) =>
      `${counted(packs, 'pack')}, ${number(usableWh)} Wh of ${number(ratedWh)} when new`,
    /** @param others stretches with an assist ratio of their own */
    assist: ({ ratio, climbRatio, limitSpeed }: Plan['assist'], others: number) =>
      `${percent(ratio)}, climbs ${percent(climbRatio)}${others === 0 ? '' : `, other on ${others} ${others === 1 ? 'stretch' : 'stretches'}`}, to ${measure(limitSpeed, 'speed', 0)}`,
    byTheHour: (places: number) => `by the hour${places > 1 ? `, ${places} places` : ''}`,
    /** @param from point of the compass */
    weather: ({ temperatureCelsius, windSpeed }: Plan['weather'], from: string) =>
      `${measure(temperatureCelsius, 'temperature')}, ${windSpeed === 0 ? 'no wind' : `wind ${measure(windSpeed, 'windSpeed')} from ${from}`}`,
    stops: (stops: number) => (stops === 0 ? 'none yet' : counted(stops, 'stop')),
    stretches: (stretches: number) => (stretches === 0 ? 'none' : `${stretches} with something of their own`),
    crossings: (crossings: number, time: number, proposed: number) =>
      [
        crossings === 0 ? 'none' : `${crossings}, ${duration(time)}`,
        ...(proposed === 0 ? [] : [`${proposed} proposed`]),
      ].join(', '),
    noControls: 'none, no goal',
    /** @param worst place and margin, s, of the one that is nearest to being missed */
    controls: (controls: number, hasGoal: boolean, worst: { place: string; margin: number | undefined }) =>
      [
        ...(controls > 0 ? [counted(controls, 'control')] : []),
        ...(hasGoal ? ['a goal'] : []),
        ...(worst.margin === undefined ? [] : [`${worst.place}: ${times.margin(worst.margin)}`]),
      ].join(', '),
    route: (route: Route) => `${distance(route.length)}, ${climbsOf(route, { height })}`,
  },

  stops: {
    none: 'No stop yet. Press the route on the map or the profile to pin one, or the button here, then drag it along the route.',
    pin: 'Pin a stop',
    offered: {
      open: (places: number) => `Stop at places of the file (${places})`,
      label: 'Places of the file',
      about:
        'What seems to have food, water or sockets stands first; only the names say so. Each is a rest of 15 minutes at first.',
      services: { food: 'food', water: 'water', sockets: 'sockets' } satisfies Record<Service, string>,
      unnamed: 'Without a name',
      more: (places: number) => `Show ${places} more`,
      take: (places: number) => (places === 0 ? 'Tick where you stop' : `Stop at ${counted(places, 'place')}`),
      taken: (places: number) => `${counted(places, 'stop')} of 15 minutes added.`,
      shut: 'Not now',
    },
    cautionsHead: 'Charging:',
    cautions:
      'right voltage, right polarity. Use the maker’s charger and follow its instructions; never change a pack. Never charge below freezing, never unattended. Let air to it. Stop if a pack is hot, swollen or smells. Local rules for electricity decide.',
    remove: 'Remove this stop',
    /** @param charge usable, as shares on arrival and, where it is charged, on leaving */
    inShort: (at: number, halt: { clock: string; charge: readonly number[] } | undefined) =>
      place(at) +
      (halt === undefined ? '' : `, ${halt.clock}, ${halt.charge.map((share) => number(100 * share)).join(' to ')} %`),
    restOnly: 'Rest only',
    kind: 'For',
    kinds: {
      rest: 'Rest',
      food: 'Food and water',
      water: 'Water',
      charge: 'Charge',
      control: 'A control',
    } satisfies Record<PlanStop['kind'], string>,
    source: 'Charge',
    /** Links to where its source and its pack are set, and to what flows there. */
    itsSource: 'Sources and packs',
    itsCharging: 'What flows there, minute by minute',
    goal: 'Until',
    goals: {
      duration: 'A time is up',
      charge: 'A charge is reached',
      longer: 'Both, side by side',
      sum: 'Both, one after the other',
    } satisfies Record<PlanStop['goal'], string>,

    arrive: 'Arrive',
    leave: 'Leave',
    with: 'with',
    charge: (left: number, usable: number) => `${percent(left / usable)}, ${energy(left)}`,
    reach: 'Reach',
    reachBefore: 'Reach before',
    reachAfter: 'Reach after',
    attended: 'Planned as attended: stay with it.',
  },

  /** Of what charges at a halt. */
  halt: {
    /** What it leaves in a carried pack. */
    left: (source: string, before: number, after: number) =>
      `${source} comes with ${percent(before)} and has ${percent(after)} left.`,
    /** What was put into a pack, and what set the current from when. @param stored J @param time s */
    charged: (pack: string, stored: number, time: number, course: readonly string[]) =>
      `${pack}: ${energy(stored)} in ${duration(time)}; ${course.join(', ')}.`,
    phase: (limit: string, from: string) => `${limit} from ${from}`,
    noOther: (pack: string) => `No other pack has charge left: ${pack} stays in.`,
    swapped: (off: string, leftInIt: number, on: string, charge: number) =>
      `${off} comes off with ${percent(leftInIt)}, ${on} goes on with ${percent(charge)}.`,
  },
})
