import type { Parameter } from './parameters'

/** What the rider's day needs beyond `riderParameters`. */
export const needParameters = {
  wPrime: {
    quantity: 'energy',
    min: 1000,
    max: 50_000,
    default: 15_000,
  },
  grossEfficiency: {
    quantity: 'share',
    min: 0.13,
    max: 0.25,
    default: 0.19,
    fine: true,
  },
  carbohydratePerHour: {
    quantity: 'massPerHour',
    min: 0,
    max: 0.12,
    default: 0.06,
  },
  waterCool: {
    quantity: 'waterPerHour',
    min: 0,
    max: 1.5,
    default: 0.4,
    fine: true,
  },
  waterHot: {
    quantity: 'waterPerHour',
    min: 0,
    max: 2,
    default: 0.8,
    fine: true,
  },
  gelCarbohydrate: {
    quantity: 'carbohydrate',
    min: 0.005,
    max: 0.2,
    default: 0.025,
    fine: true,
  },
  barCarbohydrate: {
    quantity: 'carbohydrate',
    min: 0.005,
    max: 0.3,
    default: 0.04,
    fine: true,
  },
  barShare: {
    quantity: 'share',
    min: 0,
    max: 1,
    default: 0.5,
    fine: true,
  },
  bottle: {
    quantity: 'water',
    min: 0.2,
    max: 5,
    default: 0.75,
    fine: true,
  },
} satisfies Record<string, Parameter>

/** What a wet road changes. No measurement for bicycles could be read: judgement throughout. */
export const wetParameters = {
  rolling: {
    quantity: 'share',
    min: 1,
    max: 2,
    default: 1.1,
    fine: true,
  },
  braking: {
    quantity: 'share',
    min: 0.3,
    max: 1,
    default: 0.7,
    fine: true,
  },
  rain: {
    quantity: 'rain',
    min: 0.05,
    max: 5,
    default: 0.5,
    fine: true,
  },
  dryingTime: {
    quantity: 'duration',
    min: 600,
    max: 12 * 3600,
    default: 2 * 3600,
    fine: true,
  },
} satisfies Record<string, Parameter>

/** Numbers of a timetable. */
export const passageParameters = {
  boardBefore: {
    quantity: 'duration',
    min: 0,
    max: 48 * 3600,
    default: 600,
  },
  length: {
    quantity: 'duration',
    min: 0,
    max: 48 * 3600,
    default: 2400,
  },
  interval: {
    quantity: 'duration',
    min: 60,
    max: 86_400,
    default: 3600,
  },
} satisfies Record<string, Parameter>

export const controlParameters = {
  speed: {
    quantity: 'speed',
    min: 0.5,
    max: 30,
    default: 15 / 3.6,
  },
} satisfies Record<string, Parameter>
