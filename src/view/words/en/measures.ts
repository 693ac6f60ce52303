/** Of numbers with their units: what is not the same in every language, beside the symbols of the SI and of US customary units. */
export const measures = {
  /** How numbers are written, as a BCP 47 tag. */
  locale: 'en',
  weeks: 'weeks',
  months: 'months',
  turnsPerMinute: 'rpm',
  /** Before the number of a place on the route. */
  placeAt: { metric: 'km', imperial: 'mile' },
} as const
