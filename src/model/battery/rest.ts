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
 * LFP: 3.348 V by the data sheet of an 18650 cell (IFR18650 E1600, as Zephyr's `dt-bindings/battery/battery.h` has it); 3.4005 V an hour after the charge and 3.389 V
 * after six days, cells of 180 Ah (log of an owner in the forum diyelectriccar.com, “Voltage Settle After Charge”). NMC type: 4.1 V of the 4.2 V of the charge (help of a
 * maker of chargers, help.evolveelectrics.com, “Cell voltages drop after the charge completes”, which has 3.35 V for LFP) to the end of the table.
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
