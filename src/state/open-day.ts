import type { Beside, KeptRide, Others } from './day'
import type { Timeline } from './history'
import type { Step } from './steps'
import type { RouteFile } from './store'

/** The day on screen. */
export interface OpenDay {
  /** Undefined as long as a sample is as it came. */
  id: string | undefined
  /** As the rider named it. */
  name: string | undefined
  /** Begun as a sample, by its name. */
  sample: string | undefined
  file: RouteFile
  /** Key of the file's bytes. */
  route: string
  others: Others | undefined
  /** Plans that are kept beside that on screen. */
  beside: Beside | undefined
  /** Rides that were ridden, to learn from. */
  rides: readonly KeptRide[] | undefined
}

/** How a day begins on screen. */
export interface Beginning extends Timeline<Step> {
  day: OpenDay
  /** As it is in the browser. */
  isKept: boolean
  /** Another window works at it. */
  isOthers?: boolean
}

/** A day of which nothing is said yet. */
export const freshDay = (day: Pick<OpenDay, 'id' | 'file' | 'route'>): OpenDay => ({
  ...day,
  ...{ name: undefined, sample: undefined, others: undefined, beside: undefined, rides: undefined },
})

/** The day as it is kept, but for its plan. @param name of its route */
export const headOf = ({ name: own, sample, file, route, others, beside, rides }: OpenDay, name: string) => ({
  ...{ name: own ?? name, isNamed: own !== undefined, route, fileName: file.fileName },
  ...(sample === undefined ? {} : { sample }),
  ...(others === undefined ? {} : { others }),
  ...(beside === undefined ? {} : { beside }),
  ...(rides === undefined ? {} : { rides }),
})

/** A state of which no step before is known. */
export const alone = (present: Step): Timeline<Step> => ({ past: [], present, future: [], at: 0 })
