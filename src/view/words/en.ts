import type { LightsAdvice } from '../../model/readings/light'
import type { Climb } from '../../model/readings/climbs'
import type { FootCause } from '../../model/readings/on-foot'
import type { EffortFault } from '../../model/readings/rider'
import type { KitItem } from '../../model/plan/day-schema'
import type { Surface, Surroundings } from '../../model/plan/parameters'
import type { StretchEnd } from '../../model/plan/edit-stretches'
import type { FillFirst, PlanStretch } from '../../model/plan/schema'
import type { StretchFault } from '../../model/plan/stretches'
import type { Brought } from '../../model/studies/fill-choices'
import type { FootEdge } from '../../model/studies/near-walking'
import type { LaterCause, StrongerLater } from '../../model/studies/stronger'
import type { Fault, WeatherColumn } from '../../model/text/fault'
import type { FieldText, FieldWords } from './fields'
import type { Names } from '../../model/plan/names'
import type { Identified, PlanFault } from '../../model/plan/check'
import type { Said } from '../../state/said'
import type { LegNote } from '../../model/readings/leg-notes'
import type { SheetRow } from '../../model/readings/sheet'
import type { StretchOnWay } from '../../model/readings/stretches'
import type { Terrain } from '../../model/readings/terrain'
import type { CoverGap } from '../../model/world/weather'
import type { PlaceName } from '../../model/place-name'
import { distanceUnit, type Format } from '../format'
import type { Arrangement, Question, Ride } from '../../model/route/arrange'
import type { ProposedGap } from '../../model/route/clean'
import type { GapReason } from '../../model/route/holes'
import type { LineSummary } from '../../model/route/survey'
import type { RouteNote } from '../../model/route/notes'
import type { Doing } from '../../model/route/reading'
import type { MarkFault } from '../../model/route/travelled'
import type { FileFault } from '../../work/jobs'
import { joulesPerWattHour } from '../../model/units'
import { worded } from './worded'

/** An instant, Unix time, s, as clock time of the day. */
type Clock = (instant: number) => string

/** What stands in a table's cell, and where. */
const at = ({ cell, row, heading }: { cell: string; row: number; heading: string }) =>
  `“${cell}” in row ${row}, column “${heading}”`

const columns: Record<WeatherColumn, string> = {
  time: 'time',
  date: 'date',
  place: 'place',
  distance: 'distance',
  temperature: 'temperature',
  wind: 'wind',
  from: 'from',
  rain: 'rain',
  pressure: 'pressure',
}

const identified: Record<Identified, string> = {
  packs: 'packs',
  sources: 'charge sources',
  stops: 'stops',
  controls: 'controls',
  stretches: 'stretches',
  kit: 'things of the kit',
}

const plan = worded<PlanFault>({
  noJson: () => 'This plan file is not JSON, so it was not opened.',
  noPlan: () => 'This file is not a Wattfare plan: its “format” is missing.',
  noVersion: () => 'This plan’s “version” is not a whole number from 1, so it was not opened.',
  newer: ({ version, known }) =>
    `This plan is of version ${version}, newer than this program, which knows version ${known}.`,
  noDocument: () => 'This file is not a Wattfare plan.',
  unknownField: ({ path }) => `The plan’s “${path}” is not right: no plan has it.`,
  missingField: ({ path }) => `The plan’s “${path}” is not right: it is missing.`,
  badForm: ({ path, received }) => `The plan’s “${path}” is not right: ${received} is not of its form.`,
  outOfBounds: ({ path, bound, limit, received }) =>
    `The plan’s “${path}” is not right: ${received}, but ${limit} is the ${bound}.`,
  badField: ({ path, expected, received }) => `The plan’s “${path}” is not right: ${received} in place of ${expected}.`,
  sameId: ({ of, id }) => `Two ${identified[of]} of the plan have the same id “${id}”.`,
  noSource: ({ stop }) => `The stop “${stop}” uses a charge source that the plan does not have.`,
  noSourceOfCrossing: () => 'A crossing uses a charge source that the plan does not have.',
  stretchOrder: ({ id }) => `The stretch “${id}” of the plan ends before it begins.`,
  stretchesOverlap: ({ ids }) => `The stretches “${ids[0]}” and “${ids[1]}” of the plan overlap.`,
  noZone: ({ zone }) => `“${zone}” is no time zone that the clock knows.`,
  noDate: ({ start }) => `The start “${start}” is not a date of the calendar.`,
})

const fillOrders: Record<FillFirst, string> = {
  most: 'in the order that brings most',
  'in use': 'the one in use first',
  emptiest: 'the emptiest first',
}

const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1)

const surfaceNames: Record<Surface, string> = {
  asphalt: 'asphalt',
  'rough asphalt': 'rough asphalt',
  gravel: 'gravel',
  cobbles: 'cobbles',
}

const choice = { source: 'A choice.' }
const draggedPlace = 'Ridden distance from the start. It can be dragged on the map and the profile too.'

/**
 * English: every text that stands for a code of the model. Another language is another file of the same type.
 *
 * @param format numbers in the rider's units
 */
