import { describe, expect, it } from 'vitest'
import { passagesFor } from '../../src/model/readings/passages'
import type { Sector } from '../../src/model/readings/wind'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { WeatherHour } from '../../src/model/plan/day-schema'
import type { Plan } from '../../src/model/plan/schema'
import { answerSentence, verdictInShort } from '../../src/view/answer/sentence'
import { lightOfDay } from '../../src/view/day/light'
import { petals, windSentences } from '../../src/view/day/wind'
import { readSpan } from '../../src/view/sheet/span'
import { cellText, weatherColumns, withCell, withTime } from '../../src/view/sheet/weatherCells'
import { dayWordsIn } from '../../src/view/words/day'
import { foldedWordsIn } from '../../src/view/words/folded'
import { wordsIn } from '../../src/view/words/words'
import { courseRoute } from '../routes'

const { times } = wordsIn('metric')

const route = courseRoute({ length: 30_000, crossings: [20_000] })
function answer(change: (plan: Plan) => void): string {
  const plan = defaultPlan()
  plan.zone = 'Europe/Berlin'
  change(plan)
  const outcome = simulate(route, plan)
  return answerSentence(outcome, passagesFor(outcome), 'metric')
}
const gate = (name: string, time: string): Plan['controls'][number] => ({
  id: name,
  name,
  distance: 15_000,
  opens: null,
  closes: { by: 'clock', day: 0, time },
})

describe('the answer', () => {
  it('speaks of the charge alone where all is in time', () => {
    expect(answer(() => {})).toMatch(/^The charge lasts: \d+ %/)
    expect(answer((plan) => void (plan.controls = [gate('Mill Gate', '20:00')]))).toMatch(/^The charge lasts/)
  })

  it('says the first control that is missed before all else, then the charge', () => {
    const said = answer((plan) => void (plan.controls = [gate('Mill Gate', '06:10'), gate('Later', '06:05')]))
    expect(said).toMatch(/^You miss the control Mill Gate by \d+ min\. The charge lasts: /)
    expect(answer((plan) => void (plan.controls = [gate('Control 1', '06:10')]))).toMatch(/^You miss Control 1 by /)
  })

  it('says first that it is for flat ground where the climbs are not known', () => {
    const flat = simulate({ ...route, elevationKnown: 'none' }, { ...defaultPlan(), zone: 'Europe/Berlin' })
    expect(answerSentence(flat, [], 'metric')).toMatch(/^On flat ground the charge lasts: \d+ %/)
    expect(verdictInShort(flat, 'metric')).toMatch(/^Lasts: \d+ % left, finish \d\d:\d\d, on flat ground$/)
    const late = { ...flat, plan: { ...flat.plan, goal: 60 } }
    expect(answerSentence(late, passagesFor(late), 'metric')).toMatch(
      /^On flat ground you miss your goal of .* The charge/,
    )
  })

  it('says by how much the goal is missed, never rounded to nothing', () => {
    const finish = simulate(route, { ...defaultPlan(), zone: 'Europe/Berlin' }).columns.time.at(-1)!
    expect(answer((plan) => void (plan.goal = finish - 2))).toMatch(/^You miss your goal of .* by 1 min\. /)
    expect(answer((plan) => void (plan.goal = finish + 2))).toMatch(/^The charge/)
  })
})

describe('words of the day', () => {
  it('round margins to the safe side', () => {
    expect(times.margin(119)).toBe('1 min to spare')
    expect(times.margin(0)).toBe('0 min to spare')
    expect(times.margin(-1)).toBe('1 min too late')
    expect(times.margin(-3661)).toBe('1 h 02 min too late')
    expect(times.margin(undefined)).toBe('')
  })

  it('name the zones of the open sea by their offset', () => {
    expect(times.zone('Etc/GMT+10')).toBe('UTC−10')
    expect(times.zone('Etc/GMT-3')).toBe('UTC+3')
    expect(times.zone('Europe/Berlin')).toBe('Europe/Berlin')
  })

  it.each([
    ['11:30', 41_400],
    ['11 h 30 min', 41_400],
    ['11h', 39_600],
    ['11,5', 41_400],
    ['', null],
  ])('a goal of %j is %s s', (text, value) => {
    expect(readSpan(text, foldedWordsIn('metric').controls)).toEqual({ ok: true, value })
  })

  it.each(['soon', '11:75', '0', '800'])('a goal of %j is refused with a sentence', (text) => {
    expect(readSpan(text, foldedWordsIn('metric').controls)).toMatchObject({
      ok: false,
      sentence: expect.stringMatching(/\.$/),
    })
  })
})

