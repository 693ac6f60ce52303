import { turnover } from '../../src/model/readings/needs'
import { balanceAfter, capacityFrom, recoveryTime } from '../../src/model/readings/rider'
import type { ReferenceCheck } from './check'

const effort = (duration: number) => ({ duration, power: 260 + 17_900 / duration })
const tested = () => {
  const result = capacityFrom(effort(180), effort(720))
  return result.ok ? result.value : { criticalPower: NaN, wPrime: NaN }
}
const test =
  'Monod and Scherrer 1965, Ergonomics 8:329-338, P = W′/t + CP; inputs of Clark et al. 2019, J. Appl. Physiol. 127:726-736'

const recovery = (
  [
    [0, 862],
    [50, 647.2],
    [100, 516.9],
    [150, 437.8],
    [200, 389.9],
  ] as const
).map(([below, expected]): ReferenceCheck => ({
  quantity: 'time constant of W′ recovery',
  sample: `${below} W below critical power`,
  source: 'Skiba et al. 2012, MSSE 44:1526-1532; equation and constants from memory',
  unit: 's',
  expected,
  ours: () => recoveryTime(below),
  tolerance: 0.05,
  basis: 'from memory',
}))

export const dayRiderChecks: ReferenceCheck[] = [
  {
    quantity: 'W′ left after 447.5 s at 300 W of 17.9 kJ, critical power 260 W',
    sample: '',
    source: test,
    unit: 'J',
    expected: 0,
    ours: () => balanceAfter(17_900, 300, 447.5, { criticalPower: 260, wPrime: 17_900 }),
    tolerance: 1e-6,
    basis: 'computed from published',
  },
  {
    quantity: 'critical power from efforts of 3 and 12 minutes',
    sample: '',
    source: test,
    unit: 'W',
    expected: 260,
    ours: () => tested().criticalPower,
    tolerance: 1e-6,
    basis: 'computed from published',
  },
  {
    quantity: 'work above critical power from efforts of 3 and 12 minutes',
    sample: '',
    source: test,
    unit: 'J',
    expected: 17_900,
    ours: () => tested().wPrime,
    tolerance: 1e-4,
    basis: 'computed from published',
  },
  {
    quantity: 'W′ balance after 120 s at 150 W from 5 kJ of 20 kJ, critical power 250 W',
    sample: '',
    source: 'Skiba et al. 2015, Eur. J. Appl. Physiol. 115:703-713, differential form; equation from memory',
    unit: 'J',
    expected: 11_767.8,
    ours: () => balanceAfter(5000, 150, 120, { criticalPower: 250, wPrime: 20_000 }),
    tolerance: 0.05,
    basis: 'from memory',
  },
  ...recovery,
  {
    quantity: 'food energy for an hour at 100 W, gross efficiency 20 %',
    sample: '',
    source: 'Moseley and Jeukendrup 2001, MSSE 33:621-627, 19.8 ± 0.6 %, rounded; 1 kcal = 4184 J',
    unit: 'kcal',
    expected: 430,
    ours: () => turnover(360_000, 0.2).kilocalories,
    tolerance: 0.5,
    basis: 'computed from published',
  },
]
