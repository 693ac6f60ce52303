import type { KitItem } from './day-schema'
import { secondsPerHour } from '../units'

const thing = (
  name: string,
  mass: number,
  count: number,
  place: KitItem['place'],
  mark: KitItem['mark'] = 'comes',
): Omit<KitItem, 'id'> => ({ name, mass, count, place, mark, use: null })

const things: Omit<KitItem, 'id'>[] = [
  thing('Pannier bag', 0.95, 2, 'bike'),
  thing('Lock and chain', 1.6, 1, 'bike'),
  thing('Mains charger', 0.75, 1, 'bike'),
  thing('Pump', 0.16, 1, 'bike'),
  // Common practice, no source: one inner tube fewer is some 200 g.
  thing('Inner tube', 0.2, 2, 'spare'),
  thing('Patches and levers', 0.09, 1, 'spare'),
  thing('Multi-tool and chain link', 0.22, 1, 'spare'),
  thing('Spare tyre, folding', 0.62, 1, 'spare', 'unused'),
  thing('Rain jacket', 0.34, 1, 'bike'),
  thing('Rain trousers', 0.29, 1, 'bike', 'unused'),
  thing('Warm layer', 0.38, 1, 'bike'),
  thing('Second pair of shoes', 0.9, 1, 'bike', 'stays'),
  thing('Front and rear lamp', 0.24, 1, 'bike'),
  thing('First aid', 0.26, 1, 'bike', 'unused'),
  thing('Telephone', 0.19, 1, 'rider'),
  thing('Helmet', 0.33, 1, 'rider'),
  thing('Camera', 0.74, 1, 'bike', 'unused'),
  // Common practice, no source: two packs fewer and their mounts are about 10 kg.
  thing('Carried battery pack', 4.3, 2, 'bike', 'stays'),
  thing('Mount for a carried pack', 0.7, 2, 'bike', 'stays'),
  { ...thing('Water, bottle of 0.75 l', 0.75, 3, 'bike'), use: { by: 'time', rate: 0.5 / secondsPerHour } },
  { ...thing('Bar', 0.06, 8, 'bike'), use: { by: 'time', rate: 0.045 / secondsPerHour } },
  { ...thing('Gel', 0.045, 8, 'rider'), use: { by: 'time', rate: 0.05 / secondsPerHour } },
]

/** A kit list to begin with: invented things of usual mass, for a day of 12 hours. */
export const demoKit: readonly KitItem[] = things.map((item, i) => ({ id: `kit-${i + 1}`, ...item }))
