import { describe, expect, it } from 'vitest'
import { airDensity, saturationPressure } from '../../src/model/ride/air'
import { close, emptyBooks, enter, stand } from '../../src/model/ride/books'
import { forcesAt, noForces, type StepConditions } from '../../src/model/ride/forces'
import {
  braking,
  canRide,
  couldRide,
  hold,
  noMotion,
  ride,
  spareDrive,
  walk,
  walking,
  walkingSpeed,
  type Motion,
} from '../../src/model/ride/motion'
import { electricalPower, mechanicalPower } from '../../src/model/ride/motor'
import { roadOf } from '../../src/model/ride/road'
import { stepOver } from '../../src/model/ride/step'
import { near, within } from '../asserts'
import { idleStep } from '../rides'
import { courseRoute } from '../routes'

const kmh = 1 / 3.6
/** A rider of 150 W with a motor of twice that on a bike of 110 kg in all, on a road that rises. */
const road = (gradient: number, change: Partial<StepConditions> = {}): StepConditions => {
  const step = {
    ...idleStep,
    inertialMass: 112,
    halfDensityArea: 0.36,
    rolling: 110 * 9.81 * 0.007,
    weightAlong: (110 * 9.81 * gradient) / Math.sqrt(1 + gradient ** 2),
    riderPower: 150,
    coastingSpeed: 40 * kmh,
    assistRatio: 2,
    peakPower: 500,
    torqueForce: 180,
    limitSpeed: 25 * kmh,
    packPower: 500,
    riderEfficiency: 0.96,
    motorEfficiency: 0.94,
    settingOff: 0.6,
    ...change,
  }
  return { ...step, perMass: 1 / step.inertialMass }
}
const moved = (change: Partial<Motion>): Motion => ({ ...noMotion(), ...change })
const clamp = (x: number) => Math.min(1, Math.max(0, x))

/** Powers of rider and motor, W, and what stands against them, N, written down anew from the laws: Martin et al. 1998, J. Appl. Biomech. 14:276-291. */
function law(step: StepConditions, speed: number) {
  const rider = step.riderPower * clamp(1 - (speed - step.coastingSpeed) / (2 * kmh))
  const asked = Math.min(step.assistRatio * rider, step.peakPower, step.torqueForce * speed)
  const motor = Math.min(step.packPower, asked * clamp((step.limitSpeed - speed) / (2 * kmh)))
  const along = speed + step.headWind
  const air = step.halfDensityArea * Math.hypot(along, step.sideWind) * along
  const bearings = 0.091 + 0.0087 * speed
  return {
    rider,
    motor,
    air,
    drive: step.riderEfficiency * rider + step.motorEfficiency * motor,
    resistance: air + bearings + step.rolling + step.weightAlong,
  }
}

/** Of a speed a little off, how much is lost each metre: −d/dv of (P/v − R) / (m v), the forces by differences. */
function settlingOf(step: StepConditions, speed: number): number {
  const small = 1e-4
  const push = (v: number) => law(step, v).drive / v - law(step, v).resistance
  return -(push(speed + small) - push(speed - small)) / (2 * small) / (step.inertialMass * speed)
}

const steps: [string, StepConditions][] = [
  ['flat', road(0)],
  ['up', road(0.06)],
  ['steep', road(0.14)],
  ['down', road(-0.05)],
  ['into the wind', road(0, { headWind: 6, sideWind: 3 })],
  ['before the wind', road(0.01, { headWind: -9, sideWind: 2 })],
  ['with a weak pack', road(0.03, { packPower: 90 })],
  ['with a spent pack', road(0.02, { packPower: 0 })],
  ['with a weak motor', road(0.05, { torqueForce: 20, peakPower: 250 })],
  ['without a rider', road(-0.02, { riderPower: 0 })],
]

