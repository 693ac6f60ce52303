import type { LightsAdvice } from '../../model/readings/light'
import type { Format } from '../format'

/**
 * English: every text that stands for a code of the model. Another language is another file of the same type.
 *
 * @param format numbers in the rider's units
 */
export const en = (_format: Format) => ({
  route: {},
  battery: {},
  lights: {
    dark: 'Part of the ride is in twilight or dark: carry lights front and rear, charged.',
    late: 'By plan it is daylight all the way, but a late hour ends in the dark: carry lights.',
    day: 'By plan it is daylight all the way; small lights still help in tunnels, rain and fog, and the law may ask for them.',
  } satisfies Record<LightsAdvice, string>,
})

export type Words = ReturnType<typeof en>
