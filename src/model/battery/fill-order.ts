import type { Pack } from './pack'

/** Which pack a charge fills first: as brings most energy in the time, the one in use, or the emptiest. */
export const fillChoices = ['most', 'in use', 'emptiest'] as const
export type FillFirst = (typeof fillChoices)[number]

/** A pack with its present charge, 0 to 1. */
export interface ChargedPack {
  pack: Pack
  charge: number
}

/**
 * The orders of filling a bike's packs that are worth a trial where as much energy as can be is to go in: the order of use first, which wins ties,
 * then each two packs first, the others after them from the emptiest. A nearly full pack at constant voltage takes little, so whichever is first may
 * bring most. With up to three packs these are all orders; with four and five unlike ones the best was always among them (200 random cases each).
 * Orders that come to the same are given once: like packs of the same charge can stand for each other, and full ones are passed over.
 *
 * @param packs in their order of use; at least one
 * @param active index of the pack in use
 * @returns indices of all packs in each order
 */
export function fillOrders(packs: readonly ChargedPack[], active: number): number[][] {
  const inUse = packs.map((_, k) => (active + k) % packs.length)
  const emptiest = inUse.filter((k) => packs[k]!.charge < 1).sort((a, b) => packs[a]!.charge - packs[b]!.charge)
  const full = inUse.filter((k) => !(packs[k]!.charge < 1))
  const orders: number[][] = [inUse]
  for (const first of emptiest) {
    for (const second of emptiest) {
      if (first === second) continue
      const order = [first, second, ...emptiest.filter((k) => k !== first && k !== second), ...full]
      if (!orders.some((other) => sameFilling(packs, other, order))) orders.push(order)
    }
  }
  return orders
}

/** Whether two orders fill like packs one after the other. */
function sameFilling(packs: readonly ChargedPack[], one: readonly number[], other: readonly number[]): boolean {
  const filled = (order: readonly number[]) => order.map((k) => packs[k]!).filter(({ charge }) => charge < 1)
  const others = filled(other)
  return filled(one).every((each, k) => alike(each, others[k]!))
}

/** Whether two packs take the same charge alike. */
function alike(one: ChargedPack, other: ChargedPack): boolean {
  const [a, b] = [one.pack, other.pack]
  return (
    one.charge === other.charge &&
    a.chemistry === b.chemistry &&
    a.temperature === b.temperature &&
    a.series === b.series &&
    a.capacity === b.capacity &&
    a.chargeResistance === b.chargeResistance &&
    a.floor === b.floor &&
    a.spec.capacityAh === b.spec.capacityAh &&
    a.spec.chargeCurrent === b.spec.chargeCurrent
  )
}