describe('forces at a speed', () => {
  const speeds = [0.3, 1, 1.7, 3.2, 5.1, 6.2, 6.5, 6.8, 7.1, 9, 11, 11.3, 11.5, 11.9, 15]

  it.each(steps)('are those of the laws: %s', (_, step) => {
    const found = noForces()
    for (const speed of speeds) {
      forcesAt(step, speed, found)
      for (const [key, value] of Object.entries(law(step, speed)))
        near(found[key as 'rider'], value, 1e-9 * Math.max(1, Math.abs(value)), `${key} at ${speed} m/s`)
    }
  })

  it.each(steps)('change with the speed by their slopes: %s', (_, step) => {
    const [found, before, after] = [noForces(), noForces(), noForces()]
    const small = 1e-5
    for (const speed of speeds) {
      forcesAt(step, speed, found)
      forcesAt(step, speed - small, before)
      forcesAt(step, speed + small, after)
      const slope = (key: 'rider' | 'motor' | 'drive' | 'air' | 'resistance') =>
        (after[key] - before[key]) / (2 * small)
      for (const key of ['rider', 'motor', 'drive'] as const)
        near(found[`${key}Slope`], slope(key), 1e-3 * Math.max(1, Math.abs(slope(key))), `${key} at ${speed} m/s`)
      // In a side wind that of the air is a little high, and never low.
      const high = step.sideWind === 0 ? 1e-6 : 0.5 * Math.abs(slope('air')) + 1.2
      for (const key of ['air', 'resistance'] as const) {
        expect(found[`${key}Slope`] - slope(key), `${key} at ${speed} m/s`).toBeGreaterThan(-1e-6)
        expect(found[`${key}Slope`] - slope(key), `${key} at ${speed} m/s`).toBeLessThan(high + 1e-6)
      }
      near(found.resistanceSlope - found.airSlope, 0.0087, 1e-12)
    }
  })
})

describe('the corner of a law', () => {
  it('has the slope of its flatter side, so that a speed that stays there is found at once', () => {
    const slopes = (change: Partial<StepConditions>, speed: number) => {
      const found = noForces()
      forcesAt(road(0, change), speed, found)
      return [found.riderSlope, found.motorSlope]
    }
    const high = { limitSpeed: 100, torqueForce: 1000 }
    expect(slopes({ ...high, coastingSpeed: 8 }, 8)).toEqual([0, 0])
    // Exactly the width of the fades above the coasting speed and below the limit: 2 km/h.
    expect(slopes({ ...high, coastingSpeed: 2 * kmh }, 4 * kmh)).toEqual([0, 0])
    expect(slopes({ limitSpeed: 4 * kmh, torqueForce: 1000 }, 2 * kmh)).toEqual([0, 0])
    expect(slopes({ limitSpeed: 8 }, 8)).toEqual([0, 0])
    // 300 W by the ratio are 50 N at 6 m/s.
    expect(slopes({ torqueForce: 50 }, 6)).toEqual([0, 0])
    // A third of a fade, where 225 of 300 W or 150 W are left: as much as the peak or the pack allows.
    const coasting = { ...high, riderPower: 100, coastingSpeed: 8 - 0.5 * kmh }
    const { motor } = law(road(0, coasting), 8)
    expect(slopes({ ...coasting, peakPower: motor }, 8)[1]).toBe(0)
    expect(slopes({ ...coasting, packPower: motor }, 8)[1]).toBe(0)
    expect(slopes({ ...coasting, peakPower: motor + 1 }, 8)[1]).toBeLessThan(0)
  })
})

/** A ride over a length by the laws, in 4000 small steps: what is not exact is below 1e-4 of it. */
function slowly(step: StepConditions, from: number, length: number, limit?: { from: number; to: number }) {
  const parts = 4000
  const ds = length / parts
  const atWalk = law(step, walkingSpeed)
  const onFoot = atWalk.drive < walkingSpeed * atWalk.resistance
  let v = from
  const sums = { time: 0, riderWork: 0, motorWork: 0, air: 0, walked: 0 }
  for (let k = 0; k < parts; k++) {
    const cap = limit === undefined ? Infinity : Math.sqrt(limit.from + ((limit.to - limit.from) * (k + 1)) / parts)
    const afoot = onFoot && v <= walkingSpeed * (1 + 1e-9)
    /** Half of the square's change for each metre. */
    const gain = (u: number) => {
      const { drive, resistance } = law(step, u)
      return Math.min((drive / u - resistance) / step.inertialMass, limit === undefined ? Infinity : step.settingOff)
    }
    let to = Math.min(walkingSpeed, cap)
    if (!afoot) {
      const first = v > 0 ? gain(v) : step.settingOff
      const half = Math.sqrt(Math.max(1e-9, v * v + first * ds))
      to = Math.min(cap, Math.sqrt(Math.max(1e-9, v * v + 2 * gain(half) * ds)))
      if (onFoot) to = Math.max(to, Math.min(walkingSpeed, cap))
    }
    const mean = 0.5 * (v + to)
    const here = law(step, mean)
    const time = afoot ? ds / walkingSpeed : ds / mean
    sums.time += time
    sums.air += here.air * ds
    if (afoot) sums.walked += ds
    else {
      const needed = ((step.inertialMass * (to * to - v * v)) / (2 * ds) + here.resistance) * mean
      const share = clamp(needed / Math.max(1e-9, here.drive))
      sums.riderWork += share * here.rider * time
      sums.motorWork += share * here.motor * time
    }
    v = to
  }
  return { to: v, ...sums }
}

