import { tick } from 'svelte'

/** Leads the keyboard to the name of what stands unfolded in a list, once it is there. */
export async function leadToName(list: () => HTMLElement | undefined): Promise<void> {
  await tick()
  const name = list()?.querySelector<HTMLInputElement>('[aria-expanded=true] + * :is(input)')
  name?.focus()
  name?.select()
}
