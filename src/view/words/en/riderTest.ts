import type { Capacity } from '../../../model/readings/rider'
import type { Format } from '../../format'

/** Of the test of two efforts. */
export const riderTestIn = ({ number }: Format) => ({
  title: 'Critical power from a test',
  about:
    'Two efforts, each as hard as you can hold to its end, of 2 to 20 minutes, on rested legs. Not for the ill or untrained.',
  fields: {
    shortTime: 'Short effort',
    shortPower: 'Its mean power',
    longTime: 'Long effort',
    longPower: 'Its mean power',
  },
  result: ({ criticalPower, wPrime }: Capacity) =>
    `Critical power ${number(criticalPower)} W, W′ ${number(wPrime / 1000, 1)} kJ.`,
  use: 'Use these',
})
