import type { Deadline } from '../../../model/chance/deadlines'
import type { UncertainFigure } from '../../../model/chance/figures'
import type { PlanBelief } from '../../../model/plan/schema'
import type { Format } from '../../format'
import { cut } from '../cut'
import { ofHundred } from './sure'

/** What a figure is called among those that drive the spread, and what can be done about it. */
const figures: Record<UncertainFigure, { name: string; todo: string }> = {
  learnt: { name: 'what your rides told', todo: 'record another ride, with the charge at its start and end' },
  'weather.windSpeed': { name: 'wind', todo: 'ask the forecast again the evening before' },
  'weather.windFromDegrees': { name: 'where the wind is from', todo: 'ask the forecast again the evening before' },
  'weather.temperatureCelsius': { name: 'temperature', todo: 'ask the forecast again the evening before' },
  'rider.power': { name: 'your power', todo: 'test it on a climb, or measure it on a ride' },
  'rider.fade': { name: 'how you tire over the day', todo: 'ride one long day, and let it tell' },
  'rider.smallHalts': { name: 'small halts', todo: 'count them on a ride' },
  'rider.mass': { name: 'your mass', todo: 'weigh yourself, dressed to ride' },
  'bike.mass': { name: 'the bike’s mass', todo: 'weigh the bike' },
  'bike.luggage': { name: 'luggage', todo: 'weigh what comes along' },
  'bike.dragArea': { name: 'drag of the air', todo: 'coast down a known hill, or let a ride tell' },
  'bike.rolling': { name: 'tyres', todo: 'look up their rolling resistance, and set their pressure' },
  'assist.lossFactor': { name: 'losses of the motor', todo: 'read the charge before and after a ride' },
  'pack.health': { name: 'what the packs still hold', todo: 'test a pack from full to empty' },
  'stop.duration': { name: 'length of stops', todo: 'set yourself a time to leave' },
  ascent: { name: 'the ascent', todo: 'ask for a file with better heights' },
}

/** Of what drives the spread. */
export const driversIn = ({ duration, number, percent, place }: Format) => ({
  title: 'How sure, and why',
  ofHundred,
  reserve: 'The charge stays above your reserve',
  motor: 'The motor helps to the finish',
  /** What has to be reached by a time. @param name of a control @param latest clock */
  deadline: ({ kind, distance, latest }: Deadline, name: string, clock: string): string =>
    ({
      goal: `Your goal, ${clock}`,
      ridingGoal: `Your goal for riding, ${duration(latest)}`,
      sailing: `The sailing at ${place(distance, 0)}, by ${clock}`,
      control: `${cut(name, 25)}, by ${clock}`,
    })[kind],
  figures,
  answers: { left: 'What decides how much is left at the finish', time: 'What decides the finish time' },
  share: (share: number, error: number) => `${number(100 * share)} ± ${percent(error)}`,
  todo: 'What would make it surer',
  known: 'How well you know it',
  choices: {
    measured: 'I measured it',
    usual: 'As is usual',
    guess: 'A guess',
  } satisfies Record<PlanBelief['known'] | 'usual', string>,
  ahead: 'How far ahead the weather was forecast',
  daysAhead: (days: number) =>
    days === 0 ? 'Forecast of the day' : days === 1 ? 'Forecast a day ahead' : `Forecast ${number(days)} days ahead`,
  waits: (share: number | undefined) => (share === undefined ? 'One moment.' : `One moment, ${percent(share)} done.`),
  failed: 'This could not be worked out.',
  sure: 'Nothing that is not known makes a difference here.',
  about:
    'Of all that differs from day to day, how much comes from each, ± its standard error. What you measured may be off by 0.4 of what is usual, a guess by 1.75 times as much: judgements.',
  /** Where rides were learnt from. */
  widened:
    'What your rides told is taken up to 2.5 times as wide as they alone say: so wide, the bands held 18 of 22 real rides, without it 15.',
})
