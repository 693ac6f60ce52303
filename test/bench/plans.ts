import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { addStop } from '../../src/model/plan/edit'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { hourly } from '../rides'
import { courseRoute } from '../routes'

/** 200 km of hills with bends, and a crossing half-way. */
export const hills = (): Route =>
  courseRoute({
    length: 200_000,
    elevation: (d) => 300 + 60 * Math.sin(d / 1100) + 4 * Math.sin(d / 140),
    heading: (d) => d / 32_000 + 0.8 * Math.sin(d / 200),
    curvature: (d) => 0.02 * Math.abs(Math.sin(d / 330)) ** 5,
    crossings: [110_000],
  })

/** The default plan with one stop; packs enough that the motor helps to the end. */
export function defaultDay(length: number): Plan {
  const plan = defaultPlan()
  plan.battery.packs = plan.battery.packs.map((pack) => ({ ...pack, capacityAh: 28 }))
  return addStop(plan, 0.45 * length, String).plan
}

/** All that a rider can reasonably ask at once: hourly weather at three places, lights by the dark, timetable, controls, stretches, two packs and a carried one. */
export function worstDay(length: number): Plan {
  const plan = defaultDay(length)
  const hour = (k: number) => `2027-06-${19 + Math.floor(k / 24)}T${String(k % 24).padStart(2, '0')}:00`
  const place = (share: number) => ({
    name: `at ${share}`,
    distance: share * length,
    hours: Array.from({ length: 36 }, (_, k) => ({
      time: hour(k),
      temperatureCelsius: 12 + 8 * Math.sin((k - 9) / 4) - 4 * share,
      windSpeed: 3 + 2 * Math.sin(k / 3 + share),
      windFromDegrees: (200 + 8 * k + 40 * share) % 360,
      rainPerHour: k % 9 === 4 ? 1.5 : 0,
      pressure: 101_000 + 20 * k,
    })),
  })
  const control = (share: number, k: number) => ({
    id: `control-${k}`,
    name: `Control ${k}`,
    distance: share * length,
    opens: { by: 'speed' as const, speed: 9 },
    closes: { by: 'speed' as const, speed: 4 },
  })
  plan.start = '2027-06-19T04:30'
  plan.weather.table = [0, 0.5, 1].map(place)
  plan.assist.lightsOn = 'dark'
  plan.controls = [0.2, 0.4, 0.6, 0.8].map(control)
  plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
  plan.sources.push(defaultCarried('source-2', 'Carried'))
  plan.stops.push({ ...defaultStop('stop-9', 'Mill', 0.7 * length, 'source-2'), fillFirst: 'most' })
  plan.stretches = [0.1, 0.3, 0.6].map((share, k) => ({
    id: `stretch-${k}`,
    name: '',
    start: share * length,
    end: (share + 0.1) * length,
    surface: 'gravel',
    shelter: 0.6,
    speedLimit: 8,
    assistRatio: 1,
  }))
  return plan
}
