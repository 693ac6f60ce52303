import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  crossingParameters,
  legParameters,
  mainsParameters,
  packParameters,
  riderParameters,
  stopParameters,
  weatherParameters,
  type Parameter,
} from '../../src/model/plan/parameters'
import { fieldText, readNumber, readTyped, stepped } from '../../src/view/fields/typed'
import { toShown, unitOf } from '../../src/view/format'
import { near } from '../asserts'

const seed = 20270619

const all: [string, Parameter][] = Object.entries({
  riderParameters,
  bikeParameters,
  assistParameters,
  weatherParameters,
  batteryParameters,
  packParameters,
  mainsParameters,
  stopParameters,
  crossingParameters,
  legParameters,
}).flatMap(([group, parameters]) =>
  Object.entries(parameters).map(([key, parameter]): [string, Parameter] => [`${group}.${key}`, parameter]),
)
const systems = ['metric', 'imperial'] as const

describe('readNumber', () => {
  it.each([
    ['12', '', 12],
    ['12.5', '', 12.5],
    ['12,5', '', 12.5],
    [' 12.5 ', '', 12.5],
    ['12.', '', 12],
    ['.5', '', 0.5],
    [',5', '', 0.5],
    ['0', '', 0],
    ['-3', '', -3],
    ['−3', '', -3],
    ['+3', '', 3],
    ['1,012.5', '', 1012.5],
    ['1.012,5', '', 1012.5],
    ['1 012,5', '', 1012.5],
    ['25 km/h', 'km/h', 25],
    ['25KM/H', 'km/h', 25],
    ['4.5 % per h', '% per h', 4.5],
    ['50%', '%', 50],
  ])('reads “%s”', (text, symbol, value) => {
    expect(readNumber(text, symbol)).toBe(value)
  })

  it.each(['', ' ', '-', '.', 'abc', '1e3', '0x10', '1.2.3', '1,2,3', '12 mph', 'NaN', 'Infinity', '--1', '1-2'])(
    'refuses “%s”',
    (text) => {
      expect(readNumber(text, 'km/h')).toBe(undefined)
    },
  )
})

describe('readTyped', () => {
  const kmh = unitOf('speed', 'metric')
  const bounds = { min: 6 / 3.6, max: 45.1 / 3.6, quantity: 'speed' as const }

  it('gives SI', () => {
    const reading = readTyped('25,2', bounds, kmh, 5)
    expect(reading.ok).toBe(true)
    if (reading.ok) near(reading.value, 7, 1e-12)
  })

  it('says in one sentence what is wrong and what counts meanwhile', () => {
    expect(readTyped('fast', bounds, kmh, 25 / 3.6)).toEqual({
      ok: false,
      sentence: 'This is not a number; until then 25 km/h counts.',
    })
    expect(readTyped('46', bounds, kmh, 25 / 3.6)).toEqual({
      ok: false,
      sentence: 'This must be from 6 to 45.1 km/h; until then 25 km/h counts.',
    })
    expect(readTyped('10.5', packParameters.series, unitOf('count', 'metric'), 10)).toEqual({
      ok: false,
      sentence: 'This must be a whole number; until then 10 counts.',
    })
  })

  it('takes zero as a value', () => {
    expect(readTyped('0', assistParameters.ratio, unitOf('share', 'metric'), 0.5)).toEqual({ ok: true, value: 0 })
  })

  it.each(systems.flatMap((units) => all.map(([key, parameter]) => ({ units, key, parameter }))))(
    'takes the bounds and the default of $key as shown, $units',
    ({ units, parameter }) => {
      const unit = unitOf(parameter.quantity, units)
      for (const value of [parameter.min, parameter.max, parameter.default]) {
        const reading = readTyped(fieldText(value, unit), parameter, unit, parameter.default)
        expect(reading.ok).toBe(true)
        if (!reading.ok) return
        expect(reading.value).toBeGreaterThanOrEqual(parameter.min)
        expect(reading.value).toBeLessThanOrEqual(parameter.max)
        near(toShown(reading.value, unit), toShown(value, unit), 0.51 * 10 ** -(unit.digits + 1))
      }
      const span = toShown(parameter.max, unit) - toShown(parameter.min, unit)
      for (const beyond of [toShown(parameter.min, unit) - span / 50, toShown(parameter.max, unit) + span / 50])
        expect(readTyped(String(beyond), parameter, unit, parameter.default).ok).toBe(false)
    },
  )

  it('keeps any value within bounds through showing and typing, to the digits shown', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...all.filter(([, { quantity }]) => quantity !== 'count')),
        fc.constantFrom(...systems),
        fc.double({ min: 0, max: 1, noNaN: true }),
        ([, parameter], units, share) => {
          const unit = unitOf(parameter.quantity, units)
          const value = parameter.min + share * (parameter.max - parameter.min)
          const reading = readTyped(fieldText(value, unit).replace('.', ','), parameter, unit, value)
          expect(reading.ok).toBe(true)
          if (reading.ok) near(toShown(reading.value, unit), toShown(value, unit), 0.51 * 10 ** -(unit.digits + 1))
        },
      ),
      { seed, numRuns: 500 },
    )
  })
})

describe('stepped', () => {
  const watts = unitOf('power', 'metric')

  it('goes from step to step of the unit', () => {
    expect(stepped(120, 1, riderParameters.power, watts)).toBe(125)
    expect(stepped(122, 1, riderParameters.power, watts)).toBe(125)
    expect(stepped(122, -1, riderParameters.power, watts)).toBe(120)
    expect(stepped(120, -10, riderParameters.power, watts)).toBe(70)
    near(stepped(0.008, 1, bikeParameters.rolling, unitOf('coefficient', 'metric')), 0.0085, 1e-12)
  })

  it('stops at the bounds', () => {
    expect(stepped(448, 1, riderParameters.power, watts)).toBe(450)
    expect(stepped(3, -1, riderParameters.power, watts)).toBe(0)
    expect(stepped(0, -1, riderParameters.power, watts)).toBe(0)
  })
})