describe('the wind', () => {
  const { wind: words } = dayWordsIn('metric')
  const wind = (number: number, ahead: number, behind: number, against: number) => ({
    number,
    wind: { against, ahead, behind },
  })

  it('names the legs into it, the hardest, and those before it', () => {
    const winds = [wind(1, 0.9, 0, 3), wind(2, 0.8, 0, 6), wind(3, 0.7, 0, 4), wind(4, 0, 1, -5), wind(5, 1, 0, 2)]
    expect(windSentences(winds, words)).toEqual([
      'Into the wind: legs 1 to 3 and 5; the hardest is leg 2, 6.0 m/s against you at 10 m height.',
      'Wind behind: leg 4.',
    ])
    expect(windSentences(winds.slice(1, 2), dayWordsIn('imperial').wind)).toEqual([
      'Leg 2 is into the wind, 13 mph against you at 33 ft height.',
    ])
    expect(windSentences([], words)).toEqual(['No leg is into the wind for more than half of its length.'])
  })

  const calm = { against: 0, ahead: 0, behind: 0 }

  it('draws a petal for each direction that is ridden, by what the wind does there', () => {
    const rose: Sector[] = Array.from({ length: 16 }, (_, k) => ({ degrees: 22.5 * k, length: 0, wind: calm }))
    Object.assign(rose[0]!, { length: 4000, wind: { against: 5, ahead: 1, behind: 0 } })
    Object.assign(rose[8]!, { length: 1000, wind: { against: -5, ahead: 0, behind: 1 } })
    const drawn = petals(rose)
    expect(drawn.map(({ wind }) => wind)).toEqual(['against', 'behind'])
    expect(drawn[0]!.path, 'north is up').toContain('L -0.1951 -0.9808')
    expect(drawn[1]!.path, 'a quarter of the way is half the radius').toContain('A 0.5000')
    expect(petals(Array.from({ length: 16 }, () => ({ degrees: 0, length: 0, wind: calm })))).toEqual([])
  })
})

describe('the light of the day', () => {
  it('covers the whole day in order, dark at night', () => {
    const plan = { ...defaultPlan(), zone: 'Europe/Berlin', start: '2027-06-19T03:40' }
    const { spans, sentences } = lightOfDay(simulate(route, plan), 'metric')
    expect(spans[0]).toMatchObject({ light: 'dark', from: 0 })
    expect(spans.map(({ light }) => light)).toEqual(['dark', 'twilight', 'day'])
    expect(spans.at(-1)!.to).toBe(1)
    expect(sentences.join(' ')).toMatch(
      /^Sunrise at the start 0\d:\d\d, sunset .* are ridden in twilight or dark.*carry lights/,
    )
  })
})

describe('cells of the weather table', () => {
  const hour: WeatherHour = {
    time: '2027-06-19T07:00',
    temperatureCelsius: 12,
    windSpeed: 5,
    windFromDegrees: 225,
    rainPerHour: null,
    pressure: 101_200,
  }
  const column = (key: string) => weatherColumns.find((column) => column.key === key)!
  const place = { name: 'Start', distance: 0, hours: [hour, { ...hour, time: '2027-06-19T08:00' }] }

  it('show and read the rider’s units, and directions by letters', () => {
    expect(weatherColumns.map((column) => cellText(column, hour, 'metric'))).toEqual(['12', '5', 'SW', '', '1012'])
    expect(cellText(column('temperatureCelsius'), hour, 'imperial')).toBe('54')
    expect(withCell(column('windFromDegrees'), hour, 'nw', 'metric')).toMatchObject({ value: { windFromDegrees: 315 } })
    expect(withCell(column('rainPerHour'), hour, '1,5', 'metric')).toMatchObject({ value: { rainPerHour: 1.5 } })
    expect(withCell(column('pressure'), hour, '', 'metric')).toMatchObject({ value: { pressure: null } })
    expect(withTime(place, 0, '7.30', foldedWordsIn('metric').hourly)).toMatchObject({
      value: { time: '2027-06-19T07:30' },
    })
  })

  it.each([
    [withCell(column('temperatureCelsius'), hour, 'warm', 'metric'), '“warm” under “Air” is not a number.'],
    [withCell(column('windFromDegrees'), hour, 'up', 'metric'), '“up” is no direction: write degrees or NW.'],
    [withCell(column('windSpeed'), hour, '90', 'metric'), '“90” under “Wind” is outside 0 to 70 m/s.'],
    [withTime(place, 0, '8:00', foldedWordsIn('metric').hourly), 'There is a row for 2027-06-19 08:00 already.'],
    [
      withTime(place, 0, 'noon', foldedWordsIn('metric').hourly),
      '“noon” is not a time such as 14:00 or 2027-06-19 14:00.',
    ],
  ])('refuse with one sentence', (read, sentence) => {
    expect(read).toEqual({ ok: false, sentence })
  })
})
