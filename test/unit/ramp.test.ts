import { describe, expect, it } from 'vitest'
import { converter } from 'culori'
import { chargeClasses, drainClasses } from '../../src/view/ramp'
import { near } from '../asserts'

// Against culori's OKLCH (Ottosson 2020, A perceptual color space for image processing).
const oklch = converter('oklch')
const inOklch = (colour: string) => {
  const { l, h } = oklch(colour)!
  return { lightness: l, hue: h! > 340 ? h! - 360 : h! }
}

describe('colours of drain and of charge', () => {
  it.each([
    ['drain', drainClasses.metric, { lightness: 0.88, hue: 92 }, { lightness: 0.34, hue: -10 }],
    ['charge', chargeClasses, { lightness: 0.9, hue: 205 }, { lightness: 0.36, hue: 268 }],
  ])('of %s go in even steps of lightness and hue', (_, classes, from, to) => {
    classes.forEach(({ colour }, i) => {
      const share = i / (classes.length - 1)
      const found = inOklch(colour)
      near(found.lightness, from.lightness + share * (to.lightness - from.lightness), 0.003, `lightness of ${colour}`)
      near(found.hue, from.hue + share * (to.hue - from.hue), 3, `hue of ${colour}`)
    })
  })

  it('share no hue', () => {
    const hues = (classes: readonly { colour: string }[]) => classes.map(({ colour }) => inOklch(colour).hue)
    expect(Math.min(...hues(chargeClasses))).toBeGreaterThan(Math.max(...hues(drainClasses.metric)) + 60)
  })
})
