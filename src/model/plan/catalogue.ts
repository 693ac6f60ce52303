import { cableParameters, carriedParameters, converterParameters, socketParameters } from './bench-parameters'
import { controlParameters, needParameters, passageParameters, wetParameters } from './day-parameters'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  crossingParameters,
  legParameters,
  mainsParameters,
  packParameters,
  riderParameters,
  stopParameters,
  stretchParameters,
  weatherParameters,
} from './parameters'

/** All numbers of the plan by their groups. */
export const catalogue = {
  rider: riderParameters,
  needs: needParameters,
  bike: bikeParameters,
  assist: assistParameters,
  weather: weatherParameters,
  wet: wetParameters,
  battery: batteryParameters,
  pack: packParameters,
  mains: mainsParameters,
  socket: socketParameters,
  carried: carriedParameters,
  converter: converterParameters,
  cable: cableParameters,
  stop: stopParameters,
  stretch: stretchParameters,
  crossing: crossingParameters,
  passage: passageParameters,
  control: controlParameters,
  legs: legParameters,
}
export type Catalogue = typeof catalogue
