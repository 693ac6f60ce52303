import { catalogue } from '../../../model/plan/catalogue'
import type { PlanDifference } from '../../../model/plan/differences'
import type { Parameter } from '../../../model/plan/parameters'
import type { PlanGroup } from '../../../model/studies/plan-groups'
import { inDistance, type Format } from '../../format'
import { cut } from '../cut'
import { worded } from '../worded'
import { fieldsIn } from './fields'
import { shownFields } from './shownFields'
import { times } from './times'

const causes: Record<PlanGroup, string> = {
  mass: 'mass',
  rider: 'rider',
  bike: 'bike',
  packs: 'packs and charging',
  stops: 'stops',
  weather: 'weather',
  assist: 'assist',
  start: 'start',
}

type ListName = Extract<PlanDifference, { list: unknown }>['list']
const lists: Record<ListName, [one: string, several: string]> = {
  packs: ['pack', 'packs'],
  sources: ['charge source', 'charge sources'],
  stops: ['stop', 'stops'],
  stretches: ['stretch', 'stretches'],
  controls: ['control', 'controls'],
  kit: ['thing', 'things'],
}

const others: Record<Extract<PlanDifference, { code: 'other' }>['what'], string> = {
  zone: 'the clock’s time zone',
  motorPlace: 'where the motor sits',
  lights: 'when the lamps burn',
  surroundings: 'the land around the road',
  hourlyWeather: 'the weather by the hour',
  crossings: 'how crossings go',
}

/** Of plans side by side. */
export const compareIn = (format: Format) => {
  const { distance, duration, measure, number, percent, place, units } = format
  const fields: Partial<Record<string, Partial<Record<string, { label: string }>>>> = {
    ...fieldsIn(format),
    ...shownFields,
  }
  const quoted = (name: string) => `“${cut(name)}”`
  const named = (list: ListName, names: readonly string[]) =>
    [lists[list][names.length === 1 ? 0 : 1], ...names.filter((name) => name !== '').map(quoted)].join(' ')
  const start = (local: string) => `${times.date(local.slice(0, 10))} ${local.slice(11)}`
  const goal = (time: number | null) => (time === null ? 'none' : duration(time))
  return {
    about: 'Plans of this route as columns: the one on screen, those that you keep, and your other days on it.',
    none: 'Keep the plan as it is, change it, and hold both against each other here.',
    name: 'Name',
    newName: (count: number) => `Plan ${count}`,
    keep: 'Keep the plan on screen',
    noRoom: 'There is no room for more plans beside this day: remove one.',
    table: 'Plans side by side',
    onScreen: 'On screen',
    heldPlan: 'Held plan',
    unread: 'This plan can’t be read.',
    take: 'Put on screen',
    takeThis: (name: string) => `Put ${quoted(name)} on screen`,
    hold: 'Compare with this',
    holdThis: (name: string) => `Compare the others with ${quoted(name)}`,
    letGo: 'Let go',
    remove: 'Remove',
    removeThis: (name: string) => `Remove ${quoted(name)}`,
    removed: (name: string) => `${quoted(name)} is removed.`,
    putBack: 'Put it back',
    rows: {
      mass: 'Mass, all in all',
      packs: 'Packs',
      riding: 'Riding',
      stopped: 'Stops and halts',
      crossing: 'Crossing',
      finish: 'Finish',
      energy: 'From the packs',
      drain: 'Drain',
      least: 'Least charge',
      margin: 'Above the reserve',
    },
    packs: (count: number, energyWh: number) => `${number(count)}, ${number(energyWh)} Wh`,
    least: (share: number, at: number) => `${percent(share)}, ${place(at)}`,
    motorOff: (at: number) => `motor off at ${place(at)}`,

    why: (name: string, base: string) => `${quoted(name)} against ${quoted(base)}`,
    reckoning: (share: number) => `One moment, ${percent(share)} done.`,
    failed: 'What makes the difference could not be worked out, by a fault of this program.',
    same: 'Nothing that matters for the ride differs.',
    /** @param total s, with its parts */
    sum: (total: string, parts: readonly (readonly [cause: PlanGroup, by: string])[]) =>
      `${total}${parts.length === 0 ? '' : `: ${parts.map(([cause, by]) => `${by} ${causes[cause]}`.trim()).join(', ')}`}.`,
    ofTime: 'From start to finish',
    ofEnergy: 'From the packs',
    ofLeast: 'Least charge',
    byCause: 'Minutes by cause',
    byPlace: 'Where on the route they arise',
    minutes: 'min',
    chosen: 'Where, of',
    part: (from: number, to: number) => `${number(inDistance(from, units))}–${distance(to, 0)}`,
    causes,
    differs: 'What differs',
    how: 'Each part is what its change does, as the mean over all orders of changing them one by one; together they are the difference.',

    difference: worded<PlanDifference>({
      number: ({ group, key, of, from, to }) => {
        const { quantity } = (catalogue[group] as Partial<Record<string, Parameter>>)[key]!
        const label = fields[group]?.[key]?.label ?? key
        return `${of === undefined ? '' : `${quoted(of)}, `}${label}: ${measure(from, quantity)} → ${measure(to, quantity)}`
      },
      place: ({ of, from, to }) => `${quoted(of)}: ${place(from)} → ${place(to)}`,
      start: ({ from, to }) => `Start: ${start(from)} → ${start(to)}`,
      goal: ({ from, to }) => `Goal: ${goal(from)} → ${goal(to)}`,
      ridingGoal: ({ from, to }) => `Goal for riding: ${goal(from)} → ${goal(to)}`,
      added: ({ list, names }) => `With ${named(list, names)}`,
      removed: ({ list, names }) => `Without ${named(list, names)}`,
      otherwise: ({ list, names }) => `Otherwise: ${named(list, names)}`,
      other: ({ what }) => `Otherwise: ${others[what]}`,
    }),
  }
}
