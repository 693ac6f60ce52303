import { legsCsv } from '../model/export/csv'
import { simulate } from '../model/forecast/simulate'
import { legsOf } from '../model/readings/legs'
import { rowWordsIn } from '../view/words/rows'
import { Fault, numberOf, planHelp, readArguments, type Door } from './arguments'
import { sentencesOn } from './notes'
import { openAsked, type Read } from './open'
import { reportOf, written } from './report'
import { stationsOf } from './stations'
import { textOf } from './text'

const usage =
  'Usage: npm run -s forecast -- FILE [--plan PLAN.json] [--set path=value]... [--every METRES] [--json | --csv]'

const door: Door = {
  usage,
  help: `${usage}

${planHelp}  --json             everything, with the unit in each number's name
  --csv              the table of legs
  --every METRES     also the ride at each multiple of so many metres
`,
  options: { every: { type: 'string' }, csv: { type: 'boolean' } },
}

/**
 * The forecast that is asked for, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function forecastFor(words: readonly string[], read: Read): Promise<string> {
  const request = readArguments(words, door)
  if (request === 'help') return door.help
  const { given } = request
  if (given.has('json') && given.has('csv')) throw new Fault('Only one of --json and --csv can be written.')
  const every = given.get('every')
  if (every !== undefined && given.has('csv'))
    throw new Fault('--csv is the table of legs; the stations of --every come with --json.')
  const metres =
    every === undefined
      ? undefined
      : numberOf('every', every, 'a number of metres above 0', (value) => value > 0 && value < Infinity)
  const { plan, reading } = await openAsked(request, read)
  const outcome = simulate(reading.route, plan)
  if (given.has('csv')) return legsCsv(outcome, legsOf(outcome), rowWordsIn('metric'))
  const report = reportOf(reading, outcome)
  const stations = metres === undefined ? undefined : stationsOf(outcome, metres)
  if (given.has('json')) return written(stations === undefined ? report : { ...report, stations })
  return textOf(report, sentencesOn(reading, outcome), stations)
}
