import { describe, expect, it } from 'vitest'
import { wordsIn } from '../../src/view/words/words'

describe('notes beside the answer', () => {
  const { nearWalking, strongerLater } = wordsIn('metric')
  const edge = { mass: 8.1, distance: 61_200, cause: 'tooSteep', tried: 10.4, length: 110 } as const

  it('say how much mass decides between riding and walking, and where', () => {
    expect(nearWalking.heavier(edge)).toBe(
      'With about 8 kg more you would walk at km 61.2: too steep to ride with this drive. With 10 kg more it is 110 m more on foot.',
    )
    expect(nearWalking.lighter({ ...edge, mass: 3.3, length: 1740 })).toBe(
      'With about 3 kg less you would ride at km 61.2. With 10 kg less it is 1.7 km less on foot.',
    )
    expect(nearWalking.heavier({ ...edge, length: -20 })).toMatch(/drive\.$/)
    expect(wordsIn('imperial').nearWalking.heavier(edge)).toContain('about 18 lb more you would walk at mile 38.0')
  })

  it('say that the plan stands at the edge where the mass is none in whole kilograms or pounds', () => {
    const imperial = wordsIn('imperial').nearWalking
    const none = { ...edge, length: 0 }
    expect(nearWalking.heavier({ ...none, mass: 0.31 })).toBe(
      'With less than 1 kg more you would walk at km 61.2: too steep to ride with this drive. The plan stands right at the edge there.',
    )
    expect(nearWalking.lighter({ ...none, mass: 0.31 })).toBe(
      'With less than 1 kg less you would ride at km 61.2. The plan stands right at the edge there.',
    )
    expect(imperial.heavier({ ...none, mass: 0.2 })).toMatch(/^With less than 1 lb more .* The plan stands right/)
    expect(nearWalking.heavier({ ...none, mass: 0.51 })).toMatch(/^With about 1 kg more .* drive\.$/)
    expect(imperial.lighter({ ...none, mass: 0.31 })).toBe('With about 1 lb less you would ride at mile 38.0.')
  })

  it('say why more power makes the day longer', () => {
    expect(
      strongerLater({
        more: 0.05,
        time: 540,
        causes: [
          { code: 'motorOff', length: 3100 },
          { code: 'onFoot', length: 160 },
        ],
      }),
    ).toBe(
      'With 5 % more power of your own the day would be 9 min longer: the packs are spent sooner, and 3.1 km more go without the motor; 160 m more on foot.',
    )
    expect(strongerLater({ more: 0.05, time: 120, causes: [] })).toBe(
      'With 5 % more power of your own the day would be 2 min longer.',
    )
  })
})