/** What is put in less where it went, J. */
function unaccounted(step: StepConditions, motion: Motion): number {
  const put = step.riderEfficiency * motion.riderWork + step.motorEfficiency * motion.motorWork + motion.walkingWork
  const gone = motion.air + motion.bearings + motion.braking + (step.rolling + step.weightAlong) * motion.length
  return put - gone - 0.5 * step.inertialMass * (motion.to ** 2 - motion.from ** 2)
}

describe('a piece ridden with all the drive', () => {
  const pieces = steps.flatMap(([name, step]) =>
    [2.5, 4, 6, 8.5, 11].flatMap((from) =>
      [3, 10].flatMap((length) => {
        const motion = moved({ from, length })
        return ride(step, motion) ? [[`${length} m ${name} from ${from} m/s`, step, motion] as const] : []
      }),
    ),
  )

  it('is ridden nearly always', () => expect(pieces.length).toBeGreaterThan(75))

  it.each(pieces)('agrees with the laws in small steps: %s', (_, step, motion) => {
    // A hundredth for a piece of a station's length in which the motor fades or the speed changes by a fifth, and a tenth of that for a third of it.
    const { length } = motion
    const exact = slowly(step, motion.from, length)
    const share = length === 3 ? 1.5e-3 : 1.5e-2
    within(motion.to, exact.to, share, 'speed')
    // A length by the speed half-way is short of the time by a twelfth of the square of the speed's change.
    within(motion.time, exact.time, share + 0.1 * (motion.to / motion.from - 1) ** 2, 'time')
    near(motion.riderWork, exact.riderWork, 4 * share * exact.riderWork + 0.1, 'rider')
    near(motion.motorWork, exact.motorWork, 8 * share * exact.motorWork + 2 * length, 'motor')
    near(motion.air, exact.air, 4 * share * Math.abs(exact.air) + 0.1, 'air')
    near(unaccounted(step, motion), 0, 2e-3 * Math.max(100, motion.riderWork + motion.motorWork), 'books')
    within(motion.electricPower + 1, electricalPower(motion.motorWork / motion.time, 1) + 1, 1e-9, 'electric')
    expect(motion).toMatchObject({ braking: 0, walkingWork: 0, state: 0 })
  })

  it.each(pieces)('is the midpoint rule, to the square of what Newton’s method leaves: %s', (_, step, motion) => {
    // m/2 (v₁² − v₀²) = L (P(w)/w − R(w)) at w half-way between v₀ and v₁, in the time L/w: Hairer, Nørsett and Wanner, II.7.
    const { from, to, length, time } = motion
    const w = 0.5 * (from + to)
    const { rider, motor, drive, resistance, air } = law(step, w)
    within(time, length / w, 1e-10, 'time')
    within(motion.bearings, length * (0.091 + 0.0087 * w), 1e-12, 'bearings')
    // A piece that ends within 1e-5 of what its forces say; a bend of a law within Newton's last step is passed in a straight line.
    const kinetic = 0.5 * step.inertialMass * (to * to - from * from)
    const most = 0.5 * step.inertialMass * w * w
    near(kinetic, length * (drive / w - resistance), 3e-4 * most, 'work')
    near(motion.riderWork, rider * time, 1e-5 * rider * time + 1e-9, 'rider')
    near(motion.motorWork, motor * time, 3e-3 * motor * time + 0.5, 'motor')
    near(motion.air, air * length, 1e-5 * Math.abs(air * length) + (step.sideWind === 0 ? 0 : 0.02), 'air')
    within(motion.settling + 1, 1 + settlingOf(step, w), 2e-3, 'how fast the speed settles')
  })

  it('is of third order in its length', () => {
    const step = road(0.03)
    const off = (length: number) => {
      const motion = moved({ from: 5, length })
      expect(ride(step, motion)).toBe(true)
      return Math.abs(motion.to - slowly(step, 5, length).to)
    }
    expect(off(2)).toBeLessThan(1e-4)
    expect(off(8) / off(4)).toBeGreaterThan(5)
  })

  it('does not swing where the speed settles within it: on a climb in long pieces', () => {
    const step = road(0.08)
    const motion = moved({ from: 4, length: 40 })
    const steady = slowly(step, 4, 4000).to
    const speeds = Array.from({ length: 12 }, () => {
      motion.change = 0
      expect(ride(step, motion)).toBe(true)
      motion.from = motion.to
      return motion.to
    })
    for (const [k, speed] of speeds.entries())
      if (k > 0) expect((speed - steady) / (speeds[k - 1]! - steady), `piece ${k}`).toBeGreaterThan(-0.1)
    within(speeds.at(-1)!, steady, 1e-3)
  })

  it('is not ridden where its speed changes by more than a quarter, or by more than one sets off with', () => {
    expect(ride(road(0), moved({ from: 1.5, length: 10 }))).toBe(false)
    expect(ride(road(0.2, { packPower: 0 }), moved({ from: 4, length: 10 }))).toBe(false)
    expect(ride(road(0, { settingOff: 0.2 }), moved({ from: 4, length: 10 }))).toBe(false)
    expect(ride(road(0, { settingOff: 0.9 }), moved({ from: 4, length: 5 }))).toBe(true)
  })

  it('is ridden up to a quarter of its speed more or less, and up to the acceleration of setting off, no further', () => {
    const bounds = (step: StepConditions, from: number, length: number) => {
      const motion = moved({ from, length })
      const ridden = ride(step, motion)
      const { to } = slowly(step, from, length)
      return { ridden, change: Math.abs(to / from - 1), gain: (to * to - from * from) / (2 * length) }
    }
    for (let length = 1; length < 12; length += 0.25) {
      const up = bounds(road(0, { settingOff: 9 }), 3, length)
      if (Math.abs(up.change - 0.25) > 0.02) expect(up.ridden, `${length} m faster`).toBe(up.change < 0.25)
      const down = bounds(road(0.2, { packPower: 0 }), 4, length)
      if (Math.abs(down.change - 0.25) > 0.02) expect(down.ridden, `${length} m slower`).toBe(down.change < 0.25)
    }
    for (let settingOff = 0.2; settingOff < 1.2; settingOff += 0.02) {
      const { ridden, gain } = bounds(road(0, { settingOff }), 4, 2)
      if (Math.abs(gain / settingOff - 1.01) > 0.02) expect(ridden, `${settingOff} m/s²`).toBe(gain < settingOff)
    }
  })

  it('leans to its end as exponential fitting has it, by how fast the speed settled before', () => {
    // Of v₁ − v₀ the share up to w is 1 / perGain with perGain = 2 / (1 + q / √(1 + q²)), q a sixth of the part of the way to rest.
    for (const settling of [0, 0.005, 0.02, 0.05, 0.059, 0.061, 0.1, 0.3, 1]) {
      const motion = moved({ from: 5, length: 10, settling })
      expect(ride(road(0.02), motion)).toBe(true)
      const w = 10 / motion.time
      const q = (10 * settling) / 6
      within((motion.to - 5) / (w - 5), 2 / (1 + q / Math.sqrt(1 + q * q)), 2e-4, `settling ${settling}`)
    }
  })

  it('comes to the same from any guess', () => {
    const [step, one] = [road(0.02), moved({ from: 5, length: 10 })]
    ride(step, one)
    for (const change of [-1, 0.3, 1.2]) {
      const other = moved({ from: 5, length: 10, change })
      expect(ride(step, other)).toBe(true)
      within(other.to, one.to, 1e-5)
      within(other.riderWork, one.riderWork, 1e-4)
    }
  })

  it.each(pieces)('is found anew from its own answer, to the last digits: %s', (_, step, motion) => {
    // Newton's method squares what is left: one step from 4e-6 off leaves less than 1e-9.
    const change = motion.to - motion.from
    const again = moved({ from: motion.from, length: motion.length, change })
    expect(ride(step, again)).toBe(true)
    const exact = { ...again }
    for (let k = 0; k < 3; k++) ride(step, Object.assign(exact, { settling: 0, change: exact.to - exact.from }))
    // In a side wind the slope of the air is a little high.
    within(again.to, exact.to, step.sideWind === 0 ? 1e-9 : 2e-8)
  })
})

