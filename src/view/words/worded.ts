/** Words for each code of a union: made of what comes with the code. A code without words does not compile. */
export type WordsOf<Said extends { code: string }> = {
  [Code in Said['code']]: (said: Extract<Said, { code: Code }>) => string
}

/** From what the model says, a code with its values, to a text. */
export const worded =
  <Said extends { code: string }>(words: WordsOf<Said>) =>
  (said: Said): string =>
    words[said.code as Said['code']](said as never)
