import { describe, expect, it } from 'vitest'
import { catalogue as groups } from '../../src/model/plan/catalogue'
import { rollingFactor } from '../../src/model/plan/stretches'
import { addStretch, changeStretch } from '../../src/model/plan/edit-stretches'
import { defaultPlan } from '../../src/model/plan/defaults'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  packParameters,
  riderParameters,
  stopParameters,
  surfaces,
  weatherParameters,
  type Parameter,
} from '../../src/model/plan/parameters'
import { unitOf } from '../../src/view/format'
import { within } from '../asserts'

const catalogue = Object.entries({
  rider: riderParameters,
  bike: bikeParameters,
  assist: assistParameters,
  weather: weatherParameters,
  battery: batteryParameters,
  pack: packParameters,
  stop: stopParameters,
}).flatMap(([group, parameters]) =>
  Object.entries<Parameter>(parameters).map(([key, parameter]) => ({ path: `${group}.${key}`, ...parameter })),
)

describe('every number of the plan', () => {
  const every = Object.entries(groups).flatMap(([group, parameters]) =>
    Object.entries<Parameter>(parameters).map(([key, parameter]) => ({ path: `${group}.${key}`, ...parameter })),
  )

  it('is within its bounds by default, and in a unit that can be shown', () => {
    expect(every.length).toBeGreaterThan(90)
    for (const { path, min, max, default: value, quantity } of every) {
      expect(min, path).toBeLessThan(max)
      expect(value, path).toBeGreaterThanOrEqual(min)
      expect(value, path).toBeLessThanOrEqual(max)
      expect(typeof unitOf(quantity, 'metric').symbol, path).toBe('string')
    }
  })

  it('is shown at once where most riders know it, else on demand', () => {
    const fine = new Map<string, string[]>()
    for (const { path, fine: hidden } of every)
      if (hidden === true) {
        const [group, key] = path.split('.') as [string, string]
        fine.set(group, [...(fine.get(group) ?? []), key].sort())
      }
    expect(Object.fromEntries(fine)).toEqual({
      rider: ['criticalPower'],
      needs: ['barCarbohydrate', 'barShare', 'bottle', 'gelCarbohydrate', 'grossEfficiency', 'waterCool', 'waterHot'],
      bike: ['braking', 'drivetrain', 'lateralAcceleration', 'rotatingMass', 'wheelRadius'],
      assist: ['lossFactor', 'torque'],
      weather: ['humidity', 'lapseRate', 'seaLevelPressure'],
      wet: ['braking', 'dryingTime', 'rain', 'rolling'],
      pack: ['boardCurrent', 'cellResistance', 'dischargeCurrent', 'floor', 'wiringResistance'],
      mains: ['efficiency'],
      carried: ['boardCurrent', 'cellResistance', 'lowestCellVoltage', 'wiringResistance'],
      converter: ['headroom', 'outputVoltageLeast', 'outputVoltageMost', 'standby'],
      cable: ['temperature'],
    })
  })
})

describe('the beliefs of the catalogue', () => {
  it('are there for what a ride can’t know', () => {
    expect(catalogue.flatMap(({ path, belief }) => (belief ? [path] : [])).sort()).toEqual(
      [
        'rider.mass',
        'rider.power',
        'rider.fade',
        'rider.smallHalts',
        'bike.mass',
        'bike.luggage',
        'bike.dragArea',
        'bike.rolling',
        'assist.lossFactor',
        'weather.temperatureCelsius',
        'weather.windSpeed',
        'weather.windFromDegrees',
        'pack.health',
        'stop.duration',
      ].sort(),
    )
  })

  it('span the stated figure', () => {
    for (const { path, belief } of catalogue)
      if (belief !== undefined) {
        const stated = belief.as === 'factor' ? 1 : 0
        expect(belief.low, path).toBeLessThan(stated)
        expect(belief.high, path).toBeGreaterThan(stated)
        if (belief.as === 'factor') expect(belief.low, path).toBeGreaterThan(0)
      }
  })

  it('hold 80 %: 1.2816 deviations to either side of what was measured between bikes and riders', () => {
    // Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391: SD of AfCd 0.170 m², of Cr 0.0036.
    within(bikeParameters.dragArea.belief.high, 1.2816 * 0.17, 2e-3)
    within(bikeParameters.rolling.belief.high, 1.2816 * 0.0036, 2e-3)
    // Fade by work: 0.015 to 0.07 about 0.035, a judgement.
    const { default: middle, belief } = riderParameters.fade
    within(middle * belief.low, 0.015, 1e-12)
    within(middle * belief.high, 0.07, 1e-12)
  })
})

describe('the surface of a stretch', () => {
  const bike = { ...defaultPlan().bike, surfaceFactor: 1.2 }
  const { plan, id } = addStretch(defaultPlan(), 0, 1000)
  const own = (surface: keyof typeof surfaces | null) => changeStretch(plan, id!, { surface }).stretches[0]

  it('stands in place of the bike’s factor, where there is one', () => {
    expect(rollingFactor(bike, undefined)).toBe(1.2)
    expect(rollingFactor(bike, own(null))).toBe(1.2)
    expect(rollingFactor(bike, own('asphalt'))).toBe(1)
    expect(rollingFactor(bike, own('gravel'))).toBe(1.5)
  })

  it('of cobbles rolls at least as hard as handbooks say, and less than from slabs to cobbles', () => {
    // Rough paved 0.008 over asphalt 0.004 (engineering handbook); run-out 22.1 m on slabs, 10.2 m on cobbles (Hölzel et al. 2012).
    expect(surfaces.cobbles).toBeGreaterThanOrEqual(0.008 / 0.004)
    expect(surfaces.cobbles).toBeLessThanOrEqual(22.1 / 10.2)
  })
})
