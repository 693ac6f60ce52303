import type { Surface } from '../../../model/plan/parameters'
import type { StretchEnd } from '../../../model/plan/edit-stretches'
import type { PlanStretch } from '../../../model/plan/schema'
import type { StretchFault } from '../../../model/plan/stretches'
import type { FieldText } from '../fields'
import type { StretchOnWay } from '../../../model/readings/stretches'
import type { PlaceName } from '../../../model/place-name'
import type { Format } from '../../format'
import { choice, draggedPlace } from './shownFields'

const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1)

const surfaceNames: Record<Surface, string> = {
  asphalt: 'asphalt',
  'rough asphalt': 'rough asphalt',
  gravel: 'gravel',
  cobbles: 'cobbles',
}

/** Of stretches of the route with something of their own. @param name what a place is called */
export const stretchesIn = (format: Format, name: (place: PlaceName) => string) => {
  const { percent, speed } = format
  /** `gravel, no faster than 15 km/h`: what a stretch says of its own; empty where it says nothing yet. */
  const stretchSaid = ({ surface, shelter, speedLimit, assistRatio }: PlanStretch): string =>
    [
      ...(surface === null ? [] : [surfaceNames[surface]]),
      ...(shelter === null ? [] : [`${percent(shelter)} of the wind`]),
      ...(speedLimit === null ? [] : [`no faster than ${speed(speedLimit)}`]),
      ...(assistRatio === null ? [] : [`assist ${percent(assistRatio)}`]),
    ].join(', ')
  const stretchTitle = (stretch: PlanStretch): string =>
    stretch.name !== '' ? stretch.name : capital(stretchSaid(stretch)) || 'Nothing of its own yet'
  /** A place within a sentence. */
  const inSentence = (at: PlaceName): string =>
    at.code === 'given'
      ? at.name
      : `${at.code === 'start' || at.code === 'finish' ? 'the ' : ''}${name(at).toLowerCase()}`
  return {
    about: 'A part of the route for which you know something of its own. Parts cannot overlap.',
    add: 'Add a stretch',
    remove: 'Remove this stretch',
    name: 'Name',
    ends: {
      start: { ...choice, label: 'From', meaning: draggedPlace },
      end: { ...choice, label: 'To', meaning: draggedPlace },
    } satisfies Record<StretchEnd, FieldText>,
    surface: 'Surface',
    elsewhere: 'as elsewhere',
    usual: 'as usual',
    surfaces: surfaceNames,
    said: stretchSaid,
    /** What a stretch is called: by its name, else by what it says. */
    title: stretchTitle,
    /** `km 12.5 to 18.3`. */
    span: ({ start, end }: PlanStretch) => `${format.place(start)} to ${format.place(end).replace(/^\D+/, '')}`,
    /** As the day sheet says it. */
    sentence: ({ stretch, from, to }: StretchOnWay) =>
      `${stretch.name === '' ? capital(stretchSaid(stretch)) : `${stretch.name}: ${stretchSaid(stretch)}`} from ${inSentence(from)} to ${inSentence(to)}.`,
    /** Why an end can't be where it was typed. */
    fault: (fault: StretchFault) =>
      fault.kind === 'order'
        ? 'A stretch must end after it begins.'
        : `“${stretchTitle(fault.with)}” lies from ${format.place(fault.with.start)} to ${format.place(fault.with.end)}: stretches may touch, not overlap.`,
    markHere: 'Mark a stretch',
    mark: (at: number) => `Mark a stretch at ${format.place(at)}`,
    onMap: 'Stretches',
    /** Of the sliders with which its ends are moved. */
    endOf: (end: StretchEnd, stretch: PlanStretch) =>
      `${end === 'start' ? 'Start' : 'End'} of ${stretchTitle(stretch)}`,
    moving: 'Drag it along the route, or move it with the arrow keys. Delete removes the stretch.',
    ask: 'Change this stretch',
  }
}
