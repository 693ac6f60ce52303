/** What a place of the ride is called: a name that someone gave, or what it is. Crossings by the place they leave from, else by their number, from 1; distances ridden, m. */
export type PlaceName =
  | { code: 'given'; name: string }
  | { code: 'start' }
  | { code: 'finish' }
  | { code: 'crossing'; number: number }
  | { code: 'onlyCrossing' }
  | { code: 'crossingFrom'; name: string }
  | { code: 'afterCrossing'; number: number }
  | { code: 'packSpent' }
  | { code: 'at'; distance: number }

export const given = (name: string): PlaceName => ({ code: 'given', name })
