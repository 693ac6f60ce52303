import type { FillFirst } from '../../../model/battery/fill-order'

/** In which order a halt fills the packs. */
export const fillOrders: Record<FillFirst, string> = {
  most: 'for most energy',
  'in use': 'the one in use first',
  emptiest: 'the emptiest first',
}
