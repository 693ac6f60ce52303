import type { Format } from '../../format'

/** Of what is asked at a first visit. */
export const firstIn = ({ percent }: Format) => ({
  label: 'Your own day',
  sample: 'An example.',
  open: 'Open your route',
  yours: 'On your own bike?',
  bike: {
    label: 'Bike with its packs',
    meaning: 'What a scale says with the packs in and the bags off.',
    source: 'A scale; a bathroom scale with you on it and off it will do.',
  },
  packs: {
    label: 'Packs',
    meaning: `How many batteries come along, all new and alike at first. A worn one, at ${percent(0.7)} of what it held, is told under “Rider and bike”.`,
    source: 'Count those that you take.',
  },
  energy: {
    label: 'Each',
    meaning: 'What one holds when new: its volts times its ampere-hours.',
    source: 'Its label.',
  },
  done: 'Done',
  doneTitle: 'Takes these for your days and asks no more; all of it stands under “Rider and bike”',
})
