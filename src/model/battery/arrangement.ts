import { cableResistance, type Cable } from './cable'
import { carriedPack, type CarriedSpec } from './carried'
import type { Line } from './circuit'
import type { Converter } from './converter'
import { packAt, type PackSpec } from './pack'
import { Transfer } from './transfer'

/** What stands on the bench, from the carried pack to the bike's. */
export interface Arrangement {
  carried: CarriedSpec
  sourceCable: Cable
  converter: Converter
  outputCable: Cable
  pack: PackSpec
  /** Of all cells, °C. */
  temperature: number
}

/** Resistances of an arrangement's leads beside its converter. */
export function lineOf({ sourceCable, converter, outputCable }: Arrangement): Line {
  return { sourceCable: cableResistance(sourceCable), converter, outputCable: cableResistance(outputCable) }
}

/**
 * An arrangement ready to charge.
 *
 * @throws RangeError where the arrangement is refused, with the code
 */
export function transferIn(arrangement: Arrangement): Transfer {
  const { carried, pack, temperature } = arrangement
  return new Transfer(carriedPack(carried, temperature), lineOf(arrangement), packAt(pack, temperature))
}
