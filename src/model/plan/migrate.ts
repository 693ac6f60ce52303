/** A document read from text, before it is known to be a plan. */
type Json = Record<string, unknown>

const isRecord = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value)

/** A list with each record in it changed; what is no list or record stays, for the check that follows to name. */
const each = (list: unknown, change: (item: Json) => Json): unknown =>
  Array.isArray(list) ? list.map((item: unknown) => (isRecord(item) ? change(item) : item)) : list

/** The step from each version to the next, that from version 1 first. None changes what it is given. */
const steps: readonly ((old: Json) => Json)[] = [toVersion2, toVersion3, toVersion4]

/**
 * A document of an older version as one of the newest, not yet checked.
 *
 * @param document left as it is
 * @param version of the document, a whole number from 1
 */
export const migrate = (document: Json, version: number): Json =>
  steps.slice(version - 1).reduce((older, step) => step(older), document)

/**
 * Stretches come in, none at first. Fade is by work instead of time: the same multiple of the default as before, which was 0.045 an hour; the
 * time before its onset has no counterpart and falls away. Which pack is filled first goes to each stop and crossing: 'emptiest' was a choice
 * and stays, 'in use' was the default and becomes the new one.
 */
function toVersion2(old: Json): Json {
  const { rider, battery, stops, crossings } = old
  const fillFirst = isRecord(battery) && battery.fillFirst === 'emptiest' ? 'emptiest' : 'most'
  const withOrder = (item: Json): Json => ({ ...item, fillFirst })
  return {
    ...old,
    version: 2,
    rider: isRecord(rider) ? fadeByWork(rider) : rider,
    battery: isRecord(battery) ? without(battery, 'fillFirst') : battery,
    stops: each(stops, withOrder),
    crossings: each(crossings, withOrder),
    stretches: [],
  }
}

/** Nothing was learnt yet, a goal was of the whole day, and nothing was read on the way. */
function toVersion3(old: Json): Json {
  return { ...old, version: 3, learnt: null, ridingGoal: null, readings: [], beliefs: [] }
}

/**
 * Peaks of a converter, blocks that were measured, a trial of charging and the steps of the display come in, none at first; so does how the rider
 * pedals, and a pack's time in store, which was none. The weather was taken to be forecast a day ahead.
 */
function toVersion4(old: Json): Json {
  const { battery, sources } = old
  const inStore = (pack: Json): Json => ({ ...pack, storage: 0 })
  const withTrial = (source: Json): Json =>
    source.kind === 'carried' ? { ...source, blocks: [], trial: null } : source
  return {
    ...old,
    version: 4,
    steps: [],
    forecastAhead: 1,
    battery: isRecord(battery) ? { ...battery, packs: each(battery.packs, inStore) } : battery,
    sources: each(sources, withTrial),
  }
}

const fadeByWork = (rider: Json): Json => ({
  ...without(rider, 'fadePerHour', 'fadeOnset'),
  ...(rider.fadePerHour === undefined ? {} : { fade: fadeOf(rider.fadePerHour) }),
})

/** What is no number is left for the check to name. */
const fadeOf = (perHour: unknown): unknown => (typeof perHour === 'number' ? (0.035 * perHour) / 0.045 : perHour)

const without = (record: Json, ...keys: string[]): Json =>
  Object.fromEntries(Object.entries(record).filter(([key]) => !keys.includes(key)))
