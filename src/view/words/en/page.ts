import type { Reading } from '../../../model/readings/at'
import type { Reach } from '../../../model/readings/reach'
import type { Format } from '../../format'
import type { StorageFault } from '../../../state/database'
import type { AskedPlan } from '../../../state/plan-file.svelte'
import type { ViewState } from '../../../state/survives'
import { cut } from '../cut'

/** Of the frame of the page: what stands about the views, and what is opened, saved and said beside them. */
export const pageIn = ({ distance, energy, height, number, percent, place, speed }: Format) => ({
  bar: {
    name: 'Wattfare',
    label: 'Files and view',
    openRoute: 'Open a route',
    samples: 'Samples',
    planFile: 'Plan file',
    savePlan: 'Save the plan',
    openPlan: 'Open a plan',
    planName: (route: string) => `${route} plan.json`,
    noRoute: 'plan',
    days: 'Days',
    undo: 'Undo',
    redo: 'Redo',
    view: 'View',
    units: 'Units',
    unitNames: { metric: 'km, m, kg, °C', imperial: 'mi, ft, lb, °F' } satisfies Record<ViewState['units'], string>,
    light: 'Light or dark',
    themes: { auto: 'As the system', light: 'Light', dark: 'Dark' } satisfies Record<ViewState['theme'], string>,
    routeFile: 'Route file',
  },

  samples: {
    'two-islands-165km.gpx': {
      title: 'Two islands',
      about: `A long day with a ferry in the middle, ${distance(165_000, 0)}`,
    },
    'two-passes-62km.gpx': {
      title: 'Two passes',
      about: `A mountain ride, ${distance(62_000, 0)} and ${height(1500)} up`,
    },
    'into-town-18km.gpx': { title: 'Into town', about: `A short flat ride, ${distance(18_000, 0)}` },
  },
  /** Of the plan that the first visit begins with. */
  demo: { oldPack: 'Old pack', stop: 'Inn at Querrel Sands', control: 'Tollan Spring' },

  /** Why what is done is not kept, as long as it is so. */
  unkept: {
    forbidden: 'This browser forbids pages to keep anything: what you do here is gone when the page is closed.',
    full: 'This browser’s storage is full: what you did last is not kept. Remove days that you need no more, or save this one as a file.',
    silent: 'This browser’s storage does not answer: what you do here is not kept until it does.',
    newer:
      'What this browser keeps is of a newer version of this program, and stays as it is: reload the page for that version. What you do here is not kept.',
    failed: 'This browser’s storage has failed: what you do here is not kept.',
  } satisfies Record<StorageFault, string>,
  saveDay: 'Save the day as a file',
  /** Of a plan that was made for another route. @param length of this one, m */
  asked: {
    about: ({ fileName, count, farthest }: AskedPlan, length: number) =>
      `“${cut(fileName)}” was made for another route: ${number(count)} of its places ${count === 1 ? 'lies' : 'lie'} beyond this one’s finish at ${place(length)}, as far as ${place(farthest)}.`,
    open: 'Open it all the same',
    leave: 'Leave it',
  },
  /** Of a day that another window works at. */
  following: {
    about: 'This day is open in another window; here it is only shown, as it changes there.',
    takeOver: 'Take it over',
  },

  drop: 'Drop a GPX or KML route, a day, or a saved plan',
  oneRoute: (file: string) => `One route at a time: “${cut(file)}” is opened.`,
  notices: 'Notices',
  close: 'Close',
  /** Of a fault of the model. */
  modelFault: {
    said: 'This could not be forecast, by a fault of this program: what is shown is from before your last change. Undo it, or change something else.',
    saidOfPart:
      'A part of this page could not be worked out, by a fault of this program: where it still shows figures they are from before your last change. Undo it, or change something else.',
    part: 'This part can’t be shown, by a fault of this program.',
    copy: 'Copy a report',
    copied: 'Copied',
    about: 'It holds the plan without names, and nothing of where the route is.',
    fileName: 'wattfare report.json',
  },
  removed: (name: string) => `${name} is removed; Undo brings it back.`,

  /** Parts of the page below the story, or beside it. */
  sections: {
    label: 'Parts of the page',
    toStory: 'Back to the answer',
    skip: { label: 'Skip to', story: 'To the answer', plan: 'To the plan', section: 'To the section below' },
    names: {
      plan: 'This day’s plan',
      bike: 'Rider and bike',
      ride: 'The ride',
      day: 'The day',
      charging: 'Charging',
      kit: 'What comes along',
      choices: 'Choices',
      last: 'Last time',
      road: 'On the road',
      compare: 'Side by side',
    },
  },
  /** Of what is fetched when it is first shown. */
  later: {
    loading: 'One moment.',
    notLoaded: 'This part could not be loaded.',
    tryAgain: 'Try again',
  },
  /** Of the page's own files. */
  version: {
    label: 'Version of the page',
    newer: 'A newer version is ready.',
    missing: 'A part of this page can’t be had any more; loaded anew, the page is whole. Your plan stays.',
    noNetwork: 'A part of this page was not fetched before, and there is no network to fetch it from.',
    anew: 'Load it anew',
    kept: 'The page is kept in this browser, and opens without network.',
  },
  /** Of links to where the documentation says how something is worked out. */
  docs: {
    everything: 'How everything is worked out',
    licences: 'licences of what ships',
    this: 'How this is worked out',
    newTab: 'Opens in a new tab',
  },

  /** Of the place pointed at. */
  readout: {
    label: 'At the pointer',
    atStart: 'At the start',
    facts: (
      { elevation, gradient, speed: v, riderPower, motorPower, drained, left }: Reading,
      { until, length, spare }: Reach,
      usable: number,
    ) =>
      ({
        elevation: ['Elevation', height(elevation)],
        gradient: ['Gradient', percent(gradient, 1)],
        speed: ['Speed', speed(v)],
        rider: ['You', `${number(riderPower)} W`],
        motor: ['Motor', `${number(motorPower)} W`],
        used: ['Used', energy(drained)],
        charge: ['Charge', percent(left / usable)],
        range: [
          'Reach',
          until === undefined ? `to the finish, ${energy(spare)} to spare` : `${distance(length)}, to ${place(until)}`,
        ],
      }) as const,
  },

  /** Of a field of any form. */
  field: {
    more: 'More',
    source: (source: string) => `Where from: ${source}`,
    notNumber: 'This is not a number;',
    notWhole: 'This must be a whole number;',
    outside: (low: string, high: string) => `This must be from ${low} to ${high};`,
    /** @param value that counts until something better is typed; undefined where the field is empty */
    until: (value: string | undefined) =>
      value === undefined ? 'until then it counts as empty.' : `until then ${value} counts.`,
  },
})