describe('a piece held at a speed', () => {
  it('asks of rider and motor the share that it takes, and of the brakes what is too much', () => {
    for (const [gradient, from, to] of [
      [0, 5, 5],
      [0.01, 4, 4.2],
      [-0.06, 8, 8],
      [0, 6, 5],
    ] as const) {
      const step = road(gradient)
      const motion = moved({ from, to, length: 10 })
      expect(hold(step, motion)).toBe(true)
      const mean = 0.5 * (from + to)
      const { rider, motor, air } = law(step, mean)
      within(motion.time, 10 / mean, 1e-12)
      within(motion.air, air * 10, 1e-12)
      within(motion.bearings, 10 * (0.091 + 0.0087 * mean), 1e-12)
      near(unaccounted(step, motion), 0, 1e-9)
      near(motion.riderWork * motor, motion.motorWork * rider, 1e-6, 'rider and motor ease alike')
      within(motion.electricPower + 1, electricalPower(motion.motorWork / motion.time, 1) + 1, 1e-12)
      const brakes = gradient < 0 || to < from
      expect(motion.state).toBe(brakes ? braking : 0)
      expect(motion.braking > 0).toBe(brakes)
      expect(motion.riderWork > 0).toBe(!brakes)
    }
  })

  it('asks for nothing where nothing is needed', () => {
    // Downhill by as much as the bearings take.
    const at = (speed: number): StepConditions => ({ ...idleStep, weightAlong: -(0.091 + 0.0087 * speed) })
    const held = moved({ from: 5, to: 5, length: 10 })
    expect(hold(at(5), held)).toBe(true)
    expect(held).toMatchObject({ riderWork: 0, motorWork: 0, electricPower: 0, walkingWork: 0, state: 0 })
    near(held.braking, 0, 0)
    const walked = moved({ from: walkingSpeed, to: walkingSpeed, length: 10 })
    walk(at(walkingSpeed), walked)
    near(walked.braking + walked.walkingWork, 0, 0)
    expect(canRide(at(walkingSpeed))).toBe(true)
  })

  it('is none where the drive does not suffice', () => {
    const step = road(0.05)
    const needs = (speed: number) => law(step, speed).drive - speed * law(step, speed).resistance
    expect(needs(5)).toBeGreaterThan(0)
    expect(needs(6.5)).toBeLessThan(0)
    expect([5, 6.5].map((speed) => hold(step, moved({ from: speed, to: speed, length: 10 })))).toEqual([true, false])
  })
})

