import { legsCsv } from '../model/export/csv'
import { simulate } from '../model/forecast/simulate'
import { legsOf } from '../model/readings/legs'
import { readRoute } from '../model/route/read'
import { wordsIn } from '../view/words/words'
import { Fault, help, readArguments } from './arguments'
import { sentencesOn } from './notes'
import { reportOf, written } from './report'
import { planWith } from './settings'
import { stationsOf } from './stations'
import { textOf } from './text'

/**
 * The forecast that is asked for, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function forecastFor(words: readonly string[], read: (file: string) => Uint8Array): Promise<string> {
  const request = readArguments(words)
  if (request === 'help') return help
  const { file, form, every } = request
  const readText = (name: string) => new TextDecoder().decode(read(name))
  const plan = planWith(request.plan === undefined ? undefined : readText(request.plan), request.settings, readText)
  const reading = await readRoute(read(file), file.replace(/^.*[/\\]/, ''))
  if (!reading.ok) throw new Fault(wordsIn('metric').route.fault(reading.fault))
  const outcome = simulate(reading.route, plan)
  if (form === 'csv') return legsCsv(outcome, legsOf(outcome), wordsIn('metric'))
  const report = reportOf(reading, outcome)
  const stations = every === undefined ? undefined : stationsOf(outcome, every)
  if (form === 'json') return written(stations === undefined ? report : { ...report, stations })
  return textOf(report, sentencesOn(reading, outcome), stations)
}
