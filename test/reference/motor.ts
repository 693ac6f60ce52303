import { electricalPower } from '../../src/model/ride/motor'
import type { ReferenceCheck } from './check'

/**
 * A measured ride of a mid-drive trekking bike, 21.2 km, 2024: motor power as the drive reports it, pack energy in steps of 0.1 Wh, a sample every 4 to
 * 6 s. An open ride record; figures only. 1.074 h, of it 0.726 h with the motor, 67.6 Wh of motor work, 82.8 Wh from the pack.
 */
const source = 'a measured mid-drive, open ride record, 21.2 km, 2024'
const electronics = 5 // W: the fit's standing part is 5.2 W, 4 W with the motor off
const hours = 1.074
const assisted = 0.726
/** By assist level: mean motor power 84 W at the lower, 191 W at the higher; their times by the motor's work and time. */
const higher = (67.6 - 84 * assisted) / (191 - 84)
const levels = [
  [assisted - higher, 84],
  [higher, 191],
] as const

const packEnergy = () =>
  levels.reduce((sum, [time, power]) => sum + time * electricalPower(power, 1), electronics * hours)

const losses: [number, number, number][] = [
  [64, 13.5, 3.2],
  [86, 14.5, 3],
  [194, 50, 5],
]

export const motorChecks: ReferenceCheck[] = [
  {
    quantity: 'energy from the pack for 67.6 Wh of motor work at two levels of assist',
    sample: '',
    source,
    unit: 'Wh',
    expected: 82.8,
    ours: packEnergy,
    tolerance: 0.03 * 82.8,
    basis: 'published',
  },
  ...losses.map(([power, loss, tolerance]): ReferenceCheck => ({
    quantity: 'loss of the motor, electronics included',
    sample: `${power} W`,
    source: `${source}; mean of windows of about a minute`,
    unit: 'W',
    expected: loss,
    ours: () => electricalPower(power, 1) - power + electronics,
    tolerance,
    basis: 'published',
  })),
  ...[300, 450, 600].map((power): ReferenceCheck => ({
    quantity: 'efficiency of the drive near its peak, electronics included',
    sample: `${power} W`,
    source: 'common practice, no source: 75 to 80 %',
    unit: '%',
    expected: 77.5,
    ours: () => (100 * power) / (electricalPower(power, 1) + electronics),
    tolerance: 2.5,
    basis: 'common practice, no source',
  })),
]
