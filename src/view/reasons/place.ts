import { bandAt } from '../../model/chance/chances'
import type { Outcome } from '../../model/forecast/outcome'
import { clockOf } from '../clock'
import { formatIn, type Units } from '../format'
import { wordsIn } from '../words/words'
import { explainIn } from './explain'
import { chanceIn } from './chance'
import { chargedIn } from './story'
import type { Given, Row } from './why.svelte'

/** Why each figure of a place of the day is what it is. */
export function placeReasons({ row, chances }: Given['place'], outcome: Outcome, units: Units): Row {
  const { distance, duration, energy, percent, place } = formatIn(units)
  const { times, place: named } = wordsIn(units)
  const explain = explainIn(units)
  const clock = clockOf(outcome)
  const { columns, usable, leftAtStart, reserve, halts, started, electric } = outcome
  const { station, arrive, depart, onward, sailing, passage } = row
  const riding = columns.ridingTime[station]!
  const takenSoFar = columns.drained[station]!
  const before = halts.filter(
    (halt) => halt.station < station || (halt.station === station && started + halt.depart <= arrive),
  )
  const chargedSoFar = chargedIn(before)
  const latest = sailing?.latest ?? passage?.closes
  const margin = sailing?.margin ?? passage?.margin
  const band = chances === undefined || row.kind === 'start' ? undefined : bandAt(chances, row.distance)
  const chance = chances?.deadlines.find(({ kind, id }) =>
    kind === 'sailing' ? row.kind === 'crossing' && row.id === id : passage?.kind === kind && passage.id === id,
  )
  return {
    title: row.name.code === 'at' ? place(row.distance) : `${named(row.name)}, ${place(row.distance)}`,
    reasons: [
      ...(row.kind === 'start'
        ? []
        : [
            explain('placeArrive', {
              values: {
                start: clock(started),
                ridingSoFar: duration(riding),
                haltsSoFar: duration(arrive - started - riding),
              },
              result: clock(arrive),
            }),
          ]),
      ...(depart - arrive < 30
        ? []
        : [
            explain('placeLeave', {
              values: { arrive: clock(arrive), stay: duration(depart - arrive) },
              result: clock(depart),
            }),
          ]),
      ...(usable > 0
        ? [
            explain('placeCharge', {
              values: {
                leftAtStart: energy(leftAtStart),
                takenSoFar: energy(takenSoFar),
                chargedSoFar: energy(chargedSoFar),
                full: energy(usable),
              },
              result: percent(row.charge),
            }),
            explain('placeLeast', {
              values: {
                reserve: energy(reserve),
                takenOnward: energy(electric.drained - takenSoFar),
                chargedOnward: energy(chargedIn(halts) - chargedSoFar),
                full: energy(usable),
              },
              result: row.least > 1 ? '–' : percent(row.least),
            }),
          ]
        : []),
      ...(band === undefined
        ? []
        : [
            explain('placeBand', {
              values: { days: chanceIn(units).days },
              result: `${percent(band.low)} – ${percent(band.high)}`,
            }),
          ]),
      ...(latest === undefined || margin === undefined
        ? []
        : [
            explain('placeMargin', {
              values: { latest: clock(latest), arrive: clock(sailing === undefined ? passage!.arrive : arrive) },
              result: times.margin(margin),
            }),
          ]),
      ...(chance === undefined ? [] : [explain('placeChance', chanceIn(units).of(chance.chance))]),
      ...(onward === undefined || onward.length === 0
        ? []
        : [
            explain('placeOnward', {
              values: { to: place(row.distance + onward.length), from: place(row.distance) },
              result: distance(onward.length),
            }),
          ]),
    ],
  }
}
