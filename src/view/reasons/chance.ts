import { usualSampling } from '../../model/chance/days'
import type { Estimate } from '../../model/chance/spread'
import { formatIn, type Units } from '../format'
import type { PutIn } from './explain'

/** Of shares of days as they may come. */
export const chanceIn = (units: Units) => {
  const { number, percent } = formatIn(units)
  const days = number(usualSampling.days)
  return {
    days,
    /** @param count how many days were ridden, where it is not as many as for the answer */
    of: ({ value }: Pick<Estimate, 'value'>, count = usualSampling.days): PutIn => ({
      values: { held: number(value * count), days: number(count) },
      result: percent(value),
    }),
  }
}
