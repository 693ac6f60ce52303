import {
  blockParameters,
  cableParameters,
  carriedParameters,
  converterParameters,
  readingParameters,
  socketParameters,
  trialParameters,
} from './bench-parameters'
import { controlParameters, needParameters, passageParameters, wetParameters } from './day-parameters'
import {
  assistParameters,
  batteryParameters,
  bikeParameters,
  crossingParameters,
  kneeParameters,
  legParameters,
  mainsParameters,
  packParameters,
  pedallingParameters,
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
  pedalling: pedallingParameters,
  knee: kneeParameters,
  assist: assistParameters,
  weather: weatherParameters,
  wet: wetParameters,
  battery: batteryParameters,
  pack: packParameters,
  mains: mainsParameters,
  socket: socketParameters,
  carried: carriedParameters,
  block: blockParameters,
  converter: converterParameters,
  cable: cableParameters,
  trial: trialParameters,
  reading: readingParameters,
  stop: stopParameters,
  stretch: stretchParameters,
  crossing: crossingParameters,
  passage: passageParameters,
  control: controlParameters,
  legs: legParameters,
}
export type Catalogue = typeof catalogue
