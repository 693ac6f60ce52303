import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { Fault } from './arguments'
import { chanceFor } from './chance'
import { learnFor } from './learn'
import { decideFor } from './decide'
import { roadFor } from './road'
import { forecastFor } from './run'

/** npm runs scripts in the project's folder; files are named from where it was called. */
const calledIn = process.env.INIT_CWD ?? '.'

const why: Record<string, string> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'reading it is not allowed',
  ERR_FS_FILE_TOO_LARGE: 'it is too large',
}

function read(file: string): Uint8Array {
  try {
    return readFileSync(resolve(calledIn, file))
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException
    throw new Fault(`“${file}” can't be read: ${why[code] ?? message}.`)
  }
}

function complain(error: unknown): void {
  const message = error instanceof Fault ? error.message : `A fault of this program: ${String(error)}`
  process.stderr.write(message.replace(/\s*\n\s*/g, ' ') + '\n')
  process.exitCode = 2
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // Who reads from a pipe may close it when they have enough.
  if (error.code !== 'EPIPE') complain(new Fault(`This can't be written: ${error.message}.`))
})

/** As npm's scripts name them. */
const doors: Record<string, typeof forecastFor> = {
  forecast: forecastFor,
  road: roadFor,
  chance: chanceFor,
  learn: learnFor,
  decide: decideFor,
}

try {
  const [door = '', ...words] = process.argv.slice(2)
  process.stdout.write(await doors[door]!(words, read))
} catch (error) {
  complain(error)
}
