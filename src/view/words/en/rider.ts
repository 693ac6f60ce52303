import type { Climb } from '../../../model/readings/climbs'
import type { FootCause } from '../../../model/readings/on-foot'
import type { EffortFault } from '../../../model/readings/rider'
import type { Format } from '../../format'

/** Of the rider’s body. @param onFoot why one walks, and how far */
export const riderIn = ({ number }: Format, onFoot: (cause: FootCause, length: number) => string) => ({
  /** Why two efforts give no critical power. */
  efforts: {
    duration: 'Each effort of the test should last 2 to 20 minutes.',
    alike: 'The two efforts should differ by 3 minutes at least.',
    order: 'The shorter effort should have the higher power.',
    tooWeak: 'These two efforts give no critical power: the longer one is too weak.',
  } satisfies Record<EffortFault, string>,
  /** Why a climb is too hard. */
  tooHard: {
    abovePower: ({ riderPower }) => `${number(riderPower)} W, above critical power`,
    wPrimeSpent: () => 'W′ runs out',
    tooSteep: ({ walked }) => onFoot('tooSteep', walked.tooSteep),
    noCharge: ({ walked }) => onFoot('noCharge', walked.noCharge),
    weakPack: ({ walked }) => onFoot('weakPack', walked.weakPack),
  } satisfies Record<Climb['tooHard'][number], (climb: Climb) => string>,
  /** Said beside all that concerns the rider's body. */
  cautions: [
    'This is arithmetic, not medical advice; pain in the chest, dizziness or confusion ends the ride, and a clinician decides about the next.',
    'Drink to thirst: too much plain water over a long day can harm as much as too little.',
    'Try food and drink on short rides first.',
  ],
})
