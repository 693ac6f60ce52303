import { defaultPlan } from '../../src/model/plan/defaults'
import { rideOver } from '../rides'
import type { ReferenceCheck } from './check'

/** A course whose heading turns round evenly, so that the wind comes from all sides alike. */
const allRound = (length: number, elevation?: (d: number) => number) => ({
  length,
  heading: (d: number) => (2 * Math.PI * d) / 10_000,
  ...(elevation && { elevation }),
})

/** Drain, Wh/km, of the default plan as everyday riders ride. Its own 50 % of assist spares the packs for a long day: 3.3 Wh/km on the flat. */
const drain = (power: number, ratio: number, elevation?: (d: number) => number) => {
  const plan = defaultPlan()
  plan.rider.power = power
  Object.assign(plan.assist, { ratio, climbRatio: ratio })
  const { electric, length } = rideOver(allRound(50_000, elevation), plan)
  return electric.drained / 3600 / (length / 1000)
}

export const practiceChecks: ReferenceCheck[] = [
  {
    quantity: 'flat day of 210 km on a 45 kg e-bike, riding time',
    sample: '',
    // Known to riders only as one figure, without their power, wind, surface or assist: a tenth covers 12 W more or less on the pedals.
    source: 'common practice, no source; the default plan, wind from all sides in turn',
    unit: 'h',
    expected: 10.75,
    ours: () => rideOver(allRound(210_000), defaultPlan()).columns.ridingTime.at(-1)! / 3600,
    tolerance: 1.075,
    basis: 'common practice, no source',
  },
  {
    quantity: 'energy use of e-bikes, 5 to 15 Wh/km',
    sample: 'on the flat, 80 W and 200 % assist',
    source: 'band of everyday use in published surveys, from memory: none could be read',
    unit: 'Wh/km',
    expected: 10,
    ours: () => drain(80, 2),
    tolerance: 5,
    basis: 'from memory',
    loose: 'A band, written as its middle and half its width.',
  },
  {
    quantity: 'energy use of e-bikes, 5 to 15 Wh/km',
    sample: 'in hills of 10 m per km, 120 W and 200 % assist',
    source: 'band of everyday use in published surveys, from memory: none could be read',
    unit: 'Wh/km',
    expected: 10,
    ours: () => drain(120, 2, (d) => 20 - 20 * Math.cos((2 * Math.PI * d) / 4000)),
    tolerance: 5,
    basis: 'from memory',
    loose: 'A band, written as its middle and half its width.',
  },
]
