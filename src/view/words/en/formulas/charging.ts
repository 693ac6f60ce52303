import { citations } from '../citations'
import type { Formulas } from './formula'

const simulated = 'Two charges, minute by minute, all else alike.'

/** Of charging from a carried pack. */
export const chargingFormulas = {
  stored: {
    title: 'Into the pack',
    formula: '{sourceOut} − {sourceHeat} − {leadHeat} − {converterLoss} − {packHeat} − {notBack}',
    source: `Both packs in time: ${citations.bogacki}.`,
    heading: 'current',
  },
  fuse: {
    title: 'Fuse',
    formula: 'the smallest size of at least 1.25 times the load that the cable can carry',
    source: 'NEC 210.20 for the 1.25; IEC 60364-4-43 for the cable.',
    heading: 'chargingSources',
  },
  leadDrop: {
    title: 'Voltage lost',
    formula: '{current} × {resistance}',
    source: 'Ohm’s law; resistance of copper, there and back, by IEC 60228, class 5.',
    heading: 'chargingSources',
  },
  leadHeat: { title: 'Heat', formula: '{current} × {drop}', source: 'Joule’s law.', heading: 'chargingSources' },
  flowOut: {
    title: 'Out of the carried pack',
    formula: '{volts} × {current}',
    source: 'Power is voltage times current.',
    heading: 'current',
  },
  flowIn: {
    title: 'Into the bike’s pack',
    formula: '{volts} × {current}',
    source: 'Power is voltage times current.',
    heading: 'current',
  },
  flowConverter: {
    title: 'Efficiency of the converter, standby in it',
    formula: '{given} / {drawn}',
    source: 'Shape over the load: judgement; its best: as stated.',
    heading: 'chargingSources',
  },
  changeGain: { title: 'More in the stop', formula: '{with} − {asItIs}', source: simulated, heading: 'worth' },
  changeSooner: { title: 'Sooner', formula: '{asItIs} − {with}', source: simulated, heading: 'worth' },
  minuteWorth: {
    title: 'For one more',
    formula: '{drain} × {oneMore} / {storing}',
    source: 'The route’s mean drain.',
    heading: 'worth',
  },
  spare: {
    title: 'Above the reserve',
    formula: '{leftAtFinish} − {reserve}',
    source: 'The whole day, ridden so.',
    heading: 'worth',
  },
  reach: {
    title: 'Reach',
    formula: 'the way from the start until the charge is down to the reserve',
    source: 'The whole day, ridden so.',
    heading: 'worth',
  },
} as const satisfies Formulas
