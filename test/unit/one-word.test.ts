import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

/** Words of the page that were given up for plainer ones, or for the one that is used elsewhere. */
const givenUp = /range left|take over['"`]|looked at['"`]|\bbinds\b(?!:)/i

describe('words of the page', () => {
  it('call one thing by one word, and none by a word that was given up', () => {
    const folder = 'src/view/words/en'
    const lines = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .flatMap((file) => readFileSync(join(folder, file), 'utf8').split('\n'))
    const said = lines.filter((line) => !/^\s*(\/?\*|\/\/|import )/.test(line))
    expect(said.some((line) => line.includes("'Reach'"))).toBe(true)
    expect(said.filter((line) => givenUp.test(line))).toEqual([])
  })
})