describe('a piece on foot', () => {
  it('is pushed up, at walking pace, or held back down', () => {
    for (const gradient of [0.2, -0.2]) {
      const step = road(gradient)
      const motion = moved({ from: walkingSpeed, to: walkingSpeed, length: 10 })
      walk(step, motion)
      near(motion.time, 8, 1e-12, '10 m at 4.5 km/h')
      near(unaccounted(step, motion), 0, 1e-9)
      expect(motion).toMatchObject({ riderWork: 0, motorWork: 0, electricPower: 0, state: walking })
      expect(motion.walkingWork > 0).toBe(gradient > 0)
      expect(motion.braking > 0).toBe(gradient < 0)
    }
    const down = moved({ from: walkingSpeed, to: 0, length: 10 })
    walk(road(0.2), down)
    near(down.time, 16, 1e-12, 'to a halt at half the pace')
    const slower = moved({ from: walkingSpeed, to: 0.75, length: 10 })
    walk(road(0.2), slower)
    near(slower.time, 10, 1e-12, 'the mean of 1.25 and 0.75 m/s is 1 m/s')
  })

  it('is where the drive can not hold walking pace; and where packs with charge could, that is told', () => {
    const steep = (change: Partial<StepConditions>) => road(0.2, { assistRatio: 1, ...change })
    expect([canRide(steep({ packPower: 500 })), canRide(steep({ packPower: 0 }))]).toEqual([true, false])
    const spent = steep({ packPower: 0 })
    expect(couldRide(spent)).toBe(true)
    expect(spent.packPower).toBe(0)
    expect(couldRide(steep({ riderPower: 50 }))).toBe(false)
    const { drive, resistance } = law(road(0), 2)
    near(spareDrive(road(0), 2), drive - 2 * (resistance + 112 * 0.6), 1e-9)
  })
})

