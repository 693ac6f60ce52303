import { trialParameters, readingParameters } from './bench-parameters'
import { changePack, changeSource } from './edit'
import type { CarriedSource, Plan, PlanMeterReading, PlanPack, PlanTrial } from './schema'

/** What a trial corrects, as the plan holds it. */
export type TrialFigures = NonNullable<PlanTrial['stated']>

/** How many readings a trial can hold. */
export const mostMeterReadings = 20

const emptyTrial: PlanTrial = {
  pack: null,
  packCharge: trialParameters.packCharge.default,
  sourceCharge: trialParameters.sourceCharge.default,
  readings: [],
  stated: null,
}

const carriedIn = (plan: Plan, id: string): CarriedSource | undefined =>
  plan.sources.find((source): source is CarriedSource => source.id === id && source.kind === 'carried')

/** The bike's pack that a trial filled. */
export const packOfTrial = (packs: readonly PlanPack[], trial: PlanTrial | null): PlanPack =>
  packs.find(({ id }) => id === trial?.pack) ?? packs[0]!

/** Changes what is said of a source's trial; the first word on it begins one. @param id of the source */
export function changeTrial(plan: Plan, id: string, change: Partial<PlanTrial>): Plan {
  const source = carriedIn(plan, id)
  return source === undefined ? plan : changeSource(plan, id, { trial: { ...(source.trial ?? emptyTrial), ...change } })
}

/** A further reading of a trial, with nothing read yet, as long after the last as that was after the one before. */
export function addMeterReading(plan: Plan, id: string): Plan {
  const readings = carriedIn(plan, id)?.trial?.readings ?? []
  if (readings.length >= mostMeterReadings) return plan
  const { default: every, max } = readingParameters.time
  const last = readings.at(-1)
  const time = Math.min(max, last === undefined ? every : last.time + (last.time - (readings.at(-2)?.time ?? 0)))
  const side = last?.side ?? 'source'
  return changeTrial(plan, id, { readings: [...readings, { time, side, voltage: null, current: null, charge: null }] })
}

/** @param k number of the reading */
export const changeMeterReading = (plan: Plan, id: string, k: number, change: Partial<PlanMeterReading>): Plan =>
  changeTrial(plan, id, {
    readings: (carriedIn(plan, id)?.trial?.readings ?? []).map((reading, i) =>
      i === k ? { ...reading, ...change } : reading,
    ),
  })

/** @param k number of the reading */
export const removeMeterReading = (plan: Plan, id: string, k: number): Plan =>
  changeTrial(plan, id, { readings: (carriedIn(plan, id)?.trial?.readings ?? []).filter((_, i) => i !== k) })

/** Source and bike's pack as they were stated before the readings of a trial were taken over. */
export function beforeTrial(source: CarriedSource, pack: PlanPack): { source: CarriedSource; pack: PlanPack } {
  const stated = source.trial?.stated
  if (stated === null || stated === undefined) return { source, pack }
  return { source: { ...source, ...withOwn(source, stated) }, pack: { ...pack, health: stated.packHealth } }
}

const withOwn = ({ converter, carried }: CarriedSource, { efficiency, health }: TrialFigures) => ({
  converter: { ...converter, efficiency },
  carried: { ...carried, health },
})

/** The plan with what a trial tells in place of what was stated, which is kept. @param figures of source and pack */
export function takeTrial(plan: Plan, id: string, figures: TrialFigures): Plan {
  const source = carriedIn(plan, id)
  if (source === undefined) return plan
  const pack = packOfTrial(plan.battery.packs, source.trial)
  const before = beforeTrial(source, pack)
  const stated = {
    efficiency: before.source.converter.efficiency,
    packHealth: before.pack.health,
    health: before.source.carried.health,
  }
  const corrected = changeSource(plan, id, withOwn(source, figures))
  return changeTrial(changePack(corrected, pack.id, { health: figures.packHealth }), id, { pack: pack.id, stated })
}

/** The plan as it was stated before the trial. */
export function untakeTrial(plan: Plan, id: string): Plan {
  const source = carriedIn(plan, id)
  const stated = source?.trial?.stated
  if (source === undefined || stated === null || stated === undefined) return plan
  const pack = packOfTrial(plan.battery.packs, source.trial)
  const back = changePack(changeSource(plan, id, withOwn(source, stated)), pack.id, { health: stated.packHealth })
  return changeTrial(back, id, { stated: null })
}
