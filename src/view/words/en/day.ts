import type { ToRideOn } from '../../../model/studies/ride-on'
import type { Band, Estimate } from '../../../model/chance/spread'
import type { Outcome } from '../../../model/forecast/outcome'
import type { DayTimes } from '../../../model/readings/facts'
import type { Climb } from '../../../model/readings/climbs'
import type { DaylightSummary } from '../../../model/readings/light'
import type { Capacity, WBalance } from '../../../model/readings/rider'
import type { SheetRow } from '../../../model/readings/sheet'
import type { SunDay } from '../../../model/world/daylight'
import type { Provision } from '../../../model/readings/needs'
import type { PlaceName } from '../../../model/place-name'
import { litresPerFluidOunce, secondsPerHour } from '../../../model/units'
import { distanceUnit, inDistance, type Format } from '../../format'
import { chargingIn } from './charging'
import { ofHundred } from './sure'
import { times, type Clock } from './times'
import { climbsOf } from './climbs'

/** `2, 5 to 8 and 11`: ascending numbers, runs of three and more joined. */
function listed(numbers: readonly number[]): string {
  const runs: { from: number; to: number }[] = []
  for (const number of numbers) {
    const run = runs.at(-1)
    if (run !== undefined && number === run.to + 1) run.to = number
    else runs.push({ from: number, to: number })
  }
  const parts = runs.flatMap(({ from, to }) =>
    to - from >= 2 ? [`${from} to ${to}`] : to > from ? [`${from}`, `${to}`] : [`${from}`],
  )
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)!}`
}

const tied = (text: string): string => text.replaceAll(' ', '\u00a0')

/** Of the day, on the screen and on paper. */
export const dayIn = (format: Format) => {
  const { distance, duration, energy, height, measure, number, percent, place, units, volume } = format
  const kilojoules = (joules: number) => `${number(joules / 1000)} kJ`
  /** Of carbohydrate, kg, in grams in all units (`format.ts`). */
  const grams = (mass: number) => number(1000 * mass)
  /** What must be left here to reach the finish at the reserve by the plan's charging. */
  const least = ({ least }: SheetRow): string =>
    least > 1 ? 'no charge is enough' : percent(Math.ceil(100 * least - 1e-6) / 100)
  const columns = { clock: 'Clock', distance: distanceUnit(units), charge: 'Charge', onward: 'Onward' }

  return {
    /** What is printed and saved. */
    print: 'Print the day sheet',
    printStrip: 'Strip for the frame',
    saveGpx: 'Save as GPX with stops',
    gpxName: (route: string) => `${route} with stops.gpx`,
    saveCalendar: 'Save as calendar',
    papers: 'What is printed',
    onPaper: 'On paper',
    sheet: 'Day sheet',
    strip: 'Strip',
    asPrinted: 'As printed',

    /** Of a row of the day, in the timetable and on paper. */
    row: {
      /** `08:12` or `08:12 to 08:52`; in a narrow column it breaks before the `to` alone. */
      clock: ({ arrive, depart }: SheetRow, clock: Clock): string =>
        depart > arrive ? `${tied(clock(arrive))} ${tied(`to ${clock(depart)}`)}` : tied(clock(arrive)),
      /** `41 %` or `41 to 78 %`. */
      charge: ({ charge, chargeOnDeparture }: SheetRow): string => {
        const [arriving, leaving] = [number(100 * charge), number(100 * chargeOnDeparture)]
        return arriving === leaving ? `${arriving} %` : `${arriving} to ${leaving} %`
      },
      least,
      /**
       * What happens at a row beside its times: a swap of packs, the sailing, when a control is open.
       *
       * @param name of the control, where there is one
       * @param delay whether to say what ten minutes later would cost
       */
      happening: (
        { kind, sailing, passage, packIn, filled, arrive, depart }: SheetRow,
        clock: Clock,
        name: string | undefined,
        delay: boolean,
      ): string[] => {
        const said: string[] = []
        if (packIn !== undefined) said.push(`put in ${packIn}`)
        for (const { source, pack, energy: stored } of filled)
          said.push(`${source}: ${energy(stored)} into ${pack === '' ? 'the pack' : pack}`)
        if (sailing !== undefined) said.push(`${times.sailing(sailing, clock)}, ${duration(sailing.wait)} to wait`)
        if (sailing !== undefined && delay) said.push(times.delay(sailing))
        if (passage !== undefined && kind !== 'finish') {
          const open = times.open(passage, clock)
          const named = kind === 'stop' ? [name, open] : [open]
          const text = named.filter((part) => part !== undefined && part !== '').join(': ')
          if (text !== '') said.push(text)
        }
        if (kind === 'control' && depart > arrive) said.push(`${duration(depart - arrive)} until it opens`)
        if (kind === 'finish' && passage?.closes !== undefined) said.push(`goal ${clock(passage.closes)}`)
        return said
      },
      /**
       * What to take along where food or water is had, up to the next place for it.
       *
       * @param placeOf a place in words
       */
      takes: (
        eat: Provision | undefined,
        drink: Provision | undefined,
        placeOf: (name: PlaceName) => string,
      ): string => {
        const portions = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`
        const perHour = (amount: number, time: number) => (amount / time) * secondsPerHour
        const said: string[] = []
        if (eat !== undefined && eat.time > 0)
          said.push(
            `${portions(eat.bars, 'bar')} and ${portions(eat.gels, 'gel')} to ${placeOf(eat.to)}, ${grams(perHour(eat.carbohydrate, eat.time))} g of carbohydrate an hour`,
          )
        if (drink !== undefined && drink.time > 0)
          said.push(
            `${portions(drink.bottles, 'bottle')} to ${placeOf(drink.to)}, ${volume(Number(perHour(drink.water, drink.time).toFixed(2)))} an hour`,
          )
        return said.length === 0 ? '' : `take ${said.join('; ')}`
      },
      /** Time in hand at a row: to the sailing, to closing, to the goal. */
      margin: ({ sailing, passage }: SheetRow): string =>
        sailing?.margin !== undefined ? `${times.spare(sailing.margin)} to spare` : times.margin(passage?.margin),
      /** `22.4 km, 310 m up, 1 h 02 min`; empty where nothing is ridden. */
      onward: ({ onward }: SheetRow): string =>
        onward === undefined || onward.length === 0
          ? ''
          : [distance(onward.length), `${height(onward.ascent)} up`, duration(onward.ridingTime)].map(tied).join(', '),
    },

    timetable: {
      label: 'Timetable of the day',
      table: 'Places of the day, with times and charge',
      date: (date: string, zone: string) => `${times.date(date)}, clock of ${times.zone(zone)}.`,
      /** @param by how far the clock is put on, s */
      clockChange: (by: number, clock: string) =>
        `On the way the clock is put ${by > 0 ? 'forward' : 'back'} by ${duration(Math.abs(by))}, at ${clock}.`,
      times: {
        riding: 'Riding',
        smallHalts: 'Small halts',
        stopped: 'Stops',
        crossing: 'Crossing',
        elapsed: 'From start to finish',
      } satisfies Record<keyof DayTimes, string>,
      columns: { ...columns, what: 'What', margin: 'To spare' },
      onTheWay: 'On the way',
      /** @param charge there */
      why: (charge: string, name: string) => `${charge}, why: ${name}`,
      /** Under the charge at a place. */
      least: (row: SheetRow) => (row.least > 1 ? least(row) : `least ${least(row)}`),
      /** Between what ends the charge lies on eight days of ten. */
      band: ({ low, high }: Band) => `${number(100 * low)} to ${percent(high)}`,
      inDays: (chance: Estimate) => `in ${ofHundred(chance)}`,
      goalInDays: (chance: Estimate) => `your goal in ${ofHundred(chance)}`,
      aboutBand: 'Under it, between what ends the charge lies on eight days of ten.',
      aboutLeast:
        'Least: with less charge than that on arrival, ease off, or the finish is not reached at your reserve.',
    },

    light: {
      title: 'Daylight',
      why: 'Why these figures',
      sun: (morning: SunDay, evening: SunDay, clock: Clock) => {
        const at = (instant: number | undefined) => (instant === undefined ? 'never' : clock(instant))
        return morning.always !== undefined
          ? `The sun is ${morning.always} all day.`
          : `Sunrise at the start ${at(morning.sunrise)}, sunset at the finish ${at(evening.sunset)}; civil twilight from ${at(morning.dawn)} to ${at(evening.dusk)}.`
      },
      /** @param clock from the time since the start, s */
      inDark: ({ length, share, first, last }: DaylightSummary, clock: (time: number) => string) =>
        `${distance(length.dark + length.twilight)} (${percent(share)}) are ridden in twilight or dark, from ${place(first!.distance)} at ${clock(first!.time)} to ${place(last!.distance)}.`,
      lamps: ({ lights, lightsOn }: Outcome['plan']['assist'], lampEnergy: number) =>
        `Lamps of ${lights} W take ${energy(lampEnergy)} then${lightsOn === 'dark' ? ', which are counted' : '; the plan counts them all day'}.`,
    },

    wind: {
      why: 'Why these figures',
      label: 'Wind',
      title: 'Wind over the route',
      compass: { north: 'N', east: 'E', south: 'S', west: 'W' },
      /** @param against at the hardest leg, m/s */
      into: (legs: readonly number[], hardest: number, against: number) =>
        `${legs.length === 1 ? `Leg ${hardest} is into the wind` : `Into the wind: legs ${listed(legs)}; the hardest is leg ${hardest}`}, ${measure(against, 'windSpeed')} against you at ${height(10)} height.`,
      noneInto: 'No leg is into the wind for more than half of its length.',
      behind: (legs: readonly number[]) => `Wind behind: ${legs.length === 1 ? 'leg' : 'legs'} ${listed(legs)}.`,
      rose: 'The rose shows how far you go in each direction: filled is into the wind, hollow has it behind, grey has it from aside.',
    },

    rider: {
      title: 'Rider',
      /** @param work on the pedals, J */
      work: (work: number, turnover: { energy: number; kilocalories: number }) =>
        `Work on the pedals ${kilojoules(work)}; your body burns ${kilojoules(turnover.energy)} (${number(turnover.kilocalories)} kcal) for it.`,
      /** @param at ridden distance of a station, m */
      balance: (
        { spentAt, lowest, lowestStation }: WBalance,
        { criticalPower, wPrime }: Capacity,
        at: (station: number) => number,
      ) =>
        spentAt !== undefined
          ? `W′ runs out at ${place(at(spentAt))}: ease off on the climbs before it, or lower your effort there.`
          : lowest < wPrime
            ? `W′ is lowest at ${place(at(lowestStation))}: ${number(lowest / 1000, 1)} of ${number(wPrime / 1000, 1)} kJ are left.`
            : `You never ride above your critical power of ${number(criticalPower)} W.`,
      tooHard: 'Too hard as planned:',
      /** @param reasons in words */
      climb: ({ start, end, ascent }: Climb, reasons: readonly string[]) =>
        `${place(start)} to ${number(inDistance(end, units), 1)}, ${height(ascent)} up: ${reasons.join('; ')}`,
      noneTooHard: 'No climb is too hard as planned.',
      food: 'Food and water',
      /** Masses in an hour, kg. */
      carbohydrate: (perHour: number, { least, most }: { least: number; most: number }) =>
        `${grams(perHour)} g of carbohydrate an hour; guidance for a ride of this length is ${grams(least)} to ${grams(most)} g.`,
      severalSugars: (most: number) => `Above ${grams(most)} g an hour it takes several kinds of sugar, and practice.`,
      outside: 'Yours is outside it.',
      toEat: 'To eat, between stops for food',
      toDrink: 'To drink, between stops for water or food',
      from: 'From',
      to: 'To',
      gramsUnit: 'g',
      grams,
      bars: 'Bars',
      gels: 'Gels',
      waterUnit: units === 'metric' ? 'litres' : 'fl oz',
      water: (litres: number) => (units === 'metric' ? number(litres, 1) : number(litres / litresPerFluidOunce)),
      bottles: 'Bottles',
    },

    /** On paper. */
    paper: {
      inShort: ({ plan, route, zone, started }: Outcome, spent: DayTimes, clock: Clock) =>
        `${times.date(plan.start.slice(0, 10))}, start ${clock(started)}, finish ${clock(started + spent.elapsed)} (${times.zone(zone)}). ` +
        `${distance(route.length)}, ${climbsOf(route, { height })}. Riding ${duration(spent.riding)}, small halts ${duration(spent.smallHalts)}, ` +
        `stops ${duration(spent.stopped)}, crossing ${duration(spent.crossing)}, in all ${duration(spent.elapsed)}.`,
      columns: { ...columns, place: 'Place', rideOn: 'Ride on with at least', assist: 'Assist' },
      ways: { ease: 'easing off', planned: 'as planned', more: 'spending more' } satisfies Record<
        keyof ToRideOn,
        string
      >,
      /** `33 42 49 %`: below what the charge lies on one day of ten, on half, on nine of ten. */
      likely: ({ low, middle, high }: Band) =>
        [number(100 * low), number(100 * middle), tied(percent(high))].join('\u2002'),
      /** Share that has to be left, rounded up. */
      atLeast: (share: number | undefined) =>
        share === undefined ? '–' : tied(percent(Math.ceil(100 * share - 1e-6) / 100)),
      /** @param own whether a stretch on the way has a ratio of its own */
      assist: ({ assist, battery }: Outcome['plan'], own: boolean) =>
        `Assist set to ${percent(assist.ratio)} on the flat and ${percent(assist.climbRatio)} on climbs${own ? ', but where a stretch below says its own' : ''}; the column shows what the motor adds to your work. Reserve ${percent(battery.reserve)}.`,
      aboutRideOn: ({ ease, more }: Record<keyof ToRideOn, number>) =>
        `Ride on: with at least so much on arrival the finish is reached at your reserve, easing off (${percent(ease)} of the planned assist), as planned, or spending more (${percent(more)}); with less than the first, charge on the way or end the ride; – is where not even full packs are enough.`,
      noLeast: 'As planned the finish is not reached at your reserve.',
      aboutLikely:
        'Small, under the charge: on one day in ten less is left than the first figure, on half of them less than the second, on one in ten more than the third.',
      comesAlong: 'Comes along',
      withLeads: (source: string) => `${source}, converter, leads`,
      takeCare: 'Take care',
      forecast: 'A forecast, not a promise.',
      charging:
        'Charging: right voltage, right polarity, the maker’s charger; never below freezing, never unattended; stop if a pack is hot, swollen or smells.',
      carried: chargingIn(format).carried,
      /** On the strip. */
      putIn: (pack: string) => `put in ${pack}`,
      /** When to go on, with the time in hand to a sailing. */
      goesOn: ({ depart, sailing }: SheetRow, clock: Clock) =>
        sailing === undefined
          ? `go ${clock(depart)}`
          : `${times.sailing(sailing, clock)}${sailing.margin === undefined ? '' : `, ${times.spare(sailing.margin)}\u00a0spare`}`,
      closes: (clock: string) => `by ${clock}`,
      least: (row: SheetRow) => (row.least > 1 ? least(row) : `ease off below ${least(row)}`),
    },
  }
}
