import { describe, expect, it } from 'vitest'
import { resistancePerMetre } from '../../src/model/battery/cable'
import { carriedFacts } from '../../src/model/battery/carried'
import { chemistries } from '../../src/model/battery/chemistry'
import { proposeFuse } from '../../src/model/battery/fuse'
import { fullVoltage, nominalVoltage, packAt } from '../../src/model/battery/pack'
import { carbohydrateGuidance } from '../../src/model/readings/needs'
import { tenSeries } from '../reference/battery-packs'
import { blocks } from '../reference/charging-parts'
import { near } from '../asserts'

// That a table was copied right: no check of the model, so none of the reference checks.
describe('tables of the model are the published ones', () => {
  it.each([
    [0.5, 39],
    [0.75, 26],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
  ])('flexible copper of %d mm², Ω/km (IEC 60228, class 5, plain)', (area, ohm) => {
    near(1000 * resistancePerMetre(area), ohm, 1e-9)
  })

  it.each([
    ['nmc', 7, 29.4, 25.2, 21],
    ['nmc', 10, 42, 36, 30],
    ['nmc', 13, 54.6, 46.8, 39],
    ['nmc', 14, 58.8, 50.4, 42],
    ['lfp', 4, 14.6, 12.8, 10],
    ['lfp', 8, 29.2, 25.6, 20],
    ['lfp', 12, 43.8, 38.4, 30],
    ['lfp', 16, 58.4, 51.2, 40],
  ] as const)(
    '%s, %d in series: full, nominal, empty, V (data sheets of cells)',
    (chemistry, series, full, nominal, empty) => {
      const spec = { ...tenSeries, chemistry, series }
      near(fullVoltage(spec), full, 1e-9)
      near(nominalVoltage(spec), nominal, 1e-9)
      near(packAt(spec, 25).cutOffVoltage, empty, 1e-9)
      const carried = carriedFacts({ ...blocks, chemistry, blockCells: 1, blocksInSeries: series })
      near(carried.fullVoltage, full, 1e-9)
      near(carried.nominalVoltage, nominal, 1e-9)
      near(carried.emptyVoltage, empty, 1e-9)
    },
  )

  it.each([
    [-15, 58.7],
    [-5, 29],
    [5, 17.5],
    [35, 8.47],
  ])(
    'LFP resistance at %d °C, mΩ of 9.85 at 25 °C (data to Plett 2015, 26650-class cell, 1 s)',
    (celsius, milliohm) => {
      const spec = { ...tenSeries, chemistry: 'lfp', wiringResistance: 0 } as const
      near(packAt(spec, celsius).cellsResistance / packAt(spec, 25).cellsResistance, milliohm / 9.85, 0.01)
    },
  )

  it('capacity in the cold and coulombic efficiency (Wiggins, Allu and Wang 2019; data to Plett 2015)', () => {
    const capacity = (celsius: number) => packAt(tenSeries, celsius).capacity / packAt(tenSeries, 25).capacity
    near(capacity(10), 30.26 / 30.48, 0.001)
    near(capacity(5), 0.991, 0.002)
    for (const { coulombicEfficiency } of Object.values(chemistries)) near(coulombicEfficiency, 29.99 / 30.04, 0.001)
  })

  it.each([
    [29.4, 32],
    [42, 58],
    [43.8, 58],
    [58.4, undefined],
  ])('blade fuses for %d V are rated %s V (ISO 8820-3)', (volts, rated) => {
    expect(proposeFuse(5, 23, volts)).toMatchObject({ code: 'fuse', blade: rated })
  })

  it('carbohydrate in an hour, kg (Thomas, Erdman and Burke 2016, from memory; Jeukendrup 2014; Wallis and Podlogar 2022)', () => {
    expect(carbohydrateGuidance(2 * 3600)).toMatchObject({ least: 0.03, most: 0.06 })
    expect(carbohydrateGuidance(12 * 3600)).toMatchObject({ least: 0.03, most: 0.09 })
  })
})