describe('a step from station to station', () => {
  const free = { from: 1e4, to: 1e4 }
  const squared = (from: number, to: number) => ({ from: from * from, to: to * to })
  const cases: [string, StepConditions, number, { from: number; to: number }][] = [
    ['sets out on the flat', road(0), 0, free],
    ['sets out uphill', road(0.06), 0, free],
    ['sets out on foot', road(0.35), 0, free],
    ['sets out downhill', road(-0.06), 0, free],
    ['gathers speed', road(0), 2, free],
    ['meets a limit', road(-0.08), 7, squared(7.5, 7.5)],
    ['meets a falling limit', road(-0.02), 6, squared(8, 4.5)],
    ['meets a limit while setting out', road(0), 1, squared(2, 2)],
    ['leaves a rising limit', road(0.02), 3, squared(3, 7)],
    ['is held at a limit', road(-0.04), 5, squared(5, 5)],
    ['stops', road(0), 5.5, squared(5.5, 0)],
    ['stops from below', road(0.01), 4, squared(5.5, 0)],
    ['gets off', road(0.35), 2.2, free],
    ['walks on', road(0.35), walkingSpeed, free],
    ['loses speed on a ramp', road(0.2, { packPower: 0 }), 4, free],
    ['is slow under power', road(0.14), walkingSpeed * 1.01, free],
  ]

  it.each(cases)('agrees with the laws in small steps: it %s', (_, step, from, limit) => {
    const motion = moved({ from, length: 10 })
    stepOver(step, limit, motion)
    const exact = slowly(step, from, 10, limit)
    near(motion.to, exact.to, 0.02 * exact.to + 0.02, 'speed')
    within(motion.time, exact.time, 0.02, 'time')
    near(motion.riderWork, exact.riderWork, 0.03 * exact.riderWork + 25, 'rider, who eases at limits')
    near(unaccounted(step, motion), 0, 2e-3 * Math.max(200, motion.riderWork + motion.motorWork), 'books')
    expect(motion.to ** 2).toBeLessThanOrEqual(limit.to * (1 + 1e-9) + 1e-12)
    expect((motion.state & walking) !== 0).toBe(exact.walked > 0.5)
    for (const key of [
      'riderWork',
      'motorWork',
      'electricPower',
      'braking',
      'walkingWork',
      'bearings',
      'time',
    ] as const)
      expect(motion[key], key).toBeGreaterThanOrEqual(0)
  })

  it.each(cases)('comes to the same in two halves: it %s', (_, step, from, limit) => {
    const whole = moved({ from, length: 10 })
    stepOver(step, limit, whole)
    const middle = 0.5 * (limit.from + limit.to)
    const first = moved({ from, length: 5 })
    stepOver({ ...step, length: 5 }, { from: limit.from, to: middle }, first)
    const second = moved({ from: first.to, length: 5 })
    stepOver({ ...step, length: 5 }, { from: middle, to: limit.to }, second)
    near(second.to, whole.to, 0.02 * whole.to + 0.02, 'speed')
    within(first.time + second.time, whole.time, 0.02, 'time')
    near(first.electricPower * first.time + second.electricPower * second.time, whole.electricPower * whole.time, 60)
  })

  it('stands between two halts side by side no longer than a walk from one to the other', () => {
    const motion = moved({ from: 0, length: 10 })
    stepOver(road(0), { from: 0, to: 0 }, motion)
    // From rest to rest at half of 4.5 km/h.
    near(motion.time, 16, 1e-9)
    expect(motion.to).toBe(0)
    near(unaccounted(road(0), motion), 0, 1e-9)
  })

  it('stays on foot on a ramp up to a halt, though the drive would suffice for a slower pace', () => {
    const step = road(0.35)
    const motion = moved({ from: 1, length: 10 })
    stepOver(step, squared(1, 0), motion)
    expect(motion).toMatchObject({ to: 0, riderWork: 0, state: walking })
    const atPace = moved({ from: walkingSpeed, length: 10 })
    stepOver(step, squared(walkingSpeed, 0), atPace)
    expect(atPace).toMatchObject({ to: 0, riderWork: 0, state: walking })
  })

  it('keeps its account wherever in a step one gets off or meets a limit', () => {
    for (let from = 1.3; from < 3; from += 0.01) {
      const [step, motion] = [road(0.35), moved({ from, length: 10 })]
      stepOver(step, free, motion)
      near(unaccounted(step, motion), 0, 0.05, `off at ${from} m/s`)
      expect(motion.to).toBe(walkingSpeed)
    }
    for (let top = 5.51; top < 6.5; top += 0.01) {
      const [step, motion] = [road(-0.06), moved({ from: 5.5, length: 10 })]
      stepOver(step, squared(top, top), motion)
      near(unaccounted(step, motion), 0, 0.05, `a limit of ${top} m/s`)
      near(motion.to, Math.min(top, slowly(step, 5.5, 10).to), 2e-3)
    }
  })

  it('brakes no harder than the limit falls, and walks a crest no longer than it must', () => {
    const stop = moved({ from: 5.5, length: 10 })
    stepOver(road(0), squared(5.5, 0), stop)
    expect(stop.to).toBe(0)
    expect(stop.state & braking).toBe(braking)
    within(stop.time, 20 / 5.5, 1e-3, 'evenly to a halt')
    // A push of a few centimetres makes no walk.
    const rolls = moved({ from: 0, length: 10 })
    stepOver(road(-0.06, { riderPower: 0 }), free, rolls)
    expect(rolls.state & walking).toBe(0)
    expect(rolls.to).toBeGreaterThan(2)
  })
})

