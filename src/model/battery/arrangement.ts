import { cableResistance, type Cable } from './cable'
import { carriedPack, type CarriedSpec } from './carried'
import type { ChargeGoal } from './charge'
import type { Line } from './circuit'
import type { Converter } from './converter'
import { packAt, type PackSpec } from './pack'
import { transfer } from './transfer'
import type { TransferRun } from './transfer-run'

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
 * `transfer` in an arrangement.
 *
 * @param sourceCharge of the carried pack, 0 to 1: `chargeAfterStorage`, or what an earlier stop left
 * @param charge of the bike's pack, 0 to 1
 * @param every greatest time between two rows of `columns`, s; none are made where it is not given
 * @throws RangeError where the arrangement is refused, with the sentence
 */
export function runArrangement(
  arrangement: Arrangement,
  sourceCharge: number,
  charge: number,
  goal: ChargeGoal,
  every?: number,
): TransferRun {
  const { carried, pack, temperature } = arrangement
  const source = carriedPack(carried, temperature)
  return transfer(source, sourceCharge, lineOf(arrangement), packAt(pack, temperature), charge, goal, every)
}