export const en = (format: Format) => {
  const { distance, duration, energy, height, measure, number, percent, shortDistance, speed, units, volume } = format
  const [massUnits, massColumns] =
    units === 'metric' ? ['g or kg', '“mass g” or “mass kg”'] : ['oz or lb', '“mass oz” or “mass lb”']
  const footCauses: Record<FootCause, string> = {
    tooSteep: 'too steep to ride with this drive',
    noCharge: 'the motor could climb it, but no charge is left',
    weakPack: 'the motor could climb it, but the pack gives it too little',
  }
  /** `300 m on foot: too steep to ride with this drive`. @param length walked, m */
  const onFoot = (cause: FootCause, length: number) => `${shortDistance(length)} on foot: ${footCauses[cause]}`

  const place = worded<PlaceName>({
    given: ({ name }) => name,
    start: () => 'Start',
    finish: () => 'Finish',
    crossing: ({ number }) => `Crossing ${number}`,
    onlyCrossing: () => 'Crossing',
    crossingFrom: ({ name }) => `Crossing from ${name}`,
    afterCrossing: ({ number }) => `After crossing ${number}`,
    packSpent: () => 'Pack spent',
    at: ({ distance }) => format.place(distance),
  })

  const minutes = (time: number) => measure(time, 'duration')
  /** Whole watt-hours that a halt charges, if there are any. */
  const charged = (added: number) => (added < joulesPerWattHour / 2 ? '' : `, ${energy(added)} charged`)
  const walkingNotes: Record<FootCause, string> = {
    tooSteep: 'walking where it is too steep',
    noCharge: 'walking for want of charge',
    weakPack: 'walking where the pack gives the motor too little',
  }
  const legNote = worded<LegNote>({
    reserveReached: ({ at }) => `reserve reached at ${format.place(at)}`,
    motorOff: ({ at }) => `motor off from ${format.place(at)}`,
    walking: ({ cause }) => walkingNotes[cause],
    nextPack: ({ at }) => `next pack at ${format.place(at)}`,
    crossing: ({ time, added }) => `crossing ${minutes(time)}${charged(added)}`,
    untilOpen: ({ control, time }) => `${control}: ${minutes(time)} until it opens`,
    stop: ({ stop, time, added }) => `${stop}: ${minutes(time)}${charged(added)}`,
    notCharged: ({ refusal }) => `not charged: ${refusal}`,
  })

  /** `gravel, no faster than 15 km/h`: what a stretch says of its own; empty where it says nothing yet. */
  const stretchSaid = ({ surface, shelter, speedLimit, assistRatio }: PlanStretch): string =>
    [
      ...(surface === null ? [] : [surfaceNames[surface]]),
      ...(shelter === null ? [] : [`${percent(shelter)} of the wind`]),
      ...(speedLimit === null ? [] : [`no faster than ${speed(speedLimit)}`]),
      ...(assistRatio === null ? [] : [`assist ${percent(assistRatio)}`]),
    ].join(', ')
  const stretchTitle = (stretch: PlanStretch): string =>
    stretch.name !== '' ? stretch.name : capital(stretchSaid(stretch)) || 'Nothing of its own yet'
  /** A place within a sentence. */
  const inSentence = (name: PlaceName): string =>
    name.code === 'given'
      ? name.name
      : `${name.code === 'start' || name.code === 'finish' ? 'the ' : ''}${place(name).toLowerCase()}`

  const kilograms = (mass: number) => measure(mass, 'mass', 0)
  const laterCause = worded<LaterCause>({
    charging: ({ time }) => `${duration(time)} more at the charger`,
    onFoot: ({ length }) => `${shortDistance(length)} more on foot`,
    motorOff: ({ length }) => `the packs are spent sooner, and ${distance(length)} more go without the motor`,
    swaps: ({ count }) => (count === 1 ? 'one more swap of packs' : `${count} more swaps of packs`),
    weather: () => 'you meet other weather',
  })
  /** A line of the file, by its number from 0 where it has no name. */
  const lineName = ({ name, kind }: LineSummary, index: number) => name || `${lineKinds[kind]} ${index + 1}`
  const lineKinds: Record<LineSummary['kind'], string> = { track: 'Track', route: 'Route', line: 'Line' }

  /** Why a gap is taken as a crossing, or as ridden. */
  const gapReason = worded<GapReason>({
    tooFast: ({ speed: v }) => `nobody rides ${speed(v)} there`,
    silent: ({ time }) => `nothing was recorded for ${duration(time)}`,
    travelled: ({ kind, speed: v }) =>
      kind === 'level'
        ? `all about it went at a steady ${speed(v)} on level water`
        : `all about it went at ${speed(v)}, faster than a rider can go there`,
    brokenOff: () => 'the file breaks off and goes on there, and has no times to tell',
    rideable: ({ speed: v }) => `a rider can go ${speed(v)}`,
    drawn: () => 'the file draws a line there, and has no times to tell',
  })

  const allMarked = 'The part is the whole route; something of it must be ridden.'

  /** Why a file gives no route. */
  const routeFault = worded<FileFault>({
    empty: () => 'The file is empty; export the route again as GPX.',
    tooLarge: ({ most }) =>
      `The file holds more than ${number(most / 1e6)} MB of text, which is the most that is read; export the route with fewer points.`,
    tooManyPoints: ({ most }) =>
      `The file has more than ${number(most)} points, which is the most that is read; export the route with fewer points.`,
    zip: () => 'This is a zip archive; unpack it and open the GPX or KML file inside.',
    damagedGzip: () => 'The file is compressed, but damaged or cut off; export the route again as GPX.',
    encoding: ({ encoding }) =>
      `The letters of the file are encoded as “${encoding}”, which is not known here; export the route again as GPX.`,
    notXml: () => 'This is not a GPX or KML file; export the route as GPX and open that.',
    otherRoot: ({ root }) =>
      `This is not a GPX or KML file, but one of another kind, “${root}”; export the route as GPX and open that.`,
    noRoot: () => 'There is nothing in the file; export the route again as GPX.',
    entities: ({ line }) =>
      `The file defines entities of its own at line ${line}, which a route has no need of and which are not read for safety; export the route again as GPX.`,
    cutOff: ({ line }) => `The file is cut off: it ends at line ${line} in the middle; export the route again as GPX.`,
    notClosed: ({ tag, opened, line }) =>
      `The file is damaged at line ${line}, for “${tag}” of line ${opened} is not closed; export the route again as GPX.`,
    notWellFormed: ({ line }) => `The file is damaged at line ${line}; export the route again as GPX.`,
    noPoints: ({ places }) =>
      places === 0
        ? 'The file has no track, route or line to ride; export the route again as GPX.'
        : `The file has no track, route or line to ride: only ${places === 1 ? 'a single place' : `${number(places)} single places`}; export the route between them as GPX.`,
    onlyZeros: ({ points }) =>
      `All ${number(points)} points of the file lie at latitude 0, longitude 0, which stands for no position; export the route again as GPX.`,
    noCoordinates: ({ points }) =>
      `None of the ${number(points)} points of the file has usable coordinates: latitude must be a number from -90 to 90, longitude from -180 to 180; export the route again as GPX.`,
    onePlace: ({ points }) =>
      points === 1
        ? 'The file has only one point, and a route needs at least two; export the whole route as GPX.'
        : `The file has ${number(points)} points, but they are all at one place or are errors; export a route of at least two places as GPX.`,
    noOrder: ({ length }) =>
      `The points of the file make a way of ${distance(length, 0)}, longer than once around the Earth; they are not in the order of a ride; export the route itself as GPX.`,
    noSuchLine: ({ lines, asked }) => `The file has ${number(lines)} lines; line ${number(asked)} was asked for.`,
    nothingRidden: () => allMarked,
    failed: () =>
      'The file could not be read, by a fault of this program; export the route in another way and try that.',
    notStarted: () => 'The part of the program that reads routes did not start; load the page again.',
  })

  return {
    route: {
      fault: routeFault,
      doing: {
        opening: 'Opening the file',
        reading: 'Reading points',
        cleaning: 'Cleaning',
        smoothing: 'Smoothing',
      } satisfies Record<Doing, string>,
      note: worded<RouteNote>({
        noElevation: ({ climb, mass, energy: work }) =>
          `The file has no elevation, so the forecast assumes flat ground; each ${height(climb)} of climbing takes about ${energy(work)} more at the wheel for bike, rider and load of ${measure(mass, 'mass', 0)}.`,
        elevationMissing: ({ unknown, points, longest }) =>
          `Elevation is missing at ${number(unknown)} of ${number(points)} points, for up to ${distance(longest)} at a stretch; it is drawn straight there, so climbs in between are not in the forecast.`,
        farApart: ({ length, ridden, longest }) =>
          `On ${distance(length)} of ${distance(ridden)} the points of the file lie more than ${distance(1000, 0)} apart, up to ${distance(longest)}: straight lines, not a road. The forecast rides them as drawn, so it is too short and misses bends and climbs; a file with more points gives a truer one.`,
        gaps: ({ count, length }) =>
          count === 1
            ? `The track has a gap of ${distance(length)}, taken as a crossing that is not ridden.`
            : `The track has ${number(count)} gaps, ${distance(length)} together, taken as crossings that are not ridden.`,
        riddenGaps: ({ count, length }) =>
          count === 1
            ? `A gap of ${distance(length)} counts as ridden in a straight line.`
            : `${number(count)} gaps, ${distance(length)} together, count as ridden in straight lines.`,
        marked: ({ length, place }) =>
          `A marked part of ${distance(length)}${{ start: ' at the start', between: '', end: ' at the end' }[place]} is not ridden.`,
        joined: ({ kind, count, isReordered }) =>
          `${number(count)} ${lineKinds[kind].toLowerCase()}s of the file are joined${isReordered ? ', in the order in which one follows the other, not in that of the file' : ' in order'}.`,
        fromExtensions: ({ count }) =>
          `The way between the route’s points is taken from ${number(count)} points in their extensions.`,
        timesNotUsed: ({ count }) =>
          `${number(count)} times of the file can’t be of a ride, for they are too old or one would have gone too fast by them; they are not used.`,
        timesApart: ({ time }) =>
          `The times of the file lie ${number(time / 86_400)} days apart, too far to be of one ride; no time is given as recorded.`,
        linesLeft: ({ count }) =>
          count === 1
            ? 'The file has one more line, not used here.'
            : `The file has ${number(count)} more lines, not used here.`,
      }),
      line: lineName,
      /** One or several lines that make a ride. */
      ride: ({ lines: numbers }: Ride, lines: readonly LineSummary[]) => {
        const first = lineName(lines[numbers[0]!]!, numbers[0]!)
        return numbers.length === 1 ? first : `${first} and ${number(numbers.length - 1)} more`
      },
      /** Asks which of several rides is meant. */
      which: ({ question, rides, all, proposed }: Arrangement) => {
        const shown = proposed === all ? 'shown are all as one, with crossings between' : 'shown is the longest'
        const what: Record<Question, string> = {
          days: `The file holds ${number(rides.length)} rides of different days`,
          variants: `The file holds ${number(rides.length)} rides that are choices, not one after the other`,
          apart: `The file holds ${number(rides.length)} rides that lie apart, with ${distance(all.between)} between them`,
          long: `The ${number(rides.length)} parts of the file are ${distance(all.length, 0)} together, more than a day’s ride`,
        }
        return question === undefined ? '' : `${what[question]}; ${shown}. Which do you plan?`
      },
      /** All rides of a file as one. */
      asOne: 'All as one ride',
      /** What lies between the lines of a ride; empty where they meet. */
      between: ({ between }: Ride) => (between < 300 ? '' : `${distance(between)} between them`),
      /** A gap of the track, and why it is taken as a crossing or as ridden. */
      gap: ({ distance: at, from, to, recordedTime, why, isCrossing, ridden }: ProposedGap) => {
        const recorded = recordedTime === undefined ? '' : `, ${duration(recordedTime)} in the recording`
        const gap = `${format.place(at)}: a gap of ${distance(to - from)}${recorded}`
        if (isCrossing && ridden) return `${gap}; ridden, as you said.`
        return `${gap}, ${ridden ? 'counted as ridden straight' : 'taken as a crossing'}: ${gapReason(why)}.`
      },
      /** Why a part can't be marked as travelled. */
      markFault: worded<MarkFault>({
        backward: () => 'The part must end after it begins.',
        tooShort: ({ least }) => `The part must be at least ${shortDistance(least)} long.`,
        nothingRidden: () => allMarked,
      }),
    },

    battery: {},

    fields: {
      ...fieldsIn(format),
      /** Of what is not in the catalogue, for its bounds are those of the route or the day. */
      stopPlace: { ...choice, label: 'Place', meaning: draggedPlace },
      controlPlace: {
        label: 'Place',
        meaning: 'Ridden distance from the start.',
        source: 'The rules of the event.',
      },
      controlDay: {
        label: 'Days after the start',
        meaning: 'Nights between the day of the start and this time.',
        source: 'The rules of the event.',
      },
      weatherPlace: {
        ...choice,
        label: 'Place',
        meaning: 'Ridden distance from the start. Between two places the weather goes over evenly.',
      },
    },

    surroundings: {
      'open water': 'Open water',
      'open grassland': 'Open grassland',
      'farmland with low crops': 'Farmland with low crops',
      'farmland with hedges': 'Farmland with hedges',
    } satisfies Record<Surroundings, string>,

    /** What things of a plan are called until the rider names them. */
    names: {
      pack: (number) => `Pack ${number}`,
      source: {
        mains: (number) => `Charger ${number}`,
        carried: (number) => `Carried pack ${number}`,
        swap: () => 'Swap the pack',
      },
      firstCharger: (current) => `Charger ${number(current)} A`,
      stop: (number) => `Stop ${number}`,
      control: (number) => `Control ${number}`,
      weatherStart: 'Start',
      weatherPlace: (number) => `Place ${number}`,
      weatherAt: (distance) => format.place(distance, distance % 1000 === 0 ? 0 : 1),
      thing: 'Thing',
    } satisfies Names,

    /** Why what was typed or pasted can't be read. */
    typed: worded<Fault>({
      openQuotes: () => 'A quotation mark in the table is never closed.',
      noTable: () => 'There is no table in what was pasted.',
      noRows: () => 'The table needs its headings in the first row, and rows below them.',
      tooManyRows: ({ rows, most }) => `The table has ${rows} rows; ${most} are the most.`,
      noNumber: (fault) => `${at(fault)} is not a number.`,
      outOfBounds: (fault) => `${at(fault)} is outside ${fault.min} to ${fault.max}.`,

      noSailing: () => 'Write at least one sailing, such as 07:00.',
      tooManySailings: ({ sailings, most }) => `There are ${sailings} sailings; ${most} are the most.`,
      noTimeOfDay: ({ word }) => `“${word}” is not a time of day: write sailings as 07:00 09:30 12:00.`,

      noTimeColumn: () => 'The table needs a column headed “time”.',
      noWeatherColumn: () => 'The table needs a column headed “temperature”, “wind”, “rain” or “pressure”.',
      noDirectionColumn: () => 'The table has wind, but no column headed “wind from” for its direction.',
      twoColumns: ({ headings, column }) =>
        `Two columns, “${headings[0]}” and “${headings[1]}”, are both taken for ${columns[column]}.`,
      noWindUnit: ({ heading }) => `The heading “${heading}” needs its unit: m/s, km/h or mph.`,
      noDistanceColumn: () =>
        `For more than one place the table needs a column headed “${distanceUnit(units)}” with each place’s distance.`,
      noDistance: ({ row }) => `Row ${row} has no distance.`,
      tooManyPlaces: ({ row, most }) => `Row ${row} begins a fourth place; ${most} are the most.`,
      hourTwice: ({ row, time }) => `Row ${row} tells the weather of ${time.replace('T', ' ')} a second time.`,
      tooManyHours: ({ hours, place, most }) => `There are ${hours} rows for ${place}; ${most} are the most.`,
      noTime: (fault) => `${at(fault)}, is not a time such as 14:00 or 2027-06-19 14:00.`,
      noDate: ({ row, date }) => `“${date}” in row ${row} is not a date of the calendar.`,
      beyondTemperature: ({ row, most }) => `The temperature of row ${row} is beyond ${measure(most, 'temperature')}.`,
      noDirection: (fault) => `${at(fault)}, is no direction: write degrees or NW.`,

      noItemColumn: () => 'The table needs a column headed “item”.',
      noMassColumn: () => `The table needs a column headed ${massColumns}.`,
      tooManyItems: ({ items, most }) => `The table has ${items} items; ${most} are the most.`,
      noMassUnit: ({ heading }) => `The heading “${heading}” needs its unit: ${massUnits}.`,
      noMass: ({ row }) => `Row ${row} has no mass.`,
      noName: ({ row }) => `Row ${row} has no name.`,
      noCount: ({ row }) => `The count in row ${row} is not a whole number.`,
      noneOf: (fault) => `${at(fault)}, should be one of: ${fault.choices.join(', ')}.`,
      usedTwice: ({ row }) => `Row ${row} is used up by the hour or by the kilometre, not both.`,
    }),

    /** How a pasted weather table is to be headed. */
    weatherHeadings:
      units === 'metric'
        ? 'Headings in the first row: time, temp °C, wind m/s (or km/h), wind from, rain mm/h, pressure hPa. For up to three places also km and place.'
        : 'Headings in the first row: time, temp °F, wind mph, wind from, rain in/h, pressure inHg. For up to three places also mi and place.',

    /** Why a document is not taken as a plan. */
    plan,

    /** What the desk has to say. */
    said: worded<Said>({
      planRefused: ({ fault }) => plan(fault),
      keptPlanRefused: ({ fault }) => `${plan(fault)} The default plan is used instead.`,
      routeUnread: ({ fault }) => routeFault(fault),
      stretchRemoved: ({ stretch }) => `${stretchTitle(stretch)}: the stretch is removed; Undo brings it back.`,
      stopsBeyond: ({ stops }) => `${stops} of the plan’s stops lie beyond this route; they stand at its finish.`,
      notKept: () =>
        'This browser keeps nothing for the next visit, for its storage is full or forbidden: save the plan as a file.',
    }),

    /** Which pack a stop fills first. */
    fillFirst: {
      label: 'Packs are filled',
      orders: fillOrders,
      /** @param timed whether the orders take other times */
      brings: (order: FillFirst, { energy: added, time }: Brought, timed: boolean) =>
        `${fillOrders[order]}: ${energy(added)}${timed ? ` in ${duration(time)}` : ''}`,
    },

    stretches: {
      about: 'A part of the route for which you know something of its own. Parts cannot overlap.',
      add: 'Add a stretch',
      remove: 'Remove this stretch',
      name: 'Name',
      ends: {
        start: { ...choice, label: 'From', meaning: draggedPlace },
        end: { ...choice, label: 'To', meaning: draggedPlace },
      } satisfies Record<StretchEnd, FieldText>,
      surface: 'Surface',
      elsewhere: 'as elsewhere',
      surfaces: surfaceNames,
      said: stretchSaid,
      /** What a stretch is called: by its name, else by what it says. */
      title: stretchTitle,
      /** `km 12.5 to 18.3`. */
      span: ({ start, end }: PlanStretch) => `${format.place(start)} to ${format.place(end).replace(/^\D+/, '')}`,
      /** As the day sheet says it. */
      sentence: ({ stretch, from, to }: StretchOnWay) =>
        `${stretch.name === '' ? capital(stretchSaid(stretch)) : `${stretch.name}: ${stretchSaid(stretch)}`} from ${inSentence(from)} to ${inSentence(to)}.`,
      /** Why an end can't be where it was typed. */
      fault: (fault: StretchFault) =>
        fault.kind === 'order'
          ? 'A stretch must end after it begins.'
          : `“${stretchTitle(fault.with)}” lies from ${format.place(fault.with.start)} to ${format.place(fault.with.end)}: stretches may touch, not overlap.`,
      mark: (at: number) => `Mark a stretch at ${format.place(at)}`,
      onMap: 'Stretches',
      /** Of the sliders with which its ends are moved. */
      endOf: (end: StretchEnd, stretch: PlanStretch) =>
        `${end === 'start' ? 'Start' : 'End'} of ${stretchTitle(stretch)}`,
      moving: 'Drag it along the route, or move it with the arrow keys. Delete removes the stretch.',
      ask: 'What is different there',
    },

    kit: {
      /** Also in the list as it leaves and comes back as a file. */
      marks: {
        comes: 'comes along',
        stays: 'stays home',
        unused: 'came back unused',
      } satisfies Record<KitItem['mark'], string>,
      /** The kit list to begin with. */
      demo: {
        pannierBag: 'Pannier bag',
        lockAndChain: 'Lock and chain',
        mainsCharger: 'Mains charger',
        pump: 'Pump',
        innerTube: 'Inner tube',
        patchesAndLevers: 'Patches and levers',
        multitoolAndChainLink: 'Multi-tool and chain link',
        spareTyre: 'Spare tyre, folding',
        rainJacket: 'Rain jacket',
        rainTrousers: 'Rain trousers',
        warmLayer: 'Warm layer',
        secondPairOfShoes: 'Second pair of shoes',
        frontAndRearLamp: 'Front and rear lamp',
        firstAid: 'First aid',
        telephone: 'Telephone',
        helmet: 'Helmet',
        camera: 'Camera',
        carriedBatteryPack: 'Carried battery pack',
        mountForACarriedPack: 'Mount for a carried pack',
        water: `Water, bottle of ${volume(0.75)}`,
        bar: 'Bar',
        gel: 'Gel',
      },
      places: {
        bike: 'on the bike',
        rider: 'on the rider',
        spare: 'as a spare',
      } satisfies Record<KitItem['place'], string>,
    },

    rider: {
      /** Why two efforts give no critical power. */
      efforts: {
        duration: 'Each effort of the test should last 2 to 20 minutes.',
        alike: 'The two efforts should differ by 3 minutes at least.',
        order: 'The shorter effort should have the higher power.',
        tooWeak: 'These two efforts give no critical power: the longer one is too weak.',
      } satisfies Record<EffortFault, string>,
      /** Why a climb is too hard. */
      tooHard: {
        abovePower: ({ riderPower }) => `${number(riderPower)} W, above critical power`,
        wPrimeSpent: () => 'W′ runs out',
        tooSteep: ({ walked }) => onFoot('tooSteep', walked.tooSteep),
        noCharge: ({ walked }) => onFoot('noCharge', walked.noCharge),
        weakPack: ({ walked }) => onFoot('weakPack', walked.weakPack),
      } satisfies Record<Climb['tooHard'][number], (climb: Climb) => string>,
      /** Said beside all that concerns the rider's body. */
      cautions: [
        'This is arithmetic, not medical advice; pain in the chest, dizziness or confusion ends the ride, and a clinician decides about the next.',
        'Drink to thirst: too much plain water over a long day can harm as much as too little.',
        'Try food and drink on short rides first.',
      ],
    },

    onFoot,

    /** What a place of the ride is called. */
    place,

    terrain: { climb: 'climb', descent: 'descent', rolling: 'rolling' } satisfies Record<Terrain, string>,

    /** What is worth saying of a leg, empty if nothing is. */
    legNotes: (notes: readonly LegNote[]) => notes.map(legNote).join('; '),

    /** What a calendar calls a row of the day sheet. */
    eventTitle: ({ kind, name, sailing }: SheetRow, clock: Clock) =>
      kind === 'crossing' && sailing !== undefined ? `${place(name)}, leaves ${clock(sailing.depart)}` : place(name),

    /** What a row of the day sheet says in one line. */
    rowLine: ({ distance, arrive, depart, charge, sailing, passage }: SheetRow, clock: Clock) =>
      [
        format.place(distance),
        depart > arrive ? `${clock(arrive)} to ${clock(depart)}` : clock(arrive),
        `charge ${percent(charge)}`,
        ...(sailing === undefined ? [] : [`leaves ${clock(sailing.depart)}`]),
        ...(passage?.opens === undefined ? [] : [`opens ${clock(passage.opens)}`]),
        ...(passage?.closes === undefined ? [] : [`closes ${clock(passage.closes)}`]),
      ].join(', '),

    /** What a weather table leaves out. */
    coverGap: ({ code, place }: CoverGap) => {
      const table = `The weather table${place === undefined ? '' : ` for ${place}`}`
      return code === 'beginsLate'
        ? `${table} begins after the start: its first row stands in before.`
        : `${table} ends before the finish: its last row stands in after.`
    },

    /** Where a little mass decides whether one rides or walks. */
    nearWalking: {
      heavier: ({ mass, distance, cause, tried, length }: FootEdge) =>
        `With about ${kilograms(mass)} more you would walk at ${format.place(distance)}: ${footCauses[cause]}.${length > 0 ? ` With ${kilograms(tried)} more it is ${shortDistance(length)} more on foot.` : ''}`,
      lighter: ({ mass, distance, tried, length }: FootEdge) =>
        `With about ${kilograms(mass)} less you would ride at ${format.place(distance)}.${length > 0 ? ` With ${kilograms(tried)} less it is ${shortDistance(length)} less on foot.` : ''}`,
    },
    /** That more power makes the day longer, and why. */
    strongerLater: ({ more, time, causes }: StrongerLater) =>
      `With ${percent(more)} more power of your own the day would be ${duration(time)} longer${causes.length > 0 ? `: ${causes.map(laterCause).join('; ')}` : ''}.`,

    lights: {
      dark: 'Part of the ride is in twilight or dark: carry lights front and rear, charged.',
      late: 'By plan it is daylight all the way, but a late hour ends in the dark: carry lights.',
      day: 'By plan it is daylight all the way; small lights still help in tunnels, rain and fog, and the law may ask for them.',
    } satisfies Record<LightsAdvice, string>,
  }
}