describe('the energy account', () => {
  it('balances over steps, a halt and a close, to what Newton’s method leaves', () => {
    const books = emptyBooks()
    const motion = moved({ from: 6, length: 10 })
    let [riderWork, motorWork] = [0, 0]
    const step = road(0.02, { length: 10 })
    books.kinetic = 0.5 * 112 * 36
    const before = books.kinetic
    for (let k = 0; k < 50; k++) {
      stepOver(step, { from: 1e4, to: k === 49 ? 0.01 : 1e4 }, motion)
      enter(books, step, motion)
      riderWork += motion.riderWork
      motorWork += motion.motorWork
      motion.from = motion.to
    }
    near(books.kinetic, 0.5 * 112 * 0.01, 1e-6)
    const braked = books.braking
    stand(books)
    expect(books.kinetic).toBe(0)
    near(books.braking - braked, 0.5 * 112 * 0.01, 1e-9, 'what is left at a halt is braked')
    close(books, step, { riderWork, motorWork })
    expect(books).toMatchObject({ riderWork, motorWork })
    near(books.climbing, step.weightAlong * 500, 1e-6)
    near(books.rolling, step.rolling * 500, 1e-6)
    near(books.drivetrain, 0.04 * riderWork + 0.06 * motorWork, 1e-6)
    const put = riderWork + motorWork + books.walkingWork + before
    const { air, rolling, bearings, drivetrain, climbing, braking: brakes } = books
    near(put - (air + rolling + bearings + drivetrain + climbing + brakes), 0, 1e-3 * put)
    expect(books.braking).toBeGreaterThan(100)
  })
})

