import { readFileSync } from 'node:fs'
import { converter, wcagContrast } from 'culori'
import { describe, expect, it } from 'vitest'
import { classesOf } from '../../src/view/ramp'
import { near } from '../asserts'

// Against culori's OKLCH (Ottosson 2020, A perceptual color space for image processing).
const oklch = converter('oklch')
const inOklch = (colour: string) => {
  const { l, h } = oklch(colour)!
  return { lightness: l, hue: h! > 340 ? h! - 360 : h! }
}

const straw = { hue: 92 }
const plum = { hue: -10 }
const ice = { hue: 205 }
const deepBlue = { hue: 268 }

const ramps = [
  ['drain', 'light', { lightness: 0.88, ...straw }, { lightness: 0.34, ...plum }],
  ['drain', 'dark', { lightness: 0.42, ...plum }, { lightness: 0.93, ...straw }],
  ['charge', 'light', { lightness: 0.36, ...deepBlue }, { lightness: 0.9, ...ice }],
  ['charge', 'dark', { lightness: 0.94, ...ice }, { lightness: 0.42, ...deepBlue }],
] as const

/** Of the page's tokens by theme, what a shade lies upon; and what a system or paper puts in its place. */
const css = readFileSync(new URL('../../src/view/theme.css', import.meta.url), 'utf8')
const [lightTokens, darkTokens] = css.split(":root[data-theme='dark']")
const grounds = (tokens: string) =>
  ['paper', 'raised', 'water', 'land'].map((name) => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(tokens)![1]!)
const lyingOn = {
  light: [...grounds(lightTokens!), '#ffffff'],
  dark: [...grounds(darkTokens!), '#000000'],
}

describe('colours of drain and of charge', () => {
  it.each(ramps)('of %s, %s, go in even steps of lightness and hue', (by, theme, from, to) => {
    const classes = classesOf(by, 'metric', theme)
    classes.forEach(({ colour }, i) => {
      const share = i / (classes.length - 1)
      const found = inOklch(colour)
      near(found.lightness, from.lightness + share * (to.lightness - from.lightness), 0.004, `lightness of ${colour}`)
      near(found.hue, from.hue + share * (to.hue - from.hue), 3, `hue of ${colour}`)
    })
  })

  // Contrast by WCAG 2.2 (relative luminance and contrast ratio), as culori has it; 3:1 is what 1.4.11 asks of graphics.
  it.each(ramps)(
    'of %s, %s: the worse, the more it stands out from page and map, the worst at least 9:1',
    (by, theme) => {
      const best = classesOf(by, 'metric', theme).map(({ colour }) => colour)
      const colours = by === 'drain' ? best : best.reverse()
      for (const ground of lyingOn[theme]) {
        const contrasts = colours.map((colour) => wcagContrast(colour, ground))
        expect(contrasts, `on ${ground}`).toEqual([...contrasts].sort((a, b) => a - b))
        expect(contrasts.at(-1), `on ${ground}`).toBeGreaterThan(9)
      }
    },
  )

  it('share no hue', () => {
    const hues = (by: 'drain' | 'charge') =>
      (['light', 'dark'] as const).flatMap((theme) =>
        classesOf(by, 'metric', theme).map(({ colour }) => inOklch(colour).hue),
      )
    expect(Math.min(...hues('charge'))).toBeGreaterThan(Math.max(...hues('drain')) + 60)
  })
})
