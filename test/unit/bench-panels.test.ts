import { describe, expect, it } from 'vitest'
import type { TransferColumns } from '../../src/model/battery/transfer-run'
import { lineOf, panels, roundRange } from '../../src/view/bench/panels'

const [voltage, current, , charge] = panels

/** A charge of so many minutes, a row a minute, straight from one value to another; what no panel here reads is 0. */
function columns(minutes: number, values: Partial<Record<keyof TransferColumns, [number, number]>>): TransferColumns {
  const rows = Array.from({ length: minutes + 1 }, (_, i) => i)
  const names = [
    'outputVoltage',
    'inputVoltage',
    'current',
    'sourceCurrent',
    'given',
    'drawn',
    'charge',
    'sourceCharge',
  ]
  const column = (name: string) => {
    const [from, to] = values[name as keyof TransferColumns] ?? [0, 0]
    return Float64Array.from(rows, (i) => from + ((to - from) * i) / minutes)
  }
  return {
    time: Float64Array.from(rows, (i) => 60 * i),
    limit: rows.map(() => 'converter'),
    ...Object.fromEntries(names.map((name) => [name, column(name)])),
  } as unknown as TransferColumns
}

describe('curves of a charge', () => {
  const hour = columns(60, { outputVoltage: [36.4, 41.2], inputVoltage: [13.1, 12.2], charge: [0.2, 0.8] })

  it('go from the start to the chart’s end in minutes, its last value read between two rows', () => {
    const line = lineOf(charge!, 'bike', hour, 30.5 * 60, 1000)
    expect(line[0]).toEqual({ x: 0, y: 20 })
    expect(line.at(-1)!.x).toBe(30.5)
    expect(line.at(-1)!.y).toBeCloseTo(50.5, 9)
    expect(line).toHaveLength(32)
  })

  it('have few points where there is little room, both ends among them', () => {
    const line = lineOf(charge!, 'bike', hour, 60 * 60, 20)
    expect(line.length).toBeLessThanOrEqual(22)
    expect([line[0]!.x, line.at(-1)!.x]).toEqual([0, 60])
  })

  it('stay as they end where the chart goes on', () => {
    expect(lineOf(charge!, 'bike', hour, 70 * 60, 1000).at(-1)).toEqual({ x: 70, y: 80 })
  })

  it('lie within axes with round ends, from 0 where the panel says so', () => {
    expect(roundRange(voltage!, hour, 3600)).toEqual({ min: 10, max: 50, step: 10 })
    expect(roundRange(current!, columns(60, { current: [4.2, 1], sourceCurrent: [14.1, 3] }), 3600)).toEqual({
      min: 0,
      max: 15,
      step: 5,
    })
    expect(roundRange(charge!, hour, 3600)).toEqual({ min: 0, max: 100, step: 50 })
  })

  it('keep their axes while a value moves a little', () => {
    const ranges = [0, 0.1, 0.2].map((more) =>
      roundRange(voltage!, columns(60, { outputVoltage: [36.4, 41.2 + more], inputVoltage: [24, 23] }), 3600),
    )
    expect(ranges[1]).toEqual(ranges[0])
    expect(ranges[2]).toEqual(ranges[0])
  })
})
