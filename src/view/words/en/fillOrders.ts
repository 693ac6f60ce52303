import type { FillFirst } from '../../../model/battery/fill-order'

/** In which order a halt fills the packs. */
export const fillOrders: Record<FillFirst, string> = {
  most: 'in the order that brings most',
  'in use': 'the one in use first',
  emptiest: 'the emptiest first',
}
