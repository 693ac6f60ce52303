import type { Plan, PlanStop } from './schema'

/** Whether a stop that charges goes on up to its share, however long that takes, and not by its time alone. */
export const chargesToShare = ({ goal }: Pick<PlanStop, 'goal'>): boolean => goal !== 'duration'

/**
 * How long a stop lasts that charges, s: by its time; as long as the charge takes; the longer of both, side by side; or one after the other.
 *
 * @param charging time that the charge takes, s
 */
export function stay({ goal, duration }: Pick<PlanStop, 'goal' | 'duration'>, charging: number): number {
  switch (goal) {
    case 'duration':
      return duration
    case 'charge':
      return charging
    case 'longer':
      return Math.max(duration, charging)
    case 'sum':
      return duration + charging
  }
}

/** Whether a stop has a source that fills the packs, and not only another pack or none. */
export const charges = ({ sources }: Plan, stop: PlanStop): boolean =>
  sources.some(({ id, kind }) => id === stop.source && kind !== 'swap')

/** Which figures of a stop count: its time alone where nothing is charged there, whatever its goal says. */
export function figuresOf(plan: Plan, stop: PlanStop): readonly ('duration' | 'chargeTo')[] {
  if (!charges(plan, stop) || !chargesToShare(stop)) return ['duration']
  return stop.goal === 'charge' ? ['chargeTo'] : ['duration', 'chargeTo']
}
