import { tick } from 'svelte'

/** Which answer is unfolded of those that fold: the one that was asked for last, until another is. */
export const unfolded = $state<{ answer: string | undefined }>({ answer: undefined })

/** Unfolds an answer in place of another; what was pressed stays under the hand. @param pressed what it stands in */
export async function unfold(answer: string, pressed: HTMLElement): Promise<void> {
  const top = () => pressed.getBoundingClientRect().top
  const before = top()
  unfolded.answer = answer
  await tick()
  scrollBy(0, top() - before)
}
