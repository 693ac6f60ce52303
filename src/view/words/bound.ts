import { formatIn, type Format, type Units } from '../format'

/** Words bound to the rider's units, made once for each, so that they may be asked for anywhere. */
export function bound<Words>(make: (format: Format) => Words): (units: Units) => Words {
  const made = { metric: make(formatIn('metric')), imperial: make(formatIn('imperial')) }
  return (units) => made[units]
}