describe('moist air', () => {
  it('has the density of a mixture of ideal gases at any warmth, in the table of vapour and beyond it', () => {
    // R of dry air and vapour: ISO 2533 and CIPM's molar mass of water; the table is off by less than 1 Pa of vapour.
    for (let celsius = -75; celsius < 80; celsius += 0.37) {
      const kelvin = celsius + 273.15
      const vapour = 0.9 * saturationPressure(celsius)
      const density = (100_000 - vapour) / (287.05287 * kelvin) + vapour / (461.495 * kelvin)
      near(airDensity(100_000, celsius, 0.9), density, 6e-6 * density, `at ${celsius} °C`)
    }
    for (const celsius of [-60, 0, 60, 60.25]) {
      const vapour = saturationPressure(celsius)
      const kelvin = celsius + 273.15
      const density = (100_000 - vapour) / (287.05287 * kelvin) + vapour / (461.495 * kelvin)
      within(airDensity(100_000, celsius, 1), density, 1e-12, `at the table's ${celsius} °C`)
    }
  })

  it('takes vapour from a straight line between quarters of a kelvin, from -60 to 60 °C', () => {
    const vapour = (celsius: number) =>
      // Of 1 Pa, all that is not dry air's, 1 − R_dry / R_vapour of it.
      (1 - airDensity(1, celsius, 1e-3) * 287.05287 * (celsius + 273.15)) / (1e-3 * (1 - 287.05287 / 461.495))
    for (const celsius of [-59.875, -20.125, 20.125, 59.125, 59.875, 60.125]) {
      const mean = 0.5 * (saturationPressure(celsius - 0.125) + saturationPressure(celsius + 0.125))
      within(vapour(celsius), mean, 2e-7, `at ${celsius} °C`)
    }
    for (const celsius of [-60.125, 60.375]) within(vapour(celsius), saturationPressure(celsius), 2e-7)
  })
})

describe('the motor', () => {
  it('loses by the square of its power up to 200 W, and in proportion beyond: there it stays at 79 %', () => {
    // The fit of 0.0013 /W: at 100 W it loses 13 W, at 200 W 52 W; 200 of 252 W are 79 %.
    near(electricalPower(100, 1), 113, 1e-9)
    near(electricalPower(200, 1), 252, 1e-9)
    near(electricalPower(400, 1), 504, 1e-9)
    near(electricalPower(100, 0.5), 106.5, 1e-9)
    for (const electrical of [0.5, 50, 113, 252, 400])
      within(electricalPower(mechanicalPower(electrical, 1), 1), electrical, 1e-12)
    expect(mechanicalPower(0, 1)).toBe(0)
  })
})

describe('the road of a route', () => {
  const route = courseRoute({
    length: 100,
    spacing: 20,
    latitude: 60,
    elevation: (d) => 500 + 0.3 * Math.min(d, 60),
    heading: (d) => (d < 50 ? Math.PI / 2 : Math.PI),
    crossings: [40],
  })
  const road = roadOf(route)

  it('has the length along the slope, its angle, and where it leads', () => {
    // A slope of 30 %: √(1 + 0.09) along it for each metre of the map.
    const along = Math.sqrt(1.09)
    const expected = [20 * along, 20 * along, 0, 20 * along, 20, 20, 0]
    road.length.forEach((length, i) => near(length, expected[i]!, 1e-9, `length ${i}`))
    near(road.level[0]!, 1 / along, 1e-12)
    near(road.rise[0]!, 0.3 / along, 1e-12)
    expect([road.level[4], road.rise[4], road.climb[4], road.climb[0]]).toEqual([1, 0, 0, 1])
    near(road.middle[0]!, 503, 1e-9)
    near(road.middle.at(-1)!, 518, 1e-9)
    near(road.east[0]!, 1, 1e-12)
    near(road.north[0]!, 0, 1e-12)
    near(road.north.at(-1)!, -1, 1e-12)
    expect([road.lowest, road.highest]).toEqual([500, 518])
  })

  it('has one gravity, of half-way and of its middle height, and is worked out once', () => {
    // 9.8192 m/s² at 60° on the ellipsoid (Somigliana, NIMA TR8350.2), less 3.086e-6 for each metre of height.
    near(road.gravity, 9.819169 - 3.086e-6 * 509, 2e-5)
    expect(roadOf(route)).toBe(road)
  })
})
