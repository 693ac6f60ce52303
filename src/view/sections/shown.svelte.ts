import { MediaQuery } from 'svelte/reactivity'
import { halves, sections, type Address, type Half } from './sections'

/** Where the plan stands not beside the story but among the sections. */
const narrow = new MediaQuery('(max-width: 60rem)')
export const isNarrow = (): boolean => narrow.current

export const isHalf = (address: string): address is Half => halves.some((half) => half === address)
const isSection = (address: string): address is Address => sections.some((section) => section === address)

/** What of the page stands below and beside the story, by its address. */
class Shown {
  section = $state<Address>(sections[0])
  half = $state<Half>('plan')
  /** Of both, what was asked for last: all that stands below the story on a narrow screen. */
  last = $state<Address>('plan')

  /** What stands below the story. */
  get below(): Address {
    return isNarrow() ? this.last : this.section
  }

  /** Shows what an address names; an unknown one changes nothing, and none is how the page begins. */
  take(address: string): void {
    if (isHalf(address)) this.half = this.last = address
    else if (isSection(address)) this.section = this.last = address
    else if (address === '') {
      this.section = sections[0]
      this.last = 'plan'
    }
  }

  /** Shows a part and notes it as a step of the browser's history, without going there. */
  open(address: Address): void {
    if (location.hash !== `#${address}`) history.pushState(null, '', `#${address}`)
    this.take(address)
  }
}

export const shown = new Shown()
