import type { Alternative } from '../../model/battery/alternatives'
import { carriedParameters, converterParameters } from '../../model/plan/bench-parameters'
import { addSource, changeSource, changeStop } from '../../model/plan/edit'
import type { Names } from '../../model/plan/names'
import type { Parameter } from '../../model/plan/parameters'
import type { CarriedSource, MainsSource, Plan } from '../../model/plan/schema'

const within = ({ min, max }: Parameter, value: number) => value >= min && value <= max

/**
 * The edit of the plan that takes an alternative over; undefined where there is none: it is refused, it is what stands there, a value is beyond what
 * a plan can hold, a charger has no stop to be used at, or it is another order of filling, which is the halt's own.
 *
 * @param stop id of the stop that is looked at
 * @param charger the plan's charger that was compared with; a new one is added where there is none
 */
export function takeOver(
  alternative: Alternative,
  source: CarriedSource,
  stop: string | undefined,
  charger: MainsSource | undefined,
  names: Names,
): ((plan: Plan) => Plan) | undefined {
  const { change, refusal, to } = alternative
  if (refusal !== undefined || change.code === 'asItIs' || change.code === 'fillOrder') return undefined
  if (change.code === 'mainsCharger') {
    if (stop === undefined) return undefined
    return (plan) => {
      const added = charger === undefined ? addSource(plan, 'mains', names) : { plan, id: charger.id }
      return added.id === undefined ? plan : changeStop(added.plan, stop, { source: added.id })
    }
  }
  if (to === undefined) return undefined
  const { blocksInSeries, blocksInParallel } = to.carried
  const { current } = to.converter
  const { inputCurrent } = alternative.change.code === 'converterInput' ? to.converter : source.converter
  const fits =
    within(carriedParameters.blocksInSeries, blocksInSeries) &&
    within(carriedParameters.blocksInParallel, blocksInParallel) &&
    within(converterParameters.current, current) &&
    (inputCurrent === null || within(converterParameters.inputCurrent, inputCurrent))
  if (!fits) return undefined
  return (plan) =>
    changeSource(plan, source.id, {
      carried: { ...source.carried, blocksInSeries, blocksInParallel },
      converter: { ...source.converter, current, inputCurrent },
    })
}