/** Every number of the plan's catalogue: its label, what it is, and where it comes from. */
const fieldsIn = ({ height, measure, units }: Format): FieldWords => {
  const inUnits = (metric: string, imperial: string) => (units === 'metric' ? metric : imperial)
  const celsius = (value: number) => measure(value, 'temperature')
  const passageSpeed = inUnits('6 m/s', '13 mph')
  return {
    rider: {
      mass: {
        label: 'Rider, dressed',
        meaning: 'Body, clothes and shoes.',
        source: 'A scale.',
        belief: 'Judgement: clothes, meals, another scale.',
      },
      power: {
        label: 'Steady power',
        meaning: 'What you put on the pedals on the flat, for hours.',
        source: 'A power meter, or try: touring riders give 80 to 150 W.',
        belief: 'Judgement: form of the day, and power never measured.',
      },
      climbFactor: {
        label: 'Effort on climbs',
        meaning: 'Power on climbs against the flat; reached at 5 %, none extra below 1 %.',
        source: 'A choice; many riders push a third harder uphill.',
      },
      coastingSpeed: {
        label: 'Stop pedalling above',
        meaning: `From here pedalling fades out over the next ${inUnits('2 km/h', '1.2 mph')}.`,
        source: 'A choice.',
      },
      criticalPower: {
        label: 'Critical power',
        meaning: 'The power that could be held for about an hour; decides how fast you fade.',
        source: 'A test of 3 to 20 minutes (Monod and Scherrer 1965); 180 W is a choice.',
      },
      fade: {
        label: 'Fade',
        meaning: 'Power lost for each hour’s work at critical power: less than half as much an hour at an easy pace.',
        source:
          'Clark et al. 2019, J. Appl. Physiol. 127:726: 9 % in two hours unfed, 2 % fed. That ridden power follows measured capacity is an assumption.',
        belief:
          'Judgement on Clark et al. 2019: 1.4 % fed to 5.7 % unfed; professionals and a 24 h record 2.1 to 4.5 %.',
      },
      smallHalts: {
        label: `Small halts, each 100 ${inUnits('km', 'miles')}`,
        meaning: 'Lights, gates, a photograph, a bottle: time that no stop of the plan shows.',
        source: 'Last year’s recording: elapsed less moving time less the planned stops.',
        belief: 'Judgement.',
      },
    },
    bike: {
      mass: {
        label: 'Bike without packs',
        meaning: 'Bike, racks and lights, without battery packs and luggage.',
        source: 'A scale.',
        belief: 'Judgement: what a maker states is without rack, lights and mud.',
      },
      luggage: {
        label: 'Luggage and water',
        meaning: 'Everything carried that is neither bike, pack nor rider.',
        source: 'A scale.',
        belief: 'Judgement: luggage is added up, rarely weighed.',
      },
      dragArea: {
        label: 'Drag area (CdA)',
        meaning: 'Frontal area times drag coefficient, rider and bags.',
        source: 'Tengattini and Bigazzi 2018: urban riders 0.56 ± 0.17 m², and bags.',
        belief: 'Between bikes and riders, SD 0.170 m²: Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391.',
      },
      rolling: {
        label: 'Rolling coefficient (Crr)',
        meaning: 'Tyres on average asphalt.',
        source: 'Tengattini and Bigazzi 2018: 0.0077 ± 0.0036.',
        belief: 'Between bikes, SD 0.0036: Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391.',
      },
      surfaceFactor: {
        label: 'Surface factor',
        meaning: 'Multiplies rolling: 75 % very smooth, 125 % rough asphalt, 150 % packed gravel.',
        source: 'Ratios of handbook coefficients by surface; judgement.',
      },
      topSpeed: {
        label: 'Fastest downhill',
        meaning: 'You brake rather than pass this speed.',
        source: 'A choice.',
      },
      lateralAcceleration: {
        label: 'Bends',
        meaning: 'Sideways acceleration accepted in bends.',
        source: 'FHWA-HRT-04-103, table 19: 1.8 to 2.6 m/s² on 15 to 25 m radius.',
      },
      braking: {
        label: 'Braking',
        meaning: 'Comfortable deceleration before bends and stops.',
        source: 'From memory of cycle-road design guides; 2.45 m/s² is a wet design stop.',
      },
      drivetrain: {
        label: 'Chain efficiency',
        meaning: 'Share of pedal power that reaches the wheel.',
        source: 'Smit et al. 2023: 97.9 % when clean; less for dirt.',
      },
      rotatingMass: {
        label: 'Rotating mass',
        meaning: 'Extra inertia of the wheels, as mass at the rim.',
        source: 'Martin et al. 1998 give 1.45 kg for light wheels (from memory); heavier tyres here.',
      },
      wheelRadius: {
        label: 'Wheel radius',
        meaning: 'Rolling radius of the driven wheel.',
        source: `A tape measure; ${inUnits('0.35 m', '13.8 in')} is 28 inches with a wide tyre.`,
      },
    },
    assist: {
      ratio: {
        label: 'Assist on the flat',
        meaning: 'Motor power for each watt of yours.',
        source: 'A choice; 0 % is no motor.',
      },
      climbRatio: {
        label: 'Assist on climbs',
        meaning: 'The same on climbs; reached at 5 %, blended from 1 %.',
        source: 'A choice.',
      },
      limitSpeed: {
        label: 'Assist ends at',
        meaning: `Legal limit of the motor; it fades out over the last ${inUnits('2 km/h', '1.2 mph')}.`,
        source: 'EN 15194: 25 km/h. 36 CFR 1.4: 20 or 28 mph. Local law decides.',
      },
      peakPower: {
        label: 'Motor, greatest power',
        meaning: 'Mechanical, for a climb; not the rated continuous power.',
        source: 'From memory: 400 to 600 W for motors rated 250 W.',
      },
      torque: {
        label: 'Torque at the wheel',
        meaning: 'Greatest torque of the motor, as it arrives at the wheel.',
        source: 'The maker’s figure, geared down.',
      },
      lossFactor: {
        label: 'Motor losses',
        meaning: 'Against the built-in curve: 0.0013 W for each W squared up to 200 W, then 79 % efficient.',
        source:
          'Fitted to one measured mid-drive, 2024, up to 202 W; above by common practice, 75 to 80 % near the peak.',
        belief: 'Judgement: one ride of one motor was measured.',
      },
      electronics: {
        label: 'Electronics',
        meaning: 'Display, controller and chargers on the bike, while moving.',
        source: 'Judgement: 2 to 10 W.',
      },
      lights: {
        label: 'Lights',
        meaning: 'Drawn from the pack all the way; 0 is off.',
        source: 'The lamp’s label.',
      },
    },
    weather: {
      temperatureCelsius: {
        label: 'Air at the start',
        meaning: 'At the height of the start; falls with height.',
        source: `The forecast. ${celsius(15)} is the standard atmosphere.`,
        belief: 'Twelve weather models against stations, matrunich.com, spring 2026: 1.2 to 2.2 K in the mean.',
      },
      windSpeed: {
        label: 'Wind',
        meaning: `Mean at ${height(10)} height, as forecasts give it.`,
        source: 'The forecast.',
        belief: 'Twelve weather models against stations, matrunich.com, spring 2026: 1.5 to 2.4 m/s rms.',
      },
      windFromDegrees: {
        label: 'Wind from',
        meaning: 'Where it comes from: 0 is north, 90 east.',
        source: 'The forecast.',
        belief:
          'Twelve weather models against stations, matrunich.com, spring 2026: 22 to 49° in the mean, light winds counted.',
      },
      seaLevelPressure: {
        label: 'Pressure at sea level',
        meaning: 'As on a weather map; decides with temperature how thick the air is.',
        source: 'The forecast. ISO 2533: 1013.25 hPa.',
      },
      humidity: {
        label: 'Humidity',
        meaning: 'Relative humidity of the air.',
        source: 'The forecast.',
      },
      lapseRate: {
        label: 'Cooling with height',
        meaning: 'Temperature lost for each metre of height.',
        source: inUnits('ISO 2533: 6.5 K for each km.', 'ISO 2533: 6.5 K for each km, 3.6 °F for each 1,000 ft.'),
      },
    },
    battery: {
      reserve: {
        label: 'Reserve',
        meaning: 'Charge of all packs together that you refuse to go below before the finish.',
        source: 'A choice.',
      },
      temperatureCelsius: {
        label: 'Packs’ temperature',
        meaning: 'Cold raises resistance and takes capacity.',
        source: 'Kept indoors, then air temperature and some own heat.',
      },
      swapTime: {
        label: 'Time for a swap',
        meaning: 'Halt to change to the next pack where one is used up.',
        source: 'A choice.',
      },
    },
    pack: {
      series: {
        label: 'Cells in series',
        meaning: 'Decides the voltage: 10 of the NMC type are 36 V nominal, 42 V full.',
        source: 'The label: nominal voltage over 3.6 V (LFP 3.2 V).',
      },
      capacityAh: {
        label: 'Rated capacity',
        meaning: 'Ampere-hours when new; 13.9 Ah at 36 V are 500 Wh.',
        source: 'The label (IEC 61960: at a fifth of an hour’s rate, 20 °C).',
      },
      charge: {
        label: 'Charge at the start',
        meaning: 'Of all the pack holds.',
        source: 'The display before you set off.',
      },
      health: {
        label: 'Health',
        meaning: 'Capacity left against new.',
        source: 'A measured full discharge; 85 % is a common guess for a used pack.',
        belief: 'Judgement: rarely measured, and new cells vary by 2 %.',
      },
      mass: {
        label: 'Mass',
        meaning: 'Pack with its case and mount.',
        source: 'A scale.',
      },
      floor: {
        label: 'Motor stops at',
        meaning: 'Charge at which the bike cuts the motor; 0 % on display.',
        source: 'Judgement: 90 to 97 % of the rated energy can be used.',
      },
      cellResistance: {
        label: 'Cell resistance × Ah',
        meaning: `Direct-current resistance of one cell times its ampere-hours, at ${celsius(25)}.`,
        source: 'From published discharge curves: 0.13 Ω·Ah NMC type, 0.16 LFP.',
      },
      wiringResistance: {
        label: 'Wiring resistance',
        meaning: 'Protection board, leads and plug.',
        source: 'Judgement: 20 to 50 mΩ.',
      },
      dischargeCurrent: {
        label: 'Greatest current',
        meaning: 'What the pack gives at most; the motor gets less above it.',
        source: 'The label.',
      },
      chargeCurrent: {
        label: 'Greatest charging current',
        meaning: 'What the pack takes at most.',
        source: 'The label; common practice, no source: 4 A standard, 6 A fast.',
      },
    },
    mains: {
      voltage: {
        label: 'Charger voltage',
        meaning: 'Its constant voltage; never above the pack’s full voltage.',
        source: 'The charger’s label.',
      },
      current: {
        label: 'Charger current',
        meaning: 'Its constant current.',
        source: 'The charger’s label; common practice, no source: 4 A standard, 6 A fast.',
      },
      efficiency: {
        label: 'Charger efficiency',
        meaning: 'Energy into the pack for energy from the socket.',
        source: 'Judgement, by analogy with EU 2019/1782.',
      },
    },
    stop: {
      duration: {
        label: 'Stay for',
        meaning: 'From arrival to departure.',
        source: 'A choice.',
        belief: 'Judgement: a stop lasts longer than meant more often than not.',
      },
      chargeTo: {
        label: 'Charge up to',
        meaning: 'Charge of all packs together at which you leave.',
        source: 'A choice; the last tenth charges slowest.',
      },
    },
    stretch: {
      shelter: {
        label: 'Wind that gets through',
        meaning: 'Share of the wind of open land that reaches you: 0 % in a tunnel or deep wood.',
        source: 'Judgement: about half behind hedges and houses.',
      },
      speedLimit: {
        label: 'No faster than',
        meaning: 'You ride no faster here: a town, a shared path, a rough descent.',
        source: 'A choice, or the sign.',
      },
      assistRatio: {
        label: 'Assist',
        meaning: 'Motor power for each watt of yours, on climbs as on the flat.',
        source: 'A choice; 0 % is no motor.',
      },
    },
    crossing: {
      duration: {
        label: 'Time it takes',
        meaning: 'From arriving to riding on, waiting included.',
        source: `The timetable. Until you set it: 20 minutes and ${passageSpeed}, a guess.`,
      },
    },
    legs: {
      length: {
        label: 'Leg length',
        meaning: 'Legs are cut at multiples of this length, and at every stop.',
        source: 'A choice.',
      },
    },
    needs: {
      wPrime: {
        label: 'Work above critical power (W′)',
        meaning: 'What you can spend above critical power before you must ease off.',
        source:
          'The same test as critical power. Clark et al. 2019 measured 17.9 and 18.7 kJ in trained groups; 15 kJ is a choice.',
      },
      grossEfficiency: {
        label: 'Gross efficiency',
        meaning: 'Work on the pedals for the energy the body turns over.',
        source: 'Moseley and Jeukendrup 2001, MSSE 33:621-627: 19.8 ± 0.6 %, less below 130 W.',
      },
      carbohydratePerHour: {
        label: 'Carbohydrate',
        meaning: 'What you mean to eat and drink in an hour of the ride.',
        source:
          'Thomas, Erdman and Burke 2016, MSSE 48:543-568 (from memory): 30 to 60 g/h, up to 90 g/h beyond 2.5 h; 60 is a choice.',
      },
      waterCool: {
        label: `Water at ${celsius(10)}`,
        meaning: `What you drink in an hour at ${celsius(10)} and below.`,
        source: 'A choice. Drink to thirst.',
      },
      waterHot: {
        label: `Water at ${celsius(30)}`,
        meaning: `The same at ${celsius(30)} and above; even between.`,
        source: 'A choice. Drink to thirst.',
      },
      gelCarbohydrate: {
        label: 'Carbohydrate in a gel',
        meaning: 'Of one gel.',
        source: 'The label; 25 g is a choice.',
      },
      barCarbohydrate: {
        label: 'Carbohydrate in a bar',
        meaning: 'Of one bar.',
        source: 'The label; 40 g is a choice.',
      },
      barShare: {
        label: 'Bars, of all carbohydrate',
        meaning: 'The rest is gels, or the same in a drink.',
        source: 'A choice.',
      },
      bottle: {
        label: 'Water in a bottle',
        meaning: 'Of one full bottle.',
        source: `The bottle; ${inUnits('0.75 litres', '25 fl oz')} is a choice.`,
      },
    },
    wet: {
      rolling: {
        label: 'Rolling on a wet road',
        meaning: 'Multiplies rolling where the road is wet.',
        source: 'judgement',
      },
      braking: {
        label: 'Braking on a wet road',
        meaning: 'Multiplies the deceleration you brake with, and what you accept in bends.',
        source: 'judgement',
      },
      rain: {
        label: 'Rain that wets the road',
        meaning: 'From here the road is wholly wet; less wets it in part.',
        source: 'judgement',
      },
      dryingTime: {
        label: 'Road dries in',
        meaning: 'From wet to dry after the rain.',
        source: 'judgement',
      },
    },
    passage: {
      boardBefore: {
        label: 'Be there before',
        meaning: 'How long before it leaves you must be there.',
        source: 'Who runs the crossing; 10 minutes is a choice.',
      },
      length: {
        label: 'Until you ride on',
        meaning: 'From leaving to riding on at the other side.',
        source: `The timetable. Until you set it: ${passageSpeed} on the water, a guess.`,
      },
      interval: {
        label: 'Every',
        meaning: 'Time from one sailing to the next.',
        source: 'The timetable.',
      },
    },
    control: {
      speed: {
        label: 'Speed from the start',
        meaning: 'Halts included: the time is the distance at this speed.',
        source: 'The rules of the event.',
      },
    },
    carried: {
      blockCells: {
        label: 'Cells in series in a block',
        meaning: '4 of LFP are 12.8 V nominal, 14.6 V full.',
        source: 'The block’s label: nominal voltage over 3.2 V (NMC type 3.6 V).',
      },
      blockAh: {
        label: 'Capacity of a block',
        meaning: 'Ampere-hours when new.',
        source: 'The block’s label (IEC 61960: at a fifth of an hour’s rate, 20 °C).',
      },
      blocksInSeries: {
        label: 'Blocks in series',
        meaning: 'Raises the voltage.',
        source: 'A choice.',
      },
      blocksInParallel: {
        label: 'Blocks in parallel',
        meaning: 'Raises capacity and current.',
        source: 'A choice.',
      },
      health: {
        label: 'Health',
        meaning: 'Capacity left against new.',
        source: 'A measured full discharge; 85 % is a common guess for used blocks.',
      },
      cellResistance: {
        label: 'Cell resistance × Ah',
        meaning: `Direct-current resistance of one cell times its ampere-hours, at ${celsius(25)}.`,
        source: 'From published discharge curves: 0.16 Ω·Ah LFP, 0.13 NMC type; power cells 0.02 to 0.03.',
      },
      wiringResistance: {
        label: 'Wiring resistance of a block',
        meaning: 'Protection board, leads and plug of one block.',
        source: 'Judgement: 20 to 50 mΩ a pack.',
      },
      dischargeCurrent: {
        label: 'Greatest current of a block',
        meaning: 'What one block gives at most for hours.',
        source: 'The block’s label.',
      },
      lowestCellVoltage: {
        label: 'Lowest voltage of a cell',
        meaning: 'Under load; below it the pack counts as empty. 2.5 V for LFP, 3.0 V for the NMC type.',
        source: 'Cell data sheets and protection boards.',
      },
      blockMass: {
        label: 'Mass of a block',
        meaning: 'With its share of case and leads.',
        source: 'A scale.',
      },
      charge: {
        label: 'Charge when last looked at',
        meaning: 'Of all the pack holds.',
        source: 'Its charger says when it is full.',
      },
      storage: {
        label: 'In store since then',
        meaning: 'It loses charge by itself and to its protection board.',
        source: 'A choice.',
      },
      boardCurrent: {
        label: 'Draw of a protection board',
        meaning: 'In store, each block: 0.1 mA; 1 to 5 mA with a display or radio.',
        source: 'Protection board data: 20 to 100 µA.',
      },
    },
    converter: {
      voltage: {
        label: 'Set voltage',
        meaning: 'Constant voltage at its output; never above the bike pack’s full voltage.',
        source: 'A meter at its output, before anything is connected.',
      },
      current: {
        label: 'Set current',
        meaning: 'Constant current at its output.',
        source: 'A choice; common practice, no source: 4 A standard, 6 A fast.',
      },
      inputVoltageLeast: {
        label: 'Least input voltage',
        meaning: 'Below it the converter does not run.',
        source: 'The converter’s data sheet.',
      },
      inputVoltageMost: {
        label: 'Greatest input voltage',
        meaning: 'Above it the converter breaks.',
        source: 'The converter’s data sheet.',
      },
      inputCurrent: {
        label: 'Greatest input current',
        meaning: 'What it draws from the source at most.',
        source: 'The converter’s data sheet.',
      },
      outputVoltageLeast: {
        label: 'Least output voltage',
        meaning: 'Below it the converter cannot hold its current.',
        source: 'The converter’s data sheet.',
      },
      outputVoltageMost: {
        label: 'Greatest output voltage',
        meaning: 'The highest voltage that can be set.',
        source: 'The converter’s data sheet.',
      },
      outputCurrent: {
        label: 'Greatest output current',
        meaning: 'What it gives at most.',
        source: 'The converter’s data sheet.',
      },
      outputPower: {
        label: 'Greatest output power',
        meaning: 'What it gives at most, cooled as it is.',
        source: 'The converter’s data sheet.',
      },
      efficiency: {
        label: 'Best efficiency',
        meaning:
          'At about half load; less at full and small loads, and by up to 1.5 points where the output is above 2.5 times the source’s voltage.',
        source: 'Judgement: published designs state 93 to 98 %; cheap modules are lower.',
      },
      standby: {
        label: 'Standby draw',
        meaning: 'Taken from the source as long as it runs.',
        source: 'From memory: 20 to 50 mA.',
      },
      headroom: {
        label: 'Headroom',
        meaning: 'Least difference of input and output of a converter that steps one way only.',
        source: 'Judgement; the data sheet may state it.',
      },
      mass: {
        label: 'Mass',
        meaning: 'Converter with its case.',
        source: 'A scale.',
      },
    },
    cable: {
      areaMm2: {
        label: 'Conductor',
        meaning: 'Cross-section of one conductor, mm².',
        source: 'Printed on the cable.',
      },
      length: {
        label: 'Cable, one way',
        meaning: 'Current flows there and back, which is counted.',
        source: 'A tape.',
      },
      temperature: {
        label: 'Temperature of the cable',
        meaning: `Warm copper resists more; above ${celsius(40)} it may carry less.`,
        source: 'A choice.',
      },
      connectorRating: {
        label: 'Connectors’ rating',
        meaning: 'Printed current of the weakest one; 60 % of it is used for hours.',
        source: 'Printed on the connector; common families are 15, 30 and 45 A.',
      },
      mass: {
        label: 'Mass',
        meaning: 'Cable with its plugs and fuse.',
        source: 'A scale.',
      },
    },
    socket: {
      free: {
        label: 'A socket is free for',
        meaning: 'Share of the stop; spread evenly over it.',
        source: 'A guess.',
      },
      mass: {
        label: 'Mass of the charger',
        meaning: 'If you carry it; 0 if it stands there.',
        source: 'A scale.',
      },
    },
  }
}

export type Words = ReturnType<typeof en>
