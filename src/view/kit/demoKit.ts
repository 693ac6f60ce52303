import type { KitItem } from '../../model/plan/day-schema'
import { withProvisions, type Provisions } from '../../model/plan/kit'
import { secondsPerHour } from '../../model/units'
import type { KitWords } from '../words/kit'

type DemoWords = KitWords['demo']
type Thing = Omit<KitItem, 'id' | 'name'> & { name: keyof DemoWords }

const thing = (
  name: Thing['name'],
  mass: number,
  count: number,
  place: KitItem['place'],
  mark: KitItem['mark'] = 'comes',
): Thing => ({ name, mass, count, place, mark, use: null })

const things: Thing[] = [
  thing('pannierBag', 0.95, 2, 'bike'),
  thing('lockAndChain', 1.6, 1, 'bike'),
  thing('pump', 0.16, 1, 'bike'),
  // Common practice, no source: one inner tube fewer is some 200 g.
  thing('innerTube', 0.2, 2, 'spare'),
  // A light that works without the bike's packs; that of the bike is part of its assist.
  { ...thing('frontAndRearLamp', 0.24, 1, 'bike'), draws: { power: 2, from: 'own', when: 'dark' } },
  thing('patchesAndLevers', 0.09, 1, 'spare'),
  thing('multitoolAndChainLink', 0.22, 1, 'spare'),
  thing('spareTyre', 0.62, 1, 'spare', 'unused'),
  thing('rainJacket', 0.34, 1, 'bike'),
  thing('rainTrousers', 0.29, 1, 'bike', 'unused'),
  thing('warmLayer', 0.38, 1, 'bike'),
  thing('secondPairOfShoes', 0.9, 1, 'bike', 'stays'),
  thing('firstAid', 0.26, 1, 'bike', 'unused'),
  thing('telephone', 0.19, 1, 'rider'),
  thing('helmet', 0.33, 1, 'rider'),
  thing('camera', 0.74, 1, 'bike', 'unused'),
  { ...thing('water', 0.75, 3, 'bike'), use: { by: 'time', rate: 0.5 / secondsPerHour }, covers: 'bottles' },
  { ...thing('bar', 0.06, 8, 'bike'), use: { by: 'time', rate: 0.045 / secondsPerHour }, covers: 'bars' },
  { ...thing('gel', 0.045, 8, 'rider'), use: { by: 'time', rate: 0.05 / secondsPerHour }, covers: 'gels' },
]

/**
 * A kit list to begin with: invented things of usual mass, with the food and water that the day asks for. Packs, chargers and carried packs are no part of
 * it: the plan has them.
 */
export const demoKit = (words: DemoWords, need: Provisions): KitItem[] =>
  withProvisions(
    things.map((item, i) => ({ ...item, id: `kit-${i + 1}`, name: words[item.name] })),
    need,
  )
