import type { KitItem } from '../../../model/plan/day-schema'
import type { Format } from '../../format'

/** Of the kit list. */
export const kitIn = ({ volume }: Format) => ({
  /** Also in the list as it leaves and comes back as a file. */
  marks: {
    comes: 'comes along',
    stays: 'stays home',
    unused: 'came back unused',
  } satisfies Record<KitItem['mark'], string>,
  /** The kit list to begin with. */
  demo: {
    pannierBag: 'Pannier bag',
    lockAndChain: 'Lock and chain',
    mainsCharger: 'Mains charger',
    pump: 'Pump',
    innerTube: 'Inner tube',
    patchesAndLevers: 'Patches and levers',
    multitoolAndChainLink: 'Multi-tool and chain link',
    spareTyre: 'Spare tyre, folding',
    rainJacket: 'Rain jacket',
    rainTrousers: 'Rain trousers',
    warmLayer: 'Warm layer',
    secondPairOfShoes: 'Second pair of shoes',
    frontAndRearLamp: 'Front and rear lamp',
    firstAid: 'First aid',
    telephone: 'Telephone',
    helmet: 'Helmet',
    camera: 'Camera',
    carriedBatteryPack: 'Carried battery pack',
    mountForACarriedPack: 'Mount for a carried pack',
    water: `Water, bottle of ${volume(0.75)}`,
    bar: 'Bar',
    gel: 'Gel',
  },
  places: {
    bike: 'on the bike',
    rider: 'on the rider',
    spare: 'as a spare',
  } satisfies Record<KitItem['place'], string>,
})
