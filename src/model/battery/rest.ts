import { chargeAtOpenCircuit, chemistries, openCircuitVoltage, type ChemistryId } from './chemistry'

/** Voltages between which one lies, V. */
export interface VoltageRange {
  least: number
  most: number
}

/**
 * Voltage of a full cell that has rested for an hour or more, V: apart from the end of its charge and from the end of the table of open-circuit voltages, which
 * was measured while a small current still flowed.
 *
 * LFP: 3.348 V by the data sheet of a cell of type 18650, as the header `dt-bindings/battery/battery.h` of the Zephyr kernel has it; up to 3.40 V an hour after the charge
 * and 3.39 V days later: common practice, no published source. NMC type: 4.1 V of the 4.2 V of the charge, common practice, no published source, to the end of the table.
 */
export const restedFull: Readonly<Record<ChemistryId, VoltageRange>> = {
  lfp: { least: 3.35, most: 3.4 },
  nmc: { least: 4.1, most: 4.194 },
}

/**
 * Voltage of one cell that has rested, V: by the table, and no higher than that of a full one.
 *
 * @param charge 0 to 1; held at the ends beyond
 */
export function restedVoltage(id: ChemistryId, charge: number): VoltageRange {
  const table = openCircuitVoltage(chemistries[id], charge)
  const { least, most } = restedFull[id]
  return { least: Math.min(table, least), most: Math.min(table, most) }
}

/**
 * Charges at which a cell may be that has rested at a voltage, 0 to 1. From the voltage on at which a full one may rest it may be full.
 *
 * @param voltage of the cell, V
 * @param aside by how much the table may be off either way, V
 */
export function chargesRestedAt(id: ChemistryId, voltage: number, aside: number): { least: number; most: number } {
  const chargeAt = (voltage: number) => chargeAtOpenCircuit(chemistries[id], voltage)
  const above = voltage + aside
  return { least: chargeAt(voltage - aside), most: above < restedFull[id].least ? chargeAt(above) : 1 }
}
